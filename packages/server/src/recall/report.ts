import type { Ledger, RecallSubject } from '@forcemeat/ledger'
import { frameOf } from '../paper/frame-of.ts'
import type { PaperAsked } from '../paper/asked.ts'
import type { RecallForm } from './forms.ts'
import { printRecall } from './print.ts'

/** Places whose tracing rules a kitchen's own places ask for first. */
export const formOf = (jurisdictions: readonly string[]): RecallForm =>
  jurisdictions.some((j) => j === 'EU' || j === 'GB') ? 'eu' : jurisdictions.includes('CA') ? 'ca' : 'us'

/** The recall report as PDF, or undefined where the record has no such thing. */
export async function recallPdf(
  ledger: Ledger,
  subject: RecallSubject,
  paper: PaperAsked,
  form?: RecallForm,
): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const recall = await ledger.recall(subject)
  if (!recall) return undefined
  const [kitchen, people, drills] = await Promise.all([ledger.kitchen(), ledger.people(), ledger.drills()])
  const frame = await frameOf(ledger, { batch: subject.id }, paper)
  return printRecall({
    ...frame,
    foot: `Recall of ${subject.type} ${subject.id}`,
    recall,
    kitchenFacts: kitchen,
    form: form ?? formOf(kitchen?.jurisdictions ?? []),
    drills,
    names: Object.fromEntries(people.map((p) => [p.person, p.name])),
  })
}
