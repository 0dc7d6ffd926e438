import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { editable, editableQuantity } from '../ui/figures.ts'
import { materialName, materialTyped } from '../ui/material-field.tsx'
import type { Form, Values } from './form.ts'
import { fermentDryTexts, readDry, readFerment } from './recipe-ferment-dry.ts'
import { compact, defaultUnit, type Reader } from './reader.ts'

/** What a limit of the blend is on, where the record's name for it is no word. */
const limitWords: Readonly<Record<string, string>> = {
  addedWater: 'added water',
  fatPlusAddedWater: 'fat plus added water',
}
const ofInWords = (of: string): string => limitWords[of] ?? of
const limitOf = (typed: string): string =>
  Object.entries(limitWords).find(([, words]) => words === typed.trim().toLowerCase().replaceAll(/\s+/g, ' '))?.[0] ??
  typed

export const rowsOf = (values: Values, list: string): number => Number(values[`${list}.rows`] ?? 0)
export const rowName = (list: string, row: number, field: string): string => `${list}[${row}].${field}`

const partTexts = (
  list: 'meat' | 'additions',
  parts: readonly { material: string; pct: number; note?: string | undefined }[],
): Values =>
  Object.fromEntries([
    [`${list}.rows`, String(parts.length)],
    ...parts.flatMap((p, i) => [
      [rowName(list, i, 'material'), materialName(p.material)],
      [rowName(list, i, 'pct'), editable(p.pct)],
    ]),
  ]) as Values

/** The texts of the bench's fields for a recipe. */
export function textsOf(recipe: Recipe): Values {
  return {
    name: recipe.name,
    kind: recipe.kind,
    smoked: recipe.smoked ? 'yes' : '',
    readyToEat: recipe.readyToEat ? 'yes' : '',
    route: recipe.route ?? 'comminuted',
    standards: (recipe.standards ?? []).join(' '),
    ...partTexts('meat', recipe.meat),
    ...partTexts('additions', recipe.additions),
    'limits.rows': String(recipe.limits?.length ?? 0),
    ...Object.fromEntries(
      (recipe.limits ?? []).flatMap((l, i) => [
        [rowName('limits', i, 'of'), ofInWords(l.of)],
        [rowName('limits', i, 'minPct'), editable(l.minPct)],
        [rowName('limits', i, 'maxPct'), editable(l.maxPct)],
      ]),
    ),
    'nitriteTarget.lowPpm': editable(recipe.nitriteTarget?.lowPpm),
    'nitriteTarget.highPpm': editable(recipe.nitriteTarget?.highPpm),
    'casing.calibreMm': editable(recipe.casing?.calibreMm),
    'casing.linkG': editable(recipe.casing?.linkG),
    'cook.targetCoreC': editableQuantity(recipe.cook?.targetCoreC, 'temperature', defaultUnit('temperature')),
    'cook.holdMinutes': editable(recipe.cook?.holdMinutes),
    'cook.lossPct': editable(recipe.cook?.lossPct),
    ...fermentDryTexts(recipe),
    steps: (recipe.steps ?? []).join('\n'),
    note: recipe.note ?? '',
  }
}

/** Put a recipe in the place of the one on the bench; what belongs to the bench and not to a recipe stays. */
export function putRecipe(form: Form, recipe: Recipe): void {
  const kept = Object.entries(form.values.value).filter(([k]) => k.startsWith('bench.') || k === 'recipe')
  form.replace({ ...Object.fromEntries(kept), ...textsOf(recipe) })
}

export const blankRecipe: Values = {
  kind: 'fresh',
  route: 'comminuted',
  'meat.rows': '2',
  'additions.rows': '2',
  'limits.rows': '0',
  [rowName('additions', 0, 'material')]: materialName('salt'),
}

function readParts(r: Reader, values: Values, list: 'meat' | 'additions', kept: Recipe | undefined) {
  return Array.from({ length: rowsOf(values, list) }, (_, i) => {
    const [at, share] = [rowName(list, i, 'material'), rowName(list, i, 'pct')]
    const typed = (values[at] ?? '').trim()
    if (typed === '' && (values[share] ?? '').trim() === '') return undefined
    const material = materialTyped(typed)
    if (!material)
      r.fault(
        at,
        typed === ''
          ? 'is empty; allowed: a material of the table'
          : `${JSON.stringify(typed)} is not in the table of materials; allowed: one that the search offers`,
      )
    const pct = r.quantity(share, 'percent', { required: true })
    const was = kept?.[list].find((p) => p.material === material?.id)
    return { ...was, material: material?.id ?? '', pct: pct ?? 0 }
  }).filter((p) => p !== undefined)
}

/** Read the bench's fields as a recipe; what a version held and no field shows is kept. Faults go to the reader. */
export function readRecipe(r: Reader, values: Values, kept?: Recipe): unknown {
  const calibreMm = r.quantity('casing.calibreMm', 'length', { unit: 'mm' })
  const linkG = r.quantity('casing.linkG', 'mass', { unit: 'g', as: 'g' })
  const [lowPpm, highPpm] = [r.number('nitriteTarget.lowPpm'), r.number('nitriteTarget.highPpm')]
  const targetCoreC = r.quantity('cook.targetCoreC', 'temperature')
  const cook = compact({
    targetCoreC,
    holdMinutes: r.number('cook.holdMinutes'),
    lossPct: r.quantity('cook.lossPct', 'percent'),
  })
  if (linkG !== undefined && calibreMm === undefined)
    r.fault('casing.calibreMm', 'is empty, and a link weight is given; allowed: a calibre in mm')
  if (targetCoreC === undefined && Object.keys(cook).length > 0)
    r.fault('cook.targetCoreC', 'is empty, and other figures of the cook are given; allowed: a core temperature')
  if ((lowPpm === undefined) !== (highPpm === undefined))
    r.fault(
      lowPpm === undefined ? 'nitriteTarget.lowPpm' : 'nitriteTarget.highPpm',
      'is empty, and the other end of the band is given; allowed: both, or neither',
    )
  const limits = Array.from({ length: rowsOf(values, 'limits') }, (_, i) => {
    const said = r.text(rowName('limits', i, 'of'))
    const of = said && limitOf(said)
    return (
      of &&
      compact({
        of,
        minPct: r.quantity(rowName('limits', i, 'minPct'), 'percent'),
        maxPct: r.quantity(rowName('limits', i, 'maxPct'), 'percent'),
      })
    )
  }).filter(Boolean)
  const steps = (values['steps'] ?? '')
    .split('\n')
    .map((s) => s.trim())
    .filter(Boolean)
  const standards = (values['standards'] ?? '').split(' ').filter(Boolean)
  return compact({
    name: r.text('name', { required: true }),
    kind: values['kind'],
    smoked: values['smoked'] === 'yes',
    readyToEat: values['readyToEat'] === 'yes',
    route: values['route'] || undefined,
    standards: standards.length ? standards : undefined,
    meat: readParts(r, values, 'meat', kept),
    additions: readParts(r, values, 'additions', kept),
    limits: limits.length ? limits : undefined,
    nitriteTarget: lowPpm !== undefined && highPpm !== undefined ? { lowPpm, highPpm } : undefined,
    casing: calibreMm === undefined ? undefined : { ...kept?.casing, calibreMm, ...compact({ linkG }) },
    cook: targetCoreC === undefined ? undefined : { ...compact({ stages: kept?.cook?.stages }), ...cook },
    ferment: readFerment(r, values),
    dry: readDry(r, values),
    steps: steps.length ? steps : undefined,
    note: r.text('note'),
  })
}
