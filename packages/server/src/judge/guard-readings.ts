import type { Fault } from '@forcemeat/craft/calculation'
import { calledAir } from '@forcemeat/craft/log/channels'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { THIN_BLOCK_MM } from '@forcemeat/rulebook/pork/thin'
import { facts, type Draft, type FactKind, type Ledger } from '@forcemeat/ledger'
import { Refusal } from '../http/refusal.ts'

/** What no sausage, its air or its freezer was ever read at: common practice, no source. A figure outside is a slip of the hand. */
const spans = {
  ph: { low: 3, high: 9, unit: 'pH' },
  aw: { low: 0.3, high: 1, unit: 'aw' },
  temperature: { low: -60, high: 150, unit: '°C' },
  humidity: { low: 0, high: 100, unit: '%' },
  'moisture-protein': { low: 0.1, high: 10, unit: 'of moisture to protein' },
  nitrite: { low: 0, high: 5000, unit: 'mg/kg' },
  nitrate: { low: 0, high: 5000, unit: 'mg/kg' },
} as const
const isSpan = (what: string): what is keyof typeof spans => Object.hasOwn(spans, what)
const thicknessMm = { low: 5, high: 700 } as const
/** What comes in at the door, °C; and meat warmer than this is asked about, for °F typed as °C. Common practice, no source. */
const arrivals = { low: -60, high: 60, unit: '°C' } as const
const warmMeatC = 25
/** A room warmer than this freezes nothing through, °C. */
const warmestFreezerC = -5
/** Clocks of two machines may differ by so much, ms. */
const slack = 3_600_000
const DAY = 86_400_000
/** A day of a place begins so much earlier in UTC at the most, ms. */
const anywhere = 14 * 3_600_000

type Report = (path: string, message: string) => void
type Known = {
  readonly now: number
  readonly batchDay: (batch: string) => Promise<string | undefined>
  /** The day the meat of a lot was first here: of a part the whole's, of rework its own. */
  readonly hereOn: (lot: string) => Promise<string | undefined>
}

const minute = (ms: number): string => `${new Date(ms).toISOString().slice(0, 16)}Z`

const notToCome = (instant: string, path: string, { now }: Known, report: Report): void => {
  if (Date.parse(instant) > now + slack)
    report(path, `is ${instant}, which is still to come; allowed: at latest now, ${minute(now)}`)
}

const notBefore = (
  instant: string,
  path: string,
  day: string | undefined,
  of: string,
  report: Report,
  slackMs = DAY,
): void => {
  if (day === undefined) return
  const first = Date.parse(`${day}T00:00:00Z`) - slackMs
  if (Date.parse(instant) < first)
    report(path, `is ${instant}, before ${of} of ${day}; allowed: ${minute(first)} or later`)
}

const within = (
  value: number,
  { low, high, unit }: { low: number; high: number; unit: string },
  path: string,
  report: Report,
): void => {
  if (value < low || value > high) report(path, `is ${value} ${unit}; allowed: ${low} to ${high} ${unit}`)
}

async function measure({ body }: Extract<Draft, { kind: 'batch.measure' }>, known: Known, report: Report) {
  const { what, value, unit, piece, taken, batch } = body
  notToCome(taken, 'body.taken', known, report)
  notBefore(taken, 'body.taken', await known.batchDay(batch), 'the batch', report)
  if (value === undefined) return
  if (what === 'temperature')
    return within(/F$/i.test(unit ?? '') ? ((value - 32) * 5) / 9 : value, spans.temperature, 'body.value', report)
  if (isSpan(what)) return within(value, spans[what], 'body.value', report)
  if (what === 'weight' && piece !== undefined && value <= 0)
    report('body.value', `is ${value} for piece ${piece}; allowed: more than 0`)
}

/** A block as thin as a slip of the unit would make it is asked about; a word that it is so is only taken where there is a question. */
function thinBlock(
  { thicknessMm: mm, thicknessConfirmed }: Extract<Draft, { kind: 'lot.treat' }>['body'],
  report: Report,
): void {
  const thin = mm !== undefined && mm < THIN_BLOCK_MM
  if (thin && !thicknessConfirmed)
    report(
      'body.thicknessMm',
      `is ${mm} mm, thin for a block of meat: were centimetres or inches meant? A thicker block needs more days; allowed: ${THIN_BLOCK_MM} mm or more, or thicknessConfirmed true where it was measured so`,
    )
  if (!thin && thicknessConfirmed)
    report('body.thicknessConfirmed', `goes unused; allowed: only below ${THIN_BLOCK_MM} mm`)
}

function receive({ body }: Extract<Draft, { kind: 'lot.receive' }>, report: Report): void {
  const { arrivalC, material, note } = body
  if (arrivalC === undefined) return
  within(arrivalC, arrivals, 'body.arrivalC', report)
  const meat = findMaterial(material)?.species !== undefined
  if (meat && arrivalC > warmMeatC && arrivalC <= arrivals.high && note === undefined)
    report(
      'body.arrivalC',
      `is ${arrivalC} °C, warm for meat at the door: were °F meant?; allowed: ${warmMeatC} °C or colder, or a note that says why`,
    )
}

async function treat({ body }: Extract<Draft, { kind: 'lot.treat' }>, known: Known, report: Report) {
  const { way, from, until, roomC, lot } = body
  if (way !== 'frozen-room' && way !== 'frozen-centre') return
  if (body.thicknessMm !== undefined)
    within(body.thicknessMm, { ...thicknessMm, unit: 'mm' }, 'body.thicknessMm', report)
  if (body.thicknessMm === undefined || body.thicknessMm >= thicknessMm.low) thinBlock(body, report)
  if (roomC !== undefined && roomC > warmestFreezerC)
    report('body.roomC', `is ${roomC} °C, which freezes nothing; allowed: ${warmestFreezerC} °C or colder`)
  if (body.column !== undefined && calledAir(body.column) && body.note === undefined)
    report(
      'body.column',
      `is ${JSON.stringify(body.column)}, called like the air of a room: was the probe in the centre of the thickest piece?; allowed: the column of the centre, or a note that says where the probe was`,
    )
  const here = await known.hereOn(lot)
  if (here !== undefined && body.on < here)
    report('body.on', `is ${body.on}, before the lot of ${here}; allowed: ${here} or later`)
  for (const [name, instant] of [
    ['from', from],
    ['until', until],
  ] as const) {
    if (instant === undefined) continue
    notToCome(instant, `body.${name}`, known, report)
    notBefore(instant, `body.${name}`, here, 'the lot', report, anywhere)
  }
  if (from !== undefined && until !== undefined && Date.parse(until) < Date.parse(from))
    report('body.until', `is ${until}, before it began at ${from}; allowed: later than that`)
}

type DraftedLot = { readonly on: string; readonly origin?: { readonly lot: string } }

/** A lot that the same call brings into the record. */
function lotDrafted(d: Draft | undefined): [string, DraftedLot][] {
  if (d?.kind === 'lot.receive' || d?.kind === 'lot.rework') return [[d.body.lot, { on: d.body.on }]]
  return d?.kind === 'lot.split' ? [[d.body.lot, { on: d.body.on, origin: { lot: d.body.from } }]] : []
}

async function checkOne(draft: Draft, known: Known, report: Report): Promise<void> {
  switch (draft.kind) {
    case 'lot.receive':
      return receive(draft, report)
    case 'batch.measure':
      return measure(draft, known, report)
    case 'batch.place':
      notToCome(draft.body.at, 'body.at', known, report)
      return notBefore(draft.body.at, 'body.at', await known.batchDay(draft.body.batch), 'the batch', report)
    case 'lot.treat':
      return treat(draft, known, report)
    default:
  }
}

/**
 * Readings that cannot be are not taken in: a pH, a water activity, a temperature or a weight outside what there is, a time that is still to
 * come or lies before the batch or the lot was there, a freezing too warm, too thin or too thick. What may be and is rarely so is asked about:
 * a warm arrival of meat is answered by a note, a thin block by a word of its own.
 * @throws Refusal 400 with a fault for each
 */
export async function guardReadings(ledger: Ledger, now: Date, drafts: readonly unknown[]): Promise<void> {
  const parsed = drafts.map((given) => {
    const { kind, body } = (given ?? {}) as { kind?: unknown; body?: unknown }
    if (typeof kind !== 'string' || !Object.hasOwn(facts, kind)) return undefined
    const read = facts[kind as FactKind].safeParse(body)
    return read.success ? ({ ...(given as object), body: read.data } as Draft) : undefined
  })
  // What is planned or received in the same call is known, too.
  const planned = new Map(parsed.flatMap((d) => (d?.kind === 'batch.plan' ? [[d.body.batch, d.body.on] as const] : [])))
  const drafted = new Map(parsed.flatMap(lotDrafted))
  const known: Known = {
    now: now.getTime(),
    batchDay: async (batch) => planned.get(batch) ?? (await ledger.batch(batch))?.on,
    hereOn: async (lot) => {
      const seen = new Set<string>()
      let [code, on] = [lot, undefined as string | undefined]
      while (!seen.has(code)) {
        seen.add(code)
        const made = drafted.get(code)
        const found = made ?? (await ledger.lot(code))
        if (!found) break
        on = found.on
        if (!found.origin || !('lot' in found.origin)) break
        code = found.origin.lot
      }
      return on
    },
  }
  const faults: Fault[] = []
  for (const [i, draft] of parsed.entries())
    if (draft)
      await checkOne(draft, known, (path, message) =>
        faults.push({ path: drafts.length === 1 ? path : `[${i}].${path}`, message }),
      )
  if (faults.length > 0) throw new Refusal(400, faults)
}
