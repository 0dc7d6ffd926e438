import { expect, it } from 'vitest'
import { recipeSchema, type Recipe } from '@forcemeat/craft/recipe/schema'
import { readRecipe, textsOf } from '../../src/state/recipe-draft.ts'
import { benchOf } from '../../src/state/recipe-bench.ts'
import { readerOf } from '../../src/state/reader.ts'
import { system, units } from '../../src/state/who.ts'

const recipe: Recipe = recipeSchema.parse({
  name: 'Smoked ring',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  standards: ['us.319.140.cooked'],
  meat: [
    { material: 'pork-shoulder-trim', pct: 72.5, minPct: 60, note: 'cold' },
    { material: 'pork-back-fat', pct: 27.5 },
  ],
  additions: [
    { material: 'salt', pct: 1.75 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.235 },
  ],
  limits: [{ of: 'fat', minPct: 20, maxPct: 30 }],
  nitriteTarget: { lowPpm: 120, highPpm: 156 },
  route: 'comminuted',
  casing: { casing: 'collagen', calibreMm: 34, kgPerM: 0.9, linkG: 320 },
  cook: { targetCoreC: 70.5, holdMinutes: 2, lossPct: 12, stages: [{ medium: 'steam', tempC: 78, untilCoreC: 71 }] },
  steps: ['Grind', 'Mix'],
  note: 'as it is',
})

it('gives back a recipe as it was from the texts of its fields, what no field shows included', () => {
  const reader = readerOf(textsOf(recipe))
  expect(recipeSchema.parse(readRecipe(reader, textsOf(recipe), recipe))).toEqual(recipe)
  expect(reader.faults).toEqual([])
})

const dried: Recipe = recipeSchema.parse({
  ...recipe,
  kind: 'dried',
  cook: undefined,
  ferment: {
    targetPh: 5.2,
    startPh: 5.8,
    culture: 'starter of lactic acid bacteria, 25 g per 100 kg',
    stages: [
      { hours: 48, tempC: 22.5, rhPct: 92 },
      { hours: 24, tempC: 20 },
    ],
  },
  dry: {
    lossPct: 36,
    days: 35,
    targetAw: 0.9,
    targetMoistureToProtein: 1.9,
    stages: [
      { days: 10, tempC: 16.1, rhPct: 86, airSpeedMPerS: 0.2 },
      { days: 25, tempC: 14, rhPct: 79 },
    ],
  },
})

it.each(['', 'us'] as const)('loses nothing of fermentation and drying, stages included (units %j)', (shown) => {
  units.value = shown
  const texts = textsOf(dried)
  const reader = readerOf(texts)
  const read = recipeSchema.parse(readRecipe(reader, texts, dried))
  units.value = ''
  expect(reader.faults).toEqual([])
  expect(read).toEqual(dried)
})

it('a stage with a figure missing is named at its field; an empty one is left out', () => {
  const texts = { ...textsOf(dried), 'dry.stages[0].rhPct': '', 'ferment.stages[1].hours': 'a night' }
  const reader = readerOf(texts)
  readRecipe(reader, texts, dried)
  expect(reader.faults.map((f) => f.path)).toEqual(['ferment.stages[1].hours', 'dry.stages[0].rhPct'])
  const blank = { ...textsOf(dried), 'dry.stages.rows': '3' }
  expect((readRecipe(readerOf(blank), blank, dried) as Recipe).dry?.stages).toEqual(dried.dry?.stages)
})

it('a fermentation without the pH it ends at, and a drying without its loss, are not saved short', () => {
  const texts = { ...textsOf(dried), 'ferment.targetPh': '', 'dry.lossPct': '' }
  const reader = readerOf(texts)
  readRecipe(reader, texts, dried)
  expect(reader.faults.map((f) => f.path)).toEqual(['ferment.targetPh', 'dry.lossPct'])
})

it('reads a core temperature typed in °F, whatever the screen shows', () => {
  expect(system.value).toBe('metric')
  const reader = readerOf({ ...textsOf(recipe), 'cook.targetCoreC': '158 °F' })
  expect(
    (readRecipe(reader, { ...textsOf(recipe), 'cook.targetCoreC': '158 °F' }) as Recipe).cook?.targetCoreC,
  ).toBeCloseTo(70, 9)
})

it('shows a temperature in the units of the screen and reads it back the same', () => {
  units.value = 'us'
  const texts = textsOf(recipe)
  const read = readRecipe(readerOf(texts), texts, recipe) as Recipe
  expect(texts['cook.targetCoreC']).toBe('158.9 °F')
  units.value = ''
  expect(read.cook?.targetCoreC).toBe(70.5)
  // A change of units after the text was put there turns nothing into another temperature.
  expect((readRecipe(readerOf(texts), texts, recipe) as Recipe).cook?.targetCoreC).toBe(70.5)
})

it.each([
  ['meat[0].pct', ''],
  ['meat[0].pct', '-1'],
  ['meat[0].pct', '1e12'],
  ['meat[0].pct', 'lots'],
  ['meat[0].material', 'unobtainium'],
  ['additions[1].pct', '0.2 kg'],
  ['casing.linkG', '3 km'],
  ['cook.targetCoreC', 'hot'],
  ['nitriteTarget.lowPpm', 'some'],
  ['bench.meatKg', '0x10'],
])('names the field %s where it holds %j, and works nothing out', (field, typed) => {
  const bench = benchOf({ ...textsOf(recipe), 'bench.meatKg': '10 kg', [field]: typed }, recipe, ['US'], [])
  expect(bench.faults.map((f) => f.path)).toContain(field)
  expect(bench.worked).toBeUndefined()
})

it('names the meat block where it does not add up', () => {
  const bench = benchOf({ ...textsOf(recipe), 'bench.meatKg': '10 kg', 'meat[1].pct': '20' }, recipe, ['US'], [])
  expect(bench.faults).toEqual([{ path: 'meat', message: expect.stringContaining('92.5 %') }])
})

it('works out ingoing nitrite by hand: 0.235 % of an agent with 6.25 % is 146.875 ppm', () => {
  const bench = benchOf({ ...textsOf(recipe), 'bench.meatKg': '22 lb' }, recipe, ['US', 'EU'], [])
  expect(bench.worked?.computed.cure.nitritePpm).toBeCloseTo(146.875, 6)
  expect(bench.worked?.computed.totals.meatKg).toBeCloseTo(22 * 0.45359237, 9)
  expect(bench.worked?.places.map((p) => p.jurisdiction)).toEqual(['US', 'EU'])
})
