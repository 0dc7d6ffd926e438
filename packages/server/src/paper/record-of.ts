import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judged } from '../judge/judged.ts'
import type { CookAndChill } from './cook-and-chill.ts'
import { curvesOf } from './curves-of.ts'
import type { PaperAsked } from './asked.ts'
import { frameOf } from './frame-of.ts'
import { decisionOf, instrumentOf } from './signed-off-of.ts'

/** What the cook-and-chill record says of a batch of the record. */
export async function recordOf(ledger: Ledger, record: BatchRecord, paper: PaperAsked): Promise<CookAndChill> {
  const judgement = await judged(ledger, record)
  const { findings, verdict } = judgement
  const people = await ledger.people()
  const name = (code: string): string => people.find((p) => p.person === code)?.name ?? code
  const frame = await frameOf(ledger, record, paper)
  return {
    ...frame,
    recipe: { name: record.recipeBody.name, code: record.recipe, version: record.version },
    on: record.on,
    jurisdictions: record.jurisdictions,
    curves: await curvesOf(ledger, record, judgement, name, frame.kitchen.units),
    findings,
    verdict,
    instruments: record.instruments.map(instrumentOf),
    ...decisionOf(record, name),
  }
}
