import { humidityRatio, saturationPressurePa, STANDARD_PRESSURE_PA, vapourPressurePa } from '../heat/psychrometrics.ts'
import type { DryingStage } from './course-schema.ts'
import { crustRisk } from './crust.ts'
import { productOf } from './product.ts'
import type { RoomInput, RoomOutput } from './room-schema.ts'
import { AS_PUBLISHED, runCourse } from './run.ts'

const GAS_DRY_J_PER_KG_K = 287.042
const HOURS = 24
const USUAL_DAYS = 30
/** A batch is followed at most this long in the room. */
const LONGEST_STAY_DAYS = 365

const ratioAt = (tempC: number, rhPct: number): number =>
  humidityRatio((rhPct / 100) * saturationPressurePa(tempC), STANDARD_PRESSURE_PA)

/** kg of dry air in a cubic metre of moist air. */
const dryAirKgPerM3 = (tempC: number, ratio: number): number =>
  STANDARD_PRESSURE_PA / (GAS_DRY_J_PER_KG_K * (tempC + 273.15) * (1 + ratio / 0.621945))

/** Water a stream of room air gives up between the room's ratio and another, kg a day; negative where it brings water in. */
const taken = (m3PerHour: number, hours: number, roomC: number, room: number, other: number): number =>
  m3PerHour * hours * dryAirKgPerM3(roomC, room) * (room - other)

type Batch = RoomInput['batches'][number]

/**
 * Moisture a drying room's batches give off day by day against what its unit takes away at the room's set air.
 *
 * @source ASHRAE Handbook—Fundamentals, psychrometrics: water removed = dry air × fall of the humidity ratio over the coil
 */
export function room(input: RoomInput): RoomOutput {
  const span = spanOf(input.days)
  return roomWith(
    input,
    input.batches.map((b) => follow(b, input.room, span)),
  )
}

/** Days of the calendar. */
export const spanOf = (days: number | undefined): number => Math.ceil(days ?? USUAL_DAYS)

/** The room's balance with batches already followed through it. */
export function roomWith(input: Omit<RoomInput, 'batches'>, followed: readonly Followed[]): RoomOutput {
  const { room: set, unit, freshAir } = input
  const span = spanOf(input.days)
  const hours = unit.hoursPerDay ?? HOURS
  const inside = ratioAt(set.tempC, set.rhPct)
  const coil = Math.min(
    ratioAt(unit.coilTempC, unit.coilRhPct ?? 100),
    humidityRatio(saturationPressurePa(unit.coilTempC), STANDARD_PRESSURE_PA),
  )
  const outside = freshAir ? ratioAt(freshAir.tempC, freshAir.rhPct) : 0
  const removedAt = (ratio: number): number =>
    Math.max(0, taken(unit.airM3PerHour, hours, set.tempC, ratio, coil)) +
    (freshAir ? taken(freshAir.m3PerHour, HOURS, set.tempC, ratio, outside) : 0)
  const removed = removedAt(inside)
  const fresh = freshAir ? taken(freshAir.m3PerHour, HOURS, set.tempC, inside, outside) : 0
  const days = Array.from({ length: span }, (_, day) => {
    const load = followed.reduce((s, f) => s + (f.kgPerDay[day] ?? 0), 0)
    return {
      day: day + 1,
      loadKgPerDay: load,
      removedKgPerDay: removed,
      marginKgPerDay: removed - load,
      settlesAtRhPct: settles(load, removedAt, set.tempC),
    }
  })
  const peak = days.reduce((a, b) => (b.loadKgPerDay > a.loadKgPerDay ? b : a))
  const short = days.filter((d) => d.marginKgPerDay < 0)
  const latentKw = (peak.loadKgPerDay * (2501 - 2.326 * set.tempC)) / 86_400
  return {
    days,
    peakLoadKgPerDay: peak.loadKgPerDay,
    peakDay: peak.day,
    unitKgPerDay: removed - fresh,
    freshAirKgPerDay: fresh,
    latentKw,
    enough: short.length === 0,
    batches: followed.map((f) => {
      const { kgPerDay, modelled: _modelled, ...b } = f
      return { ...b, peakKgPerDay: Math.max(0, ...kgPerDay) }
    }),
    warnings: [
      'no heat or moisture through walls, doors, people or washing is counted: leave the unit a margin',
      ...(followed.some((f) => f.modelled)
        ? [
            'what a batch gives off by its piece is a model, and published batches mostly gave off more than it says (docs/method/dry.md): leave the unit a margin',
          ]
        : []),
      ...(short.length > 0
        ? [
            `on ${short.length} of ${span} days the batches give off more than is taken away at ${set.rhPct} %: the room rises, to about ${peak.settlesAtRhPct.toFixed(0)} % on day ${peak.day}`,
          ]
        : []),
      ...(removed > 0 && peak.loadKgPerDay < removed / 4
        ? [
            'the unit takes more than four times the load: run without control it would dry the room and crust the batches',
          ]
        : []),
      ...(coil >= inside ? ['the coil is no drier than the room: it takes no water out'] : []),
      ...followed.flatMap((f) =>
        f.crustRiskFrom === undefined
          ? []
          : [`${f.name}: its rim dries faster than its core can feed it from day ${f.crustRiskFrom}`],
      ),
      ...followed.flatMap((f) =>
        f.outDay === undefined ? [`${f.name}: no day out is known; it is followed to the end`] : [],
      ),
    ],
    working: [
      {
        step: 'water in the room air',
        expression: `${set.tempC} °C, ${set.rhPct} %`,
        value: 1000 * inside,
        unit: 'g/kg dry air',
      },
      {
        step: 'water in the air off the coil',
        expression: `${unit.coilTempC} °C, ${unit.coilRhPct ?? 100} %`,
        value: 1000 * coil,
        unit: 'g/kg dry air',
      },
      {
        step: 'dry air through the unit',
        expression: 'm³/h × h × kg dry air per m³',
        value: unit.airM3PerHour * hours * dryAirKgPerM3(set.tempC, inside),
        unit: 'kg/day',
      },
      { step: 'water the unit takes', expression: 'dry air × (room − coil)', value: removed - fresh, unit: 'kg/day' },
      { step: 'water fresh air takes', expression: 'dry air × (room − outside)', value: fresh, unit: 'kg/day' },
      { step: 'largest load', expression: `day ${peak.day}, all batches`, value: peak.loadKgPerDay, unit: 'kg/day' },
      { step: 'its latent heat', expression: 'load × latent heat / 86 400', value: latentKw, unit: 'kW' },
    ],
  }
}

export type Followed = {
  readonly name: string
  readonly inDay: number
  readonly outDay?: number
  readonly crustRiskFrom?: number
  /** Followed by the drying model, its loss not given. */
  readonly modelled?: true
  /** Water given off on each day of the calendar, kg. */
  readonly kgPerDay: readonly number[]
}

/** What one batch gives off on each day of the calendar. */
export function follow(batch: Batch, set: RoomInput['room'], span: number): Followed {
  const { name, kg, inDay, outDay } = batch
  if (batch.lossPctPerDay !== undefined)
    return {
      name,
      inDay,
      ...(outDay === undefined ? {} : { outDay }),
      kgPerDay: spread(span, inDay, outDay ?? span, () => (kg * batch.lossPctPerDay!) / 100),
    }
  const piece = batch.piece!
  const product = productOf(piece)
  const before = piece.before ?? []
  const held = before.reduce((s, x) => s + x.days, 0)
  const stay: DryingStage = { ...set, days: LONGEST_STAY_DAYS }
  const days = [0, ...Array.from({ length: span + 1 }, (_, i) => held + i)].filter(
    (d, i, all) => i === 0 || d > all[i - 1]!,
  )
  const order = { product, stages: [...before, stay], factors: AS_PUBLISHED, days }
  const run = runCourse({ ...order, untilReadyBy: held + LONGEST_STAY_DAYS })
  const ready = run.readyDay === undefined ? undefined : inDay + Math.max(0, run.readyDay - held)
  const out = outDay ?? ready
  const at = new Map(run.at.map((s) => [s.day, s.lossPct]))
  const lossAt = (d: number): number => {
    const low = Math.floor(d)
    const [a, b] = [at.get(held + low) ?? 0, at.get(held + low + 1) ?? at.get(held + low) ?? 0]
    return a + (d - low) * (b - a)
  }
  const risk = crustRisk(product, run).find((r) => r.day > held)
  return {
    name,
    inDay,
    modelled: true,
    ...(out === undefined ? {} : { outDay: out }),
    ...(risk === undefined ? {} : { crustRiskFrom: inDay + risk.day - held }),
    kgPerDay: spread(span, inDay, out ?? span, (from, to) => (kg * (lossAt(to) - lossAt(from))) / 100 / (to - from)),
  }
}

/** Rate by the calendar: what is given off between entering and leaving, laid on each day for the part of it the batch is there. */
function spread(span: number, inDay: number, outDay: number, rate: (from: number, to: number) => number): number[] {
  return Array.from({ length: span }, (_, day) => {
    const from = Math.max(day, inDay)
    const to = Math.min(day + 1, outDay)
    return to - from < 1e-9 ? 0 : rate(from - inDay, to - inDay) * (to - from)
  })
}

/** Humidity at which what is taken away equals a load, percent; 100 where even saturated air would not do. */
function settles(load: number, removedAt: (ratio: number) => number, tempC: number): number {
  const saturated = humidityRatio(saturationPressurePa(tempC), STANDARD_PRESSURE_PA)
  let [low, high] = [0, saturated]
  if (removedAt(high) < load) return 100
  for (let i = 0; i < 60; i++) {
    const mid = (low + high) / 2
    if (removedAt(mid) < load) low = mid
    else high = mid
  }
  return Math.min(100, (100 * vapourPressurePa(high, STANDARD_PRESSURE_PA)) / saturationPressurePa(tempC))
}
