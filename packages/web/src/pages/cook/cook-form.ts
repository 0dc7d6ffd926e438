import type { CookInput } from '@forcemeat/craft/heat/cook'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { Values } from '../../state/form.ts'
import { compact, type Reader } from '../../state/reader.ts'
import { system } from '../../state/who.ts'
import { editable, temperature } from '../../ui/figures.ts'
import type { ProductFigures } from '../../work/cook-plan.ts'

export type Medium = 'air' | 'water' | 'steam' | 'ice-water'
export const mediumNames: Readonly<Record<Medium, string>> = {
  air: 'air',
  water: 'water bath',
  steam: 'steam',
  'ice-water': 'ice water',
}
const poultry = ['chicken', 'turkey', 'duck'] as const

export const stageField = (i: number, field: string): string => `stages[${i}].${field}`
export const stageCount = (values: Values): number => Number(values['stages.rows'] ?? 0)
export const stageFields = [
  'medium',
  'tempC',
  'minutes',
  'untilCoreC',
  'humidityAs',
  'humidity',
  'speed',
  'rampMinutes',
  'film',
] as const

/** A temperature as text that keeps its meaning when the units of the screen change. */
export const tempText = (c: number | undefined): string => (c === undefined ? '' : temperature(c))

type StageLike = CookInput['stages'][number]

/** Texts of the stage fields. */
export function stageTexts(stages: readonly StageLike[]): Values {
  return Object.fromEntries([
    ['stages.rows', String(stages.length)],
    ...stages.flatMap((s, i) => [
      [stageField(i, 'medium'), s.medium],
      [stageField(i, 'tempC'), tempText(s.tempC)],
      [stageField(i, 'minutes'), editable(s.minutes)],
      [stageField(i, 'untilCoreC'), tempText(s.untilCoreC)],
      [stageField(i, 'humidityAs'), s.wetBulbC === undefined ? 'rh' : 'wet-bulb'],
      [stageField(i, 'humidity'), s.wetBulbC === undefined ? editable(s.rhPct) : tempText(s.wetBulbC)],
      [stageField(i, 'speed'), editable(s.airSpeedMPerS ?? s.waterSpeedMPerS)],
      [stageField(i, 'rampMinutes'), editable(s.rampMinutes)],
      [stageField(i, 'film'), editable(s.filmWPerM2K)],
    ]),
  ]) as Values
}

const usualChill: StageLike = { medium: 'ice-water', tempC: 1, untilCoreC: 4 }

/** A first plan, where nothing else is known: a mid-size smoked sausage. */
export const blankCook = (): Values => ({
  'piece.diameter': '60 mm',
  'piece.length': '',
  'piece.water': '58',
  'piece.protein': '14',
  'piece.fat': '24',
  'piece.ash': '3',
  'piece.start': tempText(6),
  'piece.surface': 'drying',
  'piece.filmFactor': '1',
  'target.core': tempText(70),
  'product.species': 'meat',
  'product.cured': 'cured',
  'product.nitrite': '',
  'product.erythorbate': '',
  'product.salt': '2',
  ...stageTexts([
    { medium: 'air', tempC: 55, rhPct: 40, airSpeedMPerS: 1, minutes: 45 },
    { medium: 'air', tempC: 70, rhPct: 50, airSpeedMPerS: 1, minutes: 60, rampMinutes: 10 },
    { medium: 'air', tempC: 80, rhPct: 65, airSpeedMPerS: 1, untilCoreC: 70 },
    usualChill,
  ]),
})

/** Texts for a recipe: its casing, its mix, its cook, and what the rules turn on. */
export function recipeTexts(recipe: Recipe): Values {
  const { composition: c, facts, cure } = computeRecipe({ recipe, meatKg: 10 })
  const birds = poultry.filter((b) => facts[`species:${b}`])
  const stages = recipe.cook?.stages ?? []
  const chills = stages.some((s) => s.tempC < 45)
  const of = (pct: number | undefined): number | undefined => pct && Number(pct.toFixed(2))
  const [water, protein, fat] = [of(c.waterPct), of(c.proteinPct), of(c.fatPct)]
  // Tables of composition need not close on 100 %; what is over is not put into the ash.
  const room = Math.max(0, 100 - (water ?? 0) - (protein ?? 0) - (fat ?? 0))
  return {
    ...(recipe.casing ? { 'piece.diameter': `${editable(recipe.casing.calibreMm)} mm` } : {}),
    'piece.water': editable(water),
    'piece.protein': editable(protein),
    'piece.fat': editable(fat),
    'piece.ash': editable(Number(Math.min(room, Math.max(c.ashPct ?? 0, c.saltPct ?? 0)).toFixed(2))),
    ...(recipe.cook ? { 'target.core': tempText(recipe.cook.targetCoreC) } : {}),
    'product.species':
      birds.length === 0 ? 'meat' : birds.length > 1 || birds[0] === 'duck' ? 'other-poultry' : birds[0]!,
    'product.cured': facts['cured'] === true ? 'cured' : 'none',
    'product.nitrite': editable(cure.nitritePpm && Number(cure.nitritePpm.toFixed(1))),
    'product.erythorbate': editable(Number(((cure.erythorbatePpm ?? 0) + (cure.ascorbatePpm ?? 0)).toFixed(1))),
    'product.salt': editable(c.saltPct && Number(c.saltPct.toFixed(2))),
    ...(stages.length > 0
      ? stageTexts([
          ...stages
            .map((s) => compact(s) as StageLike)
            .map((s) => (s.minutes === undefined && s.untilCoreC === undefined ? { ...s, minutes: 60 } : s)),
          ...(chills ? [] : [usualChill]),
        ])
      : {}),
  }
}

function readStage(r: Reader, values: Values, i: number): unknown {
  const name = (field: string): string => stageField(i, field)
  const medium = (values[name('medium')] ?? 'air') as Medium
  const speed = r.number(name('speed'))
  const wet = values[name('humidityAs')] === 'wet-bulb'
  const air = medium === 'air'
  return compact({
    medium,
    tempC: r.quantity(name('tempC'), 'temperature', { required: true, allowNegative: true }),
    minutes: r.number(name('minutes')),
    untilCoreC: r.quantity(name('untilCoreC'), 'temperature', { allowNegative: true }),
    rhPct: air && !wet ? r.number(name('humidity')) : undefined,
    wetBulbC: air && wet ? r.quantity(name('humidity'), 'temperature', { allowNegative: true }) : undefined,
    airSpeedMPerS: air || medium === 'steam' ? speed : undefined,
    waterSpeedMPerS: air || medium === 'steam' ? undefined : speed,
    rampMinutes: r.number(name('rampMinutes')),
    filmWPerM2K: r.number(name('film')),
  })
}

/** The cook out of the form; faults go to the reader, under the fields' names. */
export function readCook(r: Reader, values: Values): unknown {
  return compact({
    diameterMm: r.quantity('piece.diameter', 'length', { required: true, unit: 'mm' }),
    lengthMm: r.quantity('piece.length', 'length', { unit: 'mm' }),
    composition: compact({
      waterPct: r.number('piece.water', { required: true }),
      proteinPct: r.number('piece.protein', { required: true }),
      fatPct: r.number('piece.fat', { required: true }),
      ashPct: r.number('piece.ash'),
    }),
    startC: r.quantity('piece.start', 'temperature', { required: true, allowNegative: true }),
    surface: values['piece.surface'] || undefined,
    filmFactor: r.number('piece.filmFactor'),
    stages: Array.from({ length: stageCount(values) }, (_, i) => readStage(r, values, i)),
  })
}

/** What the rules turn on, out of the form. */
export function readProduct(r: Reader, values: Values): ProductFigures {
  const figures = compact({
    nitritePpm: r.number('product.nitrite'),
    erythorbatePpm: r.number('product.erythorbate'),
    saltPct: r.number('product.salt'),
    waterPct: r.number('piece.water'),
  })
  const cured = values['product.cured'] === 'cured'
  const fat = r.number('piece.fat')
  return {
    lethality: {
      species: (values['product.species'] ?? 'meat') as 'meat',
      ...(fat === undefined ? {} : { fatPct: fat }),
    },
    cooling: { cured, intact: false, ...(cured ? figures : {}) },
  }
}

/** A fault of the core, such as `composition` or `stages[1].tempC`, at the field that was typed. */
export function fieldOfFault(path: string): string {
  const stage = /^stages\[(\d+)\]\.(\w+)$/.exec(path)
  if (stage) {
    const [, i, field] = stage
    const typed =
      field === 'rhPct' || field === 'wetBulbC'
        ? 'humidity'
        : field === 'airSpeedMPerS' || field === 'waterSpeedMPerS'
          ? 'speed'
          : field === 'filmWPerM2K'
            ? 'film'
            : field!
    return stageField(Number(i), typed)
  }
  const pieces: Readonly<Record<string, string>> = {
    diameterMm: 'piece.diameter',
    lengthMm: 'piece.length',
    startC: 'piece.start',
    filmFactor: 'piece.filmFactor',
    composition: 'piece.water',
    'composition.waterPct': 'piece.water',
    'composition.proteinPct': 'piece.protein',
    'composition.fatPct': 'piece.fat',
    'composition.ashPct': 'piece.ash',
  }
  return pieces[path] ?? path
}

const temperatureFields =
  /^(piece\.start|target\.core|stages\[\d+\]\.(tempC|untilCoreC)|search\.(houseMax|surfaceMax))$/

/** Name the unit a bare temperature was typed in, before the screen's units change under it. */
export function withUnits(values: Values, was: 'metric' | 'us'): Values {
  const unit = was === 'us' ? '°F' : '°C'
  const wetBulb = (name: string): boolean =>
    name.endsWith('.humidity') && values[name.replace('.humidity', '.humidityAs')] === 'wet-bulb'
  return Object.fromEntries(
    Object.entries(values).map(([name, text]) =>
      (temperatureFields.test(name) || wetBulb(name)) && /^[-−]?\d+([.,]\d+)?$/.test(text.trim())
        ? [name, `${text.trim()} ${unit}`]
        : [name, text],
    ),
  )
}

export const shownIn = (c: number): number => (system.value === 'us' ? c * 1.8 + 32 : c)
