import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { editable, editableQuantity } from '../ui/figures.ts'
import type { Values } from './form.ts'
import { compact, defaultUnit, type Reader } from './reader.ts'

/** The two lists of stages a recipe may have, by the name of their rows in the form. */
export const stageLists = ['ferment.stages', 'dry.stages'] as const
export type StageList = (typeof stageLists)[number]

const row = (list: StageList, i: number, field: string): string => `${list}[${i}].${field}`
const rows = (values: Values, list: StageList): number => Number(values[`${list}.rows`] ?? 0)

type Stage = NonNullable<NonNullable<Recipe['ferment']>['stages']>[number] | DryStage
type DryStage = NonNullable<NonNullable<Recipe['dry']>['stages']>[number]

const celsius = (c: number | undefined): string => editableQuantity(c, 'temperature', defaultUnit('temperature'))

const stageTexts = (list: StageList, stages: readonly Stage[] = []): Values =>
  Object.fromEntries([
    [`${list}.rows`, String(stages.length)],
    ...stages.flatMap((s, i) => [
      ['hours' in s ? row(list, i, 'hours') : row(list, i, 'days'), editable('hours' in s ? s.hours : s.days)],
      [row(list, i, 'tempC'), celsius(s.tempC)],
      [row(list, i, 'rhPct'), editable(s.rhPct)],
      ...('airSpeedMPerS' in s ? [[row(list, i, 'airSpeedMPerS'), editable(s.airSpeedMPerS)]] : []),
    ]),
  ]) as Values

/** The texts of the fields of fermentation and drying. */
export const fermentDryTexts = ({ ferment, dry }: Pick<Recipe, 'ferment' | 'dry'>): Values => ({
  'ferment.targetPh': editable(ferment?.targetPh),
  'ferment.startPh': editable(ferment?.startPh),
  'ferment.culture': ferment?.culture ?? '',
  ...stageTexts('ferment.stages', ferment?.stages),
  'dry.lossPct': editable(dry?.lossPct),
  'dry.days': editable(dry?.days),
  'dry.targetAw': editable(dry?.targetAw),
  'dry.targetMoistureToProtein': editable(dry?.targetMoistureToProtein),
  ...stageTexts('dry.stages', dry?.stages),
})

function readStages(r: Reader, values: Values, list: StageList) {
  const stages = Array.from({ length: rows(values, list) }, (_, i) => {
    const at = (field: string) => row(list, i, field)
    const long = list === 'dry.stages' ? 'days' : 'hours'
    const names = [long, 'tempC', 'rhPct', 'airSpeedMPerS']
    if (names.every((n) => (values[at(n)] ?? '').trim() === '')) return undefined
    return compact({
      [long]: r.number(at(long), { required: true }),
      tempC: r.quantity(at('tempC'), 'temperature', { required: true }),
      rhPct: r.quantity(at('rhPct'), 'percent', { required: list === 'dry.stages' }),
      ...(list === 'dry.stages' ? { airSpeedMPerS: r.number(at('airSpeedMPerS')) } : {}),
    })
  }).filter((s) => s !== undefined)
  return stages.length > 0 ? stages : undefined
}

/** Fermentation as typed; undefined where nothing of it is. Faults go to the reader. */
export function readFerment(r: Reader, values: Values): unknown {
  const ferment = compact({
    targetPh: r.number('ferment.targetPh'),
    startPh: r.number('ferment.startPh'),
    culture: r.text('ferment.culture'),
    stages: readStages(r, values, 'ferment.stages'),
  })
  if (ferment.targetPh === undefined && Object.keys(ferment).length > 0)
    r.fault(
      'ferment.targetPh',
      'is empty, and other figures of the fermentation are given; allowed: the pH it is ended at',
    )
  return ferment.targetPh === undefined ? undefined : ferment
}

/** Drying as typed; undefined where nothing of it is. Faults go to the reader. */
export function readDry(r: Reader, values: Values): unknown {
  const dry = compact({
    lossPct: r.quantity('dry.lossPct', 'percent'),
    days: r.number('dry.days'),
    targetAw: r.number('dry.targetAw'),
    targetMoistureToProtein: r.number('dry.targetMoistureToProtein'),
    stages: readStages(r, values, 'dry.stages'),
  })
  if (dry.lossPct === undefined && Object.keys(dry).length > 0)
    r.fault('dry.lossPct', 'is empty, and other figures of the drying are given; allowed: a weight loss in %')
  return dry.lossPct === undefined ? undefined : dry
}
