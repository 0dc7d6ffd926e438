import type { Fault } from '@forcemeat/craft/calculation'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { facts, type BatchFacts, type Draft, type FactKind, type Ledger, type MassBalance } from '@forcemeat/ledger'
import { standards } from '@forcemeat/rulebook/recipe/rules'
import { standingOfCheck, type CheckedInstrument } from '@forcemeat/rulebook/process/instrument-check'
import { Refusal } from '../http/refusal.ts'

/** Packed weight above what went in by more than this cannot be: packs weigh their casing and their scales' error, no more. Common practice, no source. */
const mostOverPct = 5

type Report = (path: string, message: string) => void
type Known = {
  /** An instrument of the record, or of an earlier draft of the same call. */
  readonly instrument: (instrument: string) => Promise<CheckedInstrument | undefined>
  readonly added: Map<string, CheckedInstrument>
  readonly altitudeM: () => Promise<number | undefined>
  readonly batch: (batch: string) => Promise<
    | {
        readonly on: string
        readonly inKg: number
        readonly packedKg: number
        readonly reworkKg: number
        readonly packs: ReadonlySet<string>
      }
    | undefined
  >
  /** Weight packed or taken as rework by an earlier draft of the same call, kg. */
  readonly more: Map<string, number>
  readonly replaces: (seq: number) => Promise<number>
  /** Whether the record has a lot already. */
  readonly lots: (lot: string) => Promise<boolean>
  /** The last day that is not too far ahead. */
  readonly lastDay: string
}

const days = (from: string, n: number): string => new Date(Date.parse(from) + n * 86_400_000).toISOString().slice(0, 10)

function once<T>(read: (id: string) => Promise<T>): (id: string) => Promise<T> {
  const asked = new Map<string, Promise<T>>()
  return (id) => {
    const found = asked.get(id) ?? read(id)
    asked.set(id, found)
    return found
  }
}

/** What went in; where lines are still to be weighed, at least what was planned. */
const massIn = (record: BatchFacts, { inKg, plannedKg }: MassBalance): number =>
  record.weighedLines >= record.lines.length ? inKg : Math.max(inKg, plannedKg)

function knownBy(ledger: Ledger, now: Date): Known {
  const instruments = once(async () => ledger.instruments())
  const added = new Map<string, CheckedInstrument>()
  return {
    instrument: async (id) => added.get(id) ?? (await instruments('')).find((i) => i.instrument === id),
    added,
    altitudeM: async () => (await ledger.kitchen())?.altitudeM,
    batch: once(async (id) => {
      const [record, balance] = await Promise.all([ledger.batch(id), ledger.massBalance(id)])
      return record && balance
        ? {
            on: record.on,
            inKg: massIn(record, balance),
            packedKg: balance.packedKg,
            reworkKg: balance.reworkKg,
            packs: new Set(record.packs.map((p) => p.pack)),
          }
        : undefined
    }),
    more: new Map(),
    lots: async (lot) => (await ledger.lot(lot)) !== undefined,
    replaces: async (seq) => {
      const entry = await ledger.entry(seq)
      return entry?.kind === 'batch.pack' ? entry.body.totalKg : 0
    },
    lastDay: days(now.toISOString().slice(0, 10), 1),
  }
}

const notAhead = (day: string, path: string, { lastDay }: Known, report: Report): void => {
  if (day.slice(0, 10) > lastDay)
    report(path, `is ${day}, which is still to come; allowed: at latest tomorrow, ${lastDay}, for what has happened`)
}

const inTable = (material: string, path: string, report: Report): void => {
  if (!findMaterial(material))
    report(
      path,
      `is ${JSON.stringify(material)}, which the table of materials does not have; allowed: an id of GET /api/materials`,
    )
}

/** The names of the place that was meant, else of which places there are names. */
function knownStandard(id: string, path: string, report: Report): void {
  if (Object.hasOwn(standards, id)) return
  const ids = Object.keys(standards)
  const same = ids.filter((s) => s.startsWith(`${id.split('.')[0]}.`))
  const places = [...new Set(ids.map((s) => s.split('.')[0]))]
  report(
    path,
    `is ${JSON.stringify(id)}, which the rulebook does not hold; allowed: ${same.length > 0 ? same.join(', ') : `an id that begins with ${places.map((p) => `${p}.`).join(', ')}`}`,
  )
}

const afterDay = (useBy: string | undefined, on: string, report: Report): void => {
  if (useBy !== undefined && useBy < on) report('body.useBy', `is ${useBy}, before ${on}; allowed: ${on} or later`)
}

const madeBy = async (batch: string, known: Known, report: Report): Promise<void> => {
  const on = (await known.batch(batch))?.on
  if (on !== undefined && on > known.lastDay)
    report(
      'body.batch',
      `is planned for ${on}; allowed: from the day before, or the plan corrected to the day it is made`,
    )
}

async function packFits({ body, corrects }: Extract<Draft, { kind: 'batch.pack' }>, known: Known, report: Report) {
  const made = await known.batch(body.batch)
  // A pack that is there already is the same entry sent again, or one the record refuses by its code.
  if (!made || (corrects === undefined && made.packs.has(body.pack))) return
  const before = (known.more.get(body.batch) ?? 0) - (corrects === undefined ? 0 : await known.replaces(corrects))
  known.more.set(body.batch, before + body.totalKg)
  const out = made.packedKg + made.reworkKg + before + body.totalKg
  const what = made.reworkKg > 0 ? 'packed or taken out as rework' : 'packed'
  if (out > made.inKg * (1 + mostOverPct / 100) + 1e-9 && body.note === undefined)
    report(
      'body.totalKg',
      `brings what is ${what} of ${body.batch} to ${Number(out.toFixed(3))} kg, and ${Number(made.inKg.toFixed(3))} kg went in; allowed: at most ${mostOverPct} % more, or a note that says why`,
    )
}

/** A check that cannot be one of its instrument is refused; one that proves nothing, or allows more than the instrument may be off, needs a note. */
async function checkProves({ body }: Extract<Draft, { kind: 'instrument.check' }>, known: Known, report: Report) {
  const instrument = await known.instrument(body.instrument)
  if (!instrument) return
  const { provesNothing, impossible, error, allowed } = standingOfCheck(instrument, body, await known.altitudeM())
  if (impossible !== undefined)
    return report(
      `body.${impossible}`,
      `is ${JSON.stringify(body[impossible])}: ${provesNothing}; allowed: one of those`,
    )
  if (body.note !== undefined) return
  if (provesNothing !== undefined)
    return report(
      'body.reference',
      `makes a check that proves nothing: ${provesNothing}; allowed: a check that shows something, or a note that says why it is recorded (the instrument stands as if it had not been made)`,
    )
  if (Math.abs(error) > allowed && Math.abs(error) <= body.tolerance)
    report(
      'body.tolerance',
      `is ${body.tolerance} ${body.unit}, and ${body.instrument} may be off by ${allowed} ${body.unit} at most: an error of ${error} ${body.unit} is out of tolerance; allowed: at most ${allowed} ${body.unit}, or a note that says why`,
    )
}

async function checkOne(draft: Draft, known: Known, report: Report): Promise<void> {
  switch (draft.kind) {
    case 'lot.receive':
      inTable(draft.body.material, 'body.material', report)
      afterDay(draft.body.useBy, draft.body.on, report)
      return notAhead(draft.body.on, 'body.on', known, report)
    case 'recipe.save':
      for (const part of ['meat', 'additions'] as const)
        for (const [i, { material }] of (draft.body.body[part] ?? []).entries())
          inTable(material, `body.body.${part}[${i}].material`, report)
      for (const [i, id] of (draft.body.body.standards ?? []).entries())
        knownStandard(id, `body.body.standards[${i}]`, report)
      return
    case 'batch.plan':
      for (const [i, { material }] of draft.body.lines.entries()) inTable(material, `body.lines[${i}].material`, report)
      return
    case 'batch.weigh': {
      const capacityG = draft.body.instrument && (await known.instrument(draft.body.instrument))?.capacityG
      if (capacityG && draft.body.kg * 1000 > capacityG)
        report(
          'body.kg',
          `is ${draft.body.kg} kg, more than ${draft.body.instrument} carries; allowed: at most ${capacityG / 1000} kg`,
        )
      return madeBy(draft.body.batch, known, report)
    }
    case 'batch.measure':
      return notAhead(draft.body.taken, 'body.taken', known, report)
    case 'batch.place':
      return notAhead(draft.body.at, 'body.at', known, report)
    case 'price.set':
      return inTable(draft.body.material, 'body.material', report)
    case 'instrument.add':
      known.added.set(draft.body.instrument, draft.body)
      return
    case 'instrument.check':
      await checkProves(draft, known, report)
      return notAhead(draft.body.on, 'body.on', known, report)
    case 'lot.adjust':
    case 'order.take':
    case 'order.close':
    case 'pack.ship':
      return notAhead(draft.body.on, 'body.on', known, report)
    case 'lot.rework':
      if (draft.corrects === undefined && !(await known.lots(draft.body.lot)))
        known.more.set(draft.body.batch, (known.more.get(draft.body.batch) ?? 0) + draft.body.kg)
      return
    case 'batch.pack':
      afterDay(draft.body.useBy, draft.body.on, report)
      notAhead(draft.body.on, 'body.on', known, report)
      await madeBy(draft.body.batch, known, report)
      return packFits(draft, known, report)
    default:
  }
}

/**
 * What cannot have happened is not taken in: a weight its scale cannot carry, more packed than went in, a material nobody knows, a date
 * before its beginning or ahead of today. What has no readable shape is left to the record, which names it better.
 * @throws Refusal 400 with a fault for each
 */
export async function guardSense(ledger: Ledger, now: Date, drafts: readonly unknown[]): Promise<void> {
  const known = knownBy(ledger, now)
  const faults: Fault[] = []
  for (const [i, given] of drafts.entries()) {
    const { kind, body } = (given ?? {}) as { kind?: unknown; body?: unknown }
    if (typeof kind !== 'string' || !Object.hasOwn(facts, kind)) continue
    const parsed = facts[kind as FactKind].safeParse(body)
    if (!parsed.success) continue
    await checkOne({ ...(given as object), body: parsed.data } as Draft, known, (path, message) =>
      faults.push({ path: drafts.length === 1 ? path : `[${i}].${path}`, message }),
    )
  }
  if (faults.length > 0) throw new Refusal(400, faults)
}
