import { mustBeKnown, type Admission } from './report.ts'

/** What each way of making meat safe needs said, so that it can be judged later. */
const needs = {
  'frozen-room': ['thicknessMm', 'roomC', 'from', 'until'],
  'frozen-centre': ['file'],
  'certified-herd': ['document'],
  tested: ['document'],
  'published-cure': ['document'],
  'cooked-later': [],
} as const

export async function treatmentHolds(a: Admission<'lot.treat'>): Promise<void> {
  const { draft, fault, sql } = a
  const { lot, way, from, until, file, instrument } = draft.body
  await mustBeKnown(a, 'body.lot', 'lot', lot)
  await mustBeKnown(a, 'body.instrument', 'instrument', instrument)
  for (const field of needs[way])
    if (draft.body[field] === undefined) fault(`body.${field}`, `is missing; allowed: given where the way is ${way}`)
  if (from !== undefined && until !== undefined && Date.parse(until) <= Date.parse(from))
    fault('body.until', `is ${until}, not after ${from}; allowed: an instant after body.from`)
  if (file !== undefined && (await sql.all('select 1 from file where sha256 = ?', [file])).length === 0)
    fault('body.file', 'is not a file of the record; allowed: the SHA-256 of a file put there before')
}
