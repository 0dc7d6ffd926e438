import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import type { Fact } from '../facts.ts'
import { zoneOf } from '../time-zone.ts'
import type { BatchRecord } from './batches.ts'
import { checkedInstruments, proving } from './checks.ts'
import { daysOfCurve, daysOfMeasure, daysOfTreatment, type Span } from './days-of-use.ts'
import { doubtsOf, type Doubt } from './doubt.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'
import { lotsNamed, type LotFacts } from './lots.ts'

/** A check that says something of an instrument that a slow batch rests on, oldest first. */
export type CheckedOn = {
  readonly instrument: string
  readonly on: string
  readonly method: RecordedFact<'instrument.check'>['method']
  readonly good: boolean
  readonly unit: string
  /** What the check allowed, ± in its unit: how far a reading of that day may be off. */
  readonly tolerance: number
}

/** A batch hung in a room, or taken out of every room where none is named. */
export type Placed = {
  readonly seq: number
  readonly at: string
  readonly room?: string
  readonly purpose?: RecordedFact<'room.add'>['purpose']
  /** What the room was set to when the batch was put there, °C. */
  readonly tempC?: number
}

type Batch = Pick<BatchRecord, 'batch' | 'on' | 'lines' | 'weighings' | 'measures' | 'curves' | 'treatments'>

/** The zone the kitchen's days are told in. */
export const zoneIn = async (store: Store): Promise<string> => zoneOf((await factsOf(store, 'kitchen.set')).at(-1))

/** Days on which each instrument was used for a batch: first and last. */
export function daysOfUse(batch: Batch, timeZone?: string): Map<string, readonly Span[]> {
  const days = new Map<string, Span[]>()
  const own = { from: batch.on, to: batch.on }
  const used = (instrument: string | undefined, span: Span): void => {
    if (instrument !== undefined) days.set(instrument, [...(days.get(instrument) ?? []), span])
  }
  for (const l of batch.lines) used(l.scale, own)
  for (const w of batch.weighings) used(w.instrument, own)
  for (const m of batch.measures) used(m.instrument, daysOfMeasure(m, timeZone))
  for (const c of batch.curves) for (const ch of c.channels) used(ch.instrument, daysOfCurve(batch.on, c))
  for (const t of batch.treatments ?? []) used(t.instrument, daysOfTreatment(t))
  return days
}

/** Checks of the instruments used, up to the last day each was used. */
export async function checksOf(store: Store, batch: Batch): Promise<CheckedOn[]> {
  const days = daysOfUse(batch, await zoneIn(store))
  if (days.size === 0) return []
  const checks = (await checkedInstruments(store, [...days.keys()])).flatMap((i) => proving(i.checks))
  return checks
    .toSorted((a, b) => a.root - b.root)
    .filter((c) => days.get(c.instrument)!.some((d) => c.on <= d.to))
    .map(({ instrument, on, method, reference, allowed, withinTolerance, unit }) => ({
      instrument,
      on,
      method,
      good: withinTolerance,
      unit,
      reference,
      tolerance: allowed,
    }))
}

/** Doubts on any day of use that nobody has lifted for this batch, whatever its kind: it may be read or logged long after its own day. */
export async function doubtsInUse(store: Store, batch: Batch): Promise<Map<string, Doubt>> {
  const days = daysOfUse(batch, await zoneIn(store))
  const found = new Map<string, Doubt>()
  if (days.size === 0) return found
  const settled = await factsOf(store, 'doubt.settle', batch.batch)
  for (const { instrument: of, checks: mine } of await checkedInstruments(store, [...days.keys()])) {
    const { instrument } = of
    const open = doubtsOf(mine).find(
      (d) =>
        days.get(instrument)!.some(({ from, to }) => (d.since === undefined || d.since <= to) && from <= d.found) &&
        settled.findLast((s) => s.instrument === instrument && s.check === d.check)?.outcome !== 'stands',
    )
    if (open) found.set(instrument, open)
  }
  return found
}

/** Every setting a room was ever given, in the order written; what was withdrawn was never one. */
async function settingsOf(store: Store): Promise<Map<string, (Fact<'room.add'> & { readonly seq: number })[]>> {
  const rows = await store.read
    .selectFrom('entry as e')
    .leftJoin('superseded as s', 's.seq', 'e.seq')
    .select(['e.text', 'e.hash', 's.how'])
    .where('e.kind', '=', 'room.add')
    .orderBy('e.seq')
    .execute()
  const all = rows.flatMap(({ text, hash, how }) => {
    const entry = fromText(text, hash)
    return entry.kind === 'room.add' && how !== 'withdrawn' ? [{ ...entry.body, seq: entry.seq }] : []
  })
  return Map.groupBy(all, (s) => s.room)
}

/**
 * The rooms a batch hung in, in order of the hanging: the instant of the body, not that of its recording. Each room as it was last written
 * before the batch was first recorded there, so that a room set anew does not judge anew what hung in it; as first written, where it was not.
 */
export async function placesOf(store: Store, batch: string): Promise<Placed[]> {
  const rows = await store.read
    .selectFrom('fact as f')
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .select(['e.text', 'e.hash', 'f.root'])
    .where('f.kind', '=', 'batch.place')
    .where('f.subject', '=', batch)
    .orderBy('f.root')
    .execute()
  if (rows.length === 0) return []
  const rooms = await settingsOf(store)
  return rows
    .flatMap(({ text, hash, root }): Placed[] => {
      const entry = fromText(text, hash)
      if (entry.kind !== 'batch.place') return []
      const { room, at } = entry.body
      const settings = room === undefined ? undefined : rooms.get(room)
      const known = settings?.findLast((s) => s.seq < root) ?? settings?.[0]
      return [
        {
          seq: entry.seq,
          at,
          ...(room === undefined ? {} : { room }),
          ...(known === undefined ? {} : { purpose: known.purpose, tempC: known.tempC }),
        },
      ]
    })
    .toSorted((a, b) => a.at.localeCompare(b.at))
}

/** What stands behind the lots of a batch: the larger lots they were split off, and the batches they are rework of with their lots. */
export type Ancestry = {
  readonly lots: readonly Pick<LotFacts, 'lot' | 'material' | 'on' | 'documents' | 'origin'>[]
  readonly batches: readonly {
    readonly batch: string
    readonly on: string
    readonly kind: BatchRecord['recipeKind']
    readonly lots: readonly string[]
    /** Materials of its lines, whether or not their lots were said. */
    readonly materials: readonly string[]
    /** As planned and weighed, with its scales as they stood on its day: what it brings as rework is reckoned from it. */
    readonly made: Pick<BatchRecord, 'meatKg' | 'recipeBody' | 'lines' | 'weighings' | 'instruments'>
  }[]
}

type Behind = Pick<
  BatchRecord,
  'batch' | 'on' | 'recipeKind' | 'lines' | 'weighings' | 'meatKg' | 'recipeBody' | 'instruments'
>

/** Codes of the lots a batch was made of: weighed, and planned where the line was not weighed. */
export const lotsIn = ({ lines, weighings }: Pick<Behind, 'lines' | 'weighings'>): string[] => {
  const planned = new Map(lines.map((l) => [l.line, l.lot]))
  const weighed = new Set(weighings.map((w) => w.line))
  const all = [
    ...weighings.map((w) => w.lot ?? planned.get(w.line)),
    ...lines.filter((l) => !weighed.has(l.line)).map((l) => l.lot),
  ]
  return [...new Set(all)].filter((l) => l !== undefined)
}

/** Follows lots back to where their meat came in at the door. `read` gives a batch by its code. */
export async function ancestryOf(
  store: Store,
  lots: readonly LotFacts[],
  read: (batch: string) => Promise<Behind | undefined>,
): Promise<Ancestry> {
  const known = new Map<string, LotFacts>(lots.map((l) => [l.lot, l]))
  const own = new Set(known.keys())
  const batches = new Map<string, Ancestry['batches'][number]>()
  let next: readonly LotFacts[] = lots
  while (next.length > 0) {
    const wanted = new Set<string>()
    for (const { origin } of next) {
      if (origin === undefined) continue
      if ('lot' in origin) wanted.add(origin.lot)
      else if (!batches.has(origin.batch)) {
        const made = await read(origin.batch)
        if (!made) continue
        const inside = lotsIn(made)
        batches.set(origin.batch, {
          batch: made.batch,
          on: made.on,
          kind: made.recipeKind,
          lots: inside,
          materials: [...new Set(made.lines.map((l) => l.material))],
          made: {
            meatKg: made.meatKg,
            recipeBody: made.recipeBody,
            lines: made.lines,
            weighings: made.weighings,
            instruments: made.instruments,
          },
        })
        for (const l of inside) wanted.add(l)
      }
    }
    next = await lotsNamed(
      store,
      [...wanted].filter((l) => !known.has(l)),
    )
    for (const l of next) known.set(l.lot, l)
  }
  return {
    lots: [...known.values()]
      .filter((l) => !own.has(l.lot))
      .map(({ lot, material, on, documents, origin }) => ({
        lot,
        material,
        on,
        ...(documents === undefined ? {} : { documents }),
        ...(origin === undefined ? {} : { origin }),
      })),
    batches: [...batches.values()],
  }
}
