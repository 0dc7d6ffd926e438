import type { LabelPack } from './pack.ts'
import type { LabelOutput } from './schema.ts'

type Content = Omit<LabelOutput, 'fields' | 'changes' | 'blocks' | 'notes' | 'findings'>

/** The nutrition table as one text, for comparing: every row with what is printed of it. */
const tableText = (t: NonNullable<Content['nutrition']>): string =>
  t.panel
    .map((r) => {
      const value = t.basis === 'per serving' ? r.declaredPerServing : r.declaredPer100g
      return `${r.label} ${value ?? '?'} ${r.unit}${r.declaredDv === undefined ? '' : ` ${r.declaredDv} %`}`
    })
    .join('; ')

/** The label as fields of text, in the order of the label: what is compared, hashed and kept on approval. */
export function fieldsOf(c: Content, pack: LabelPack): LabelOutput['fields'] {
  const lasting = (field: string, text: string | undefined) =>
    text === undefined || text === '' ? [] : [{ field, text, varies: false }]
  const varying = (field: string, text: string | undefined) =>
    text === undefined || text === '' ? [] : [{ field, text, varies: true }]
  return [
    ...lasting('place', c.place),
    ...lasting('name', c.name),
    ...lasting('beside the name', c.beside.join(', ')),
    ...lasting('ingredients', c.ingredients.textCapitals),
    ...lasting('contains', c.ingredients.contains),
    ...lasting('may contain', c.mayContain),
    ...lasting('statements', c.ingredients.statements.join('. ')),
    ...lasting('serving', c.serving.map((s) => `${s.label} ${s.value}`).join('; ')),
    ...lasting('nutrition', c.nutrition && tableText(c.nutrition)),
    ...lasting('net weight', c.netText),
    ...lasting(
      'shelf life',
      pack.shelfLifeDays === undefined ? undefined : `${pack.shelfLifeDays} days, ${pack.storage ?? ''}`,
    ),
    ...lasting('storage', c.storage.join('. ')),
    ...lasting('handling', c.handling.join(' ')),
    ...lasting('business', c.business),
    ...lasting('lot pattern', pack.lotPattern),
    ...lasting('trade item number', pack.gtin),
    ...lasting('bar code', pack.code),
    ...lasting('size', `${pack.layout ?? 'column'}, ${pack.widthMm ?? '?'} × ${pack.heightMm ?? '?'} mm`),
    ...varying('date', c.dateText),
    ...varying('lot', c.lot),
    ...varying('bar code data', c.code?.text),
  ]
}
