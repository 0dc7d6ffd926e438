import { follow, roomWith, spanOf, type Followed } from './room.ts'
import type { Turns, TurnsInput } from './room-turns-schema.ts'

type Hung = Followed & { readonly kg: number }

/** Load and capacity are held to with this much to spare for rounding, as a share. */
const ROUNDING = 1e-9

/**
 * Turns of batches in a drying room: each planned batch, the one that could go in first before the others, is given the first whole day from
 * which the water of all batches never exceeds what unit and fresh air take away at the set air, and the room never holds more than it can.
 * A batch given its turn is not moved again for a later one. The rule is simple on purpose: it can be checked by hand on the day's table.
 */
export function roomTurns(input: TurnsInput): Turns {
  const { room, unit, freshAir, capacityKg } = input
  const span = spanOf(input.days)
  const removed =
    unit &&
    roomWith({ room, unit, ...(freshAir ? { freshAir } : {}), days: 1 }, [{ name: '', inDay: 0, kgPerDay: [0] }])
      .days[0]!.removedKgPerDay
  const hanging: Hung[] = input.batches.map((b) => ({ ...follow(b, room, span), kg: b.kg }))
  const placed: Hung[] = []
  const order = input.planned.map((b, i) => ({ b, i })).toSorted((x, y) => x.b.inDay - y.b.inDay || x.i - y.i)
  const turns = new Map<number, Turns['turns'][number]>()
  for (const { b, i } of order) {
    const asked = Math.ceil(b.inDay)
    const stay = b.outDay === undefined ? {} : { outDay: b.outDay - b.inDay }
    const own: Hung = { ...follow({ ...b, inDay: 0, ...stay }, room, span), kg: b.kg }
    const there = [...hanging, ...placed]
    const on = firstDay(own, asked, there, span, removed, capacityKg)
    const turn = { name: b.name, askedDay: b.inDay }
    if (on.day === undefined) {
      turns.set(i, { ...turn, because: on.because })
      continue
    }
    const hung = shifted(own, on.day, span)
    placed.push(hung)
    turns.set(i, {
      ...turn,
      inDay: on.day,
      ...(hung.outDay === undefined ? {} : { outDay: hung.outDay }),
      because: on.because,
    })
  }
  const all = [...hanging, ...placed]
  const bare = all.map(({ kg: _kg, ...followed }): Followed => followed)
  const days = Array.from({ length: span }, (_, d) => ({
    day: d + 1,
    hangingLoadKg: loadOn(hanging, d),
    loadKg: loadOn(all, d),
    ...(removed === undefined ? {} : { removedKg: removed }),
    roomKg: heldOn(all, d),
  }))
  const balance =
    unit && all.length > 0 ? roomWith({ room, unit, ...(freshAir ? { freshAir } : {}), days: span }, bare) : undefined
  return {
    turns: input.planned.map((_, i) => turns.get(i)!),
    days,
    ...(balance ? { balance } : {}),
    batches: bare.map(({ kgPerDay, ...b }) => ({ ...b, peakKgPerDay: Math.max(0, ...kgPerDay) })),
    warnings: [
      ...(balance?.warnings ?? []),
      ...(unit
        ? []
        : ['no unit is given for the room, so the water is held against nothing: add its air and coil to the room']),
      ...(capacityKg === undefined ? ['no capacity is given for the room, so its weight is held against nothing'] : []),
      ...(capacityKg !== undefined && days.some((d) => heldOn(hanging, d.day - 1) > capacityKg * (1 + ROUNDING))
        ? [`what hangs there is more than the ${capacityKg} kg the room is said to hold`]
        : []),
    ],
  }
}

const loadOn = (batches: readonly Hung[], d: number): number => batches.reduce((s, b) => s + (b.kgPerDay[d] ?? 0), 0)
const isIn = (b: Followed, d: number): boolean => b.inDay < d + 1 && (b.outDay ?? Infinity) > d
const heldOn = (batches: readonly Hung[], d: number): number => batches.reduce((s, b) => (isIn(b, d) ? s + b.kg : s), 0)

/** A batch followed from day 0, hung on a later whole day. */
const shifted = (own: Hung, day: number, span: number): Hung => ({
  ...own,
  inDay: day,
  ...(own.outDay === undefined ? {} : { outDay: own.outDay + day }),
  ...(own.crustRiskFrom === undefined ? {} : { crustRiskFrom: own.crustRiskFrom + day }),
  kgPerDay: Array.from({ length: span }, (_, d) => (d < day ? 0 : (own.kgPerDay[d - day] ?? 0))),
})

/** The first day on which a batch fits, or why there is none. */
function firstDay(
  own: Hung,
  asked: number,
  there: readonly Hung[],
  span: number,
  removed: number | undefined,
  capacityKg: number | undefined,
): { readonly day?: number; readonly because: string } {
  const peak = Math.max(0, ...own.kgPerDay)
  if (removed !== undefined && peak > removed * (1 + ROUNDING))
    return {
      because: `alone it gives off up to ${peak.toFixed(2)} kg a day, and ${removed.toFixed(2)} kg are taken away: make it smaller, or hang it in another room`,
    }
  if (capacityKg !== undefined && own.kg > capacityKg)
    return { because: `it is ${own.kg} kg, and the room holds ${capacityKg} kg` }
  let met: { readonly day: number; readonly what: 'water' | 'weight' } | undefined
  for (let day = asked; day < span; day++) {
    const clash = clashFrom(shifted(own, day, span), day, there, span, removed, capacityKg)
    if (!clash)
      return {
        day,
        because: met
          ? `moved from day ${asked} to day ${day}: before, on day ${met.day}, ${met.what === 'water' ? 'the water of all batches' : 'the weight in the room'} would be too much`
          : 'fits on the day asked for',
      }
    met ??= clash
  }
  return { because: `no day within the ${span} days shown has room for it` }
}

function clashFrom(
  hung: Hung,
  day: number,
  there: readonly Hung[],
  span: number,
  removed: number | undefined,
  capacityKg: number | undefined,
): { readonly day: number; readonly what: 'water' | 'weight' } | undefined {
  for (let d = day; d < span; d++) {
    if (!isIn(hung, d)) return undefined
    const own = hung.kgPerDay[d]!
    if (removed !== undefined && own > 0 && loadOn(there, d) + own > removed * (1 + ROUNDING))
      return { day: d, what: 'water' }
    if (capacityKg !== undefined && heldOn(there, d) + hung.kg > capacityKg * (1 + ROUNDING))
      return { day: d, what: 'weight' }
  }
  return undefined
}
