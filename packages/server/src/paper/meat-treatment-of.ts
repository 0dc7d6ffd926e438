import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judged } from '../judge/judged.ts'
import type { PaperAsked } from './asked.ts'
import { frameOf } from './frame-of.ts'
import type { MeatTreatmentRecord } from './meat-treatment.ts'
import { instrumentOf } from './signed-off-of.ts'

/** What was weighed in of a lot, or planned where nothing is weighed yet, kg. */
const kgOf = ({ weighings, lines }: BatchRecord, lot: string): number => {
  const weighed = weighings.filter((w) => (w.lot ?? lines.find((l) => l.line === w.line)?.lot) === lot)
  return weighed.length > 0
    ? weighed.reduce((s, w) => s + w.kg, 0)
    : lines.filter((l) => l.lot === lot).reduce((s, l) => s + l.targetKg, 0)
}

/** What the pork treatment record says of a batch of the record. */
export async function meatTreatmentOf(
  ledger: Ledger,
  record: BatchRecord,
  paper: PaperAsked,
): Promise<MeatTreatmentRecord> {
  const [{ meats, findings }, people, frame] = await Promise.all([
    judged(ledger, record),
    ledger.people(),
    frameOf(ledger, record, paper),
  ])
  const name = (code: string): string => people.find((p) => p.person === code)?.name ?? code
  const finding = findings.find((f) => f.rule === 'process.raw-pork')
  const treatments = (record.treatments ?? []).map((t) => ({ ...t, by: name(t.by) }))
  const used = new Set(treatments.flatMap((t) => t.instrument ?? []))
  return {
    ...frame,
    recipe: { name: record.recipeBody.name, code: record.recipe, version: record.version },
    on: record.on,
    jurisdictions: record.jurisdictions,
    ...(finding ? { finding } : {}),
    meats,
    lots: record.lots.map((l) => ({
      lot: l.lot,
      material: findMaterial(l.material)?.name ?? l.material,
      kg: kgOf(record, l.lot),
      supplier: l.supplier,
      supplierLot: l.supplierLot,
      on: l.on,
    })),
    treatments,
    instruments: record.instruments.filter((i) => used.has(i.instrument)).map(instrumentOf),
  }
}
