import type { LabelPack } from './pack.ts'
import type { LabelOutput, LabelVersion } from './schema.ts'

type Content = Omit<LabelOutput, 'fields' | 'changes' | 'blocks' | 'notes' | 'findings'>

/** The nutrition table as one text, for comparing: every row with what is printed of it. */
const tableText = (t: NonNullable<Content['nutrition']>): string =>
  t.panel
    .map((r) => {
      const value = t.basis === 'per serving' ? r.declaredPerServing : r.declaredPer100g
      return `${r.label} ${value ?? '?'} ${r.unit}${r.declaredDv === undefined ? '' : ` ${r.declaredDv} %`}`
    })
    .join('; ')

type Field = LabelOutput['fields'][number]

/** How it is kept, without the day it was frozen, which is the batch's own and stands last. */
const keptOf = (storage: readonly string[], { frozenOn }: LabelPack): readonly string[] =>
  frozenOn === undefined ? storage : storage.slice(0, -1)

/** What stands on it in another language. */
const inLanguage = (v: LabelVersion, pack: LabelPack): Field[] => {
  const of = (field: string, text: string | undefined, varies = false): Field[] =>
    text === undefined || text === '' ? [] : [{ field: `${field} (${v.language})`, text: text.slice(0, 4000), varies }]
  return [
    ...of('name', v.name),
    ...of('beside the name', v.beside.join(', ')),
    ...of('ingredients', v.list.textCapitals),
    ...of('contains', v.contains),
    ...of('may contain', v.mayContain),
    ...of('statements', v.statements.join('. ')),
    ...of(
      'nutrition',
      v.nutrition &&
        [v.nutrition.title, v.nutrition.per, ...Object.values(v.nutrition.rows), ...v.nutrition.footnotes].join('; '),
    ),
    ...of('storage', keptOf(v.storage, pack).join('. ')),
    ...of('handling', v.handling.join(' ')),
    ...of('date', v.dateText, true),
  ]
}

/** How it is laid out, where the pack says more of it than layout and size. */
const arranged = (c: Pick<Content, 'place'>, pack: LabelPack): string =>
  [
    pack.marginMm === undefined ? '' : `margin ${pack.marginMm} mm`,
    pack.xHeightMm === undefined ? '' : `letters ${pack.xHeightMm} mm`,
    pack.moduleMm === undefined ? '' : `module ${pack.moduleMm} mm`,
    pack.order === undefined ? '' : `order ${pack.order.join(', ')}`,
    pack.languageArrangement === undefined ? '' : `languages ${pack.languageArrangement}`,
    pack.panel === undefined ? '' : `panel ${pack.panel}`,
    pack.panelDisplay === undefined || c.place !== 'US'
      ? ''
      : `panel set ${pack.panelDisplay}, on a pack of ${pack.availableSurfaceCm2 ?? '?'} cm²`,
  ]
    .filter((t) => t !== '')
    .join('; ')

const madeIn = ({ premises }: LabelPack): string | undefined =>
  premises && [premises.route, premises.country, premises.because].filter((t) => t !== undefined).join(', ')
const markText = ({ kind, lines, roomMm }: NonNullable<Content['mark']>): string =>
  kind === 'room' ? `room of ${roomMm} mm for the inspection legend` : `${kind}: ${lines.join(' ')}`

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
    ...lasting('storage', keptOf(c.storage, pack).join('. ')),
    ...lasting('handling', c.handling.join(' ')),
    ...lasting('business', c.business),
    ...lasting('made in', madeIn(pack)),
    ...lasting('mark', c.mark && markText(c.mark)),
    ...lasting('lot pattern', pack.lotPattern),
    ...lasting('trade item number', pack.gtin),
    ...lasting(
      'number in the shop',
      pack.inStore &&
        `${pack.inStore.prefix} ${pack.inStore.item}, ${pack.inStore.of} in ${pack.inStore.digits} digits`,
    ),
    ...lasting('bar code', pack.code),
    ...lasting('size', `${pack.layout ?? 'column'}, ${pack.widthMm ?? '?'} × ${pack.heightMm ?? '?'} mm`),
    ...lasting('arrangement', arranged(c, pack)),
    ...lasting(
      'languages',
      c.versions.length > 1 || c.versions[0]?.language !== 'en' ? c.versions.map((v) => v.language).join(', ') : '',
    ),
    ...c.versions.filter((v) => v.language !== 'en').flatMap((v) => inLanguage(v, pack)),
    ...varying('date', c.dateText),
    ...varying('day of freezing', pack.frozenOn),
    ...varying('lot', c.lot),
    ...varying('bar code data', c.code?.text),
  ]
}
