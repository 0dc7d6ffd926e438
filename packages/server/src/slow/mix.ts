import type { MixInput } from '@forcemeat/craft/recipe/ferment-dry/stuffed-mix'
import type { BatchRecord } from '@forcemeat/ledger'

/** Lines as far as they are weighed, one entry a weighing with its lot; as planned where they are not. */
const linesOf = (record: BatchRecord) =>
  record.lines.flatMap(({ line, material, lot, targetKg }) => {
    const weighed: readonly { readonly kg: number; readonly lot?: string | undefined }[] = record.weighings.filter(
      (w) => w.line === line,
    )
    return (weighed.length > 0 ? weighed : [{ kg: targetKg }]).map((w) => {
      const from = w.lot ?? lot
      return { material, kg: w.kg, ...(from === undefined ? {} : { lot: from }) }
    })
  })

export const stuffedKg = (record: BatchRecord): number => linesOf(record).reduce((s, l) => s + l.kg, 0)

/** A batch as the core reads a mix: its recipe, its lines and what their lots say of themselves. */
export const mixOf = (record: BatchRecord): MixInput => ({
  recipe: record.recipeBody,
  meatKg: record.meatKg,
  lines: linesOf(record),
  lots: record.lots.map(({ lot, material, fatPct, fatSdPct }) => ({
    lot,
    material,
    ...(fatPct === undefined ? {} : { fatPct }),
    ...(fatSdPct === undefined ? {} : { fatSdPct }),
  })),
})
