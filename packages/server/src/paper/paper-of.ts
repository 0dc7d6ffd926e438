import type { Ledger } from '@forcemeat/ledger'
import type { PaperAsked } from './asked.ts'

export const papers = ['batch-sheet', 'cook-and-chill', 'drying-record', 'pork-treatment'] as const
export type PaperKind = (typeof papers)[number]

/** A sheet of a batch as PDF, or undefined where the record has no such batch. The printer is loaded when it is first needed. */
export async function paperOf(
  ledger: Ledger,
  kind: PaperKind,
  batch: string,
  paper: PaperAsked,
): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const record = await ledger.batch(batch)
  if (!record) return undefined
  const { printPdf } = await import('./print.ts')
  if (kind === 'batch-sheet') {
    const [{ batchSheet }, { sheetOf }] = await Promise.all([import('./batch-sheet.ts'), import('./sheet-of.ts')])
    return printPdf(batchSheet(await sheetOf(ledger, record, paper)))
  }
  if (kind === 'drying-record') {
    const [{ dryingRecord }, { dryingRecordOf }] = await Promise.all([
      import('./drying-record.ts'),
      import('./drying-record-of.ts'),
    ])
    return printPdf(dryingRecord(await dryingRecordOf(ledger, record, paper)))
  }
  if (kind === 'pork-treatment') {
    const [{ meatTreatment }, { meatTreatmentOf }] = await Promise.all([
      import('./meat-treatment.ts'),
      import('./meat-treatment-of.ts'),
    ])
    return printPdf(meatTreatment(await meatTreatmentOf(ledger, record, paper)))
  }
  const [{ cookAndChill }, { recordOf }] = await Promise.all([import('./cook-and-chill.ts'), import('./record-of.ts')])
  return printPdf(cookAndChill(await recordOf(ledger, record, paper)))
}
