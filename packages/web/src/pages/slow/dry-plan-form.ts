import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import { courseInput } from '@forcemeat/craft/dry/course-schema'
import type { Drying } from '@forcemeat/craft/dry/outlook'
import { dryingPieceFrom } from '@forcemeat/craft/recipe/ferment-dry/drying-piece'
import { recipeAir } from '@forcemeat/craft/recipe/ferment-dry/planned-air'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Form, Values } from '../../state/form.ts'
import { compact, readerOf, type Reader } from '../../state/reader.ts'
import { editable, temperature } from '../../ui/figures.ts'

type Stage = Drying['planned'][number]

export const stageField = (i: number, field: string): string => `stages[${i}].${field}`
export const stageCount = (values: Values): number => Number(values['stages.rows'] ?? 0)
const stageFields = ['days', 'tempC', 'rhPct', 'airSpeedMPerS'] as const

const stageTexts = (stages: readonly Stage[]): Values =>
  Object.fromEntries([
    ['stages.rows', String(stages.length)],
    ...stages.flatMap((s, i) => [
      [stageField(i, 'days'), editable(Number(s.days.toFixed(3)))],
      [stageField(i, 'tempC'), temperature(s.tempC)],
      [stageField(i, 'rhPct'), editable(s.rhPct)],
      [stageField(i, 'airSpeedMPerS'), editable(s.airSpeedMPerS)],
    ]),
  ]) as Values

/** A first plan where nothing else is known: a mid-size dry sausage. */
export const blankDrying = (): Values => ({
  of: '',
  'piece.diameter': '50 mm',
  'piece.water': '57',
  'piece.protein': '16',
  'piece.fat': '23',
  'piece.salt': '2.8',
  'target.loss': '33',
  'target.aw': '',
  'target.mpr': '',
  begin: '',
  ...stageTexts([
    { days: 2, tempC: 22, rhPct: 92 },
    { days: 5, tempC: 16, rhPct: 86 },
    { days: 33, tempC: 14, rhPct: 80 },
  ]),
})

/** Texts for a recipe: its piece as it begins to dry, its stages and targets; what is not known of it stays empty. */
export function recipeTexts(recipe: Recipe): { values: Values; notes: readonly string[] } {
  const { diameterMm, composition: c, target, missing, notes } = dryingPieceFrom({ recipe, meatKg: 10 })
  const air = recipeAir(recipe)
  const two = (x: number | undefined): string => editable(x && Number(x.toFixed(2)))
  return {
    values: {
      ...(diameterMm === undefined ? {} : { 'piece.diameter': `${two(diameterMm)} mm` }),
      'piece.water': two(c.waterPct),
      'piece.protein': two(c.proteinPct),
      'piece.fat': two(c.fatPct),
      'piece.salt': two(c.saltPct),
      ...(recipe.dry
        ? {
            'target.loss': editable(target.weightLossPct),
            'target.aw': editable(target.aw),
            'target.mpr': editable(target.moistureToProtein),
          }
        : {}),
      ...(air.stages.length > 0 ? stageTexts(air.stages) : {}),
    },
    notes: [...missing.map((m) => m.because), ...air.notes, ...notes],
  }
}

/** Put a stage in after another like it, or take one out; the rows behind it move along. */
export function changeStages(form: Form, at: number, how: 'remove' | 'add'): void {
  const values = { ...form.values.value }
  const all = Array.from({ length: stageCount(values) }, (_, i) =>
    stageFields.map((f) => values[stageField(i, f)] ?? ''),
  )
  if (how === 'remove') all.splice(at, 1)
  else all.splice(at + 1, 0, all[at] ?? ['7', temperature(14), '80', ''])
  for (const [i, texts] of all.entries()) stageFields.forEach((f, k) => (values[stageField(i, f)] = texts[k]!))
  values['stages.rows'] = String(all.length)
  form.replace(values)
}

const readStage = (r: Reader, i: number): unknown =>
  compact({
    days: r.number(stageField(i, 'days'), { required: true }),
    tempC: r.quantity(stageField(i, 'tempC'), 'temperature', { required: true, allowNegative: true }),
    rhPct: r.number(stageField(i, 'rhPct'), { required: true }),
    airSpeedMPerS: r.number(stageField(i, 'airSpeedMPerS')),
  })

const fieldNames: Readonly<Record<string, string>> = {
  diameterMm: 'piece.diameter',
  composition: 'piece.water',
  'composition.waterPct': 'piece.water',
  'composition.proteinPct': 'piece.protein',
  'composition.fatPct': 'piece.fat',
  'composition.saltPct': 'piece.salt',
  'target.weightLossPct': 'target.loss',
  'target.moistureToProtein': 'target.mpr',
}

/** Day 0 as typed, ms; today at noon where it is empty. */
export function beginOf(r: Reader): number {
  const typed = r.text('begin')
  if (typed === undefined) return new Date().setHours(12, 0, 0, 0)
  const at = new Date(`${typed}T12:00:00`).getTime()
  if (!Number.isNaN(at)) return at
  r.fault('begin', `is ${JSON.stringify(typed)}; allowed: a date`)
  return Date.now()
}

/** The drying a form stands for, or its faults at the fields. */
export function planned(values: Values): { faults: readonly Fault[]; start: number; drying?: Drying } {
  const r = readerOf(values)
  const start = beginOf(r)
  const read = {
    diameterMm: r.quantity('piece.diameter', 'length', { required: true, unit: 'mm' }),
    composition: compact({
      waterPct: r.number('piece.water', { required: true }),
      proteinPct: r.number('piece.protein', { required: true }),
      fatPct: r.number('piece.fat', { required: true }),
      saltPct: r.number('piece.salt'),
    }),
    target: compact({
      weightLossPct: r.number('target.loss'),
      aw: r.number('target.aw'),
      moistureToProtein: r.number('target.mpr'),
    }),
    stages: Array.from({ length: stageCount(values) }, (_, i) => readStage(r, i)),
  }
  if (r.faults.length > 0) return { faults: r.faults, start }
  try {
    const { diameterMm, composition, target, stages } = parseOrThrow(courseInput, read)
    return { faults: [], start, drying: { diameterMm, composition, target, planned: stages, log: [], losses: [] } }
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return { faults: error.faults.map((f) => ({ path: fieldNames[f.path] ?? f.path, message: f.message })), start }
  }
}
