import type { NutritionFormat, NutritionRowRule, ReferenceAmounts } from '@forcemeat/craft/declare/nutrition-rules'

const calories = [{ below: 5, text: '0' }, { upTo: 50, step: 5 }, { step: 10 }]
const fat = [{ below: 0.5, text: '0' }, { below: 5, step: 0.5 }, { step: 1 }]
const cholesterol = [{ below: 2, text: '0' }, { upTo: 5, text: 'less than 5' }, { step: 5 }]
const sodium = [{ below: 5, text: '0' }, { upTo: 140, step: 5 }, { step: 10 }]
const gram = [{ below: 0.5, text: '0' }, { below: 1, text: 'less than 1' }, { step: 1 }]
const nearestPercent = [{ step: 1 }]
/** Vitamins and minerals: under 2 % a zero stands, or 2 % from 1 % upward. */
const vitaminPercent = [{ below: 1, text: '0' }, { upTo: 10, step: 2 }, { upTo: 50, step: 5 }, { step: 10 }]

const most = { atMostPct: 120 }
const least = { atLeastPct: 80 }
type Rest = Omit<NutritionRowRule, 'key' | 'label' | 'unit' | 'mandatory' | 'of'> & { mandatory?: boolean }
type Nutrient = Extract<NutritionRowRule['of'], { nutrient: unknown }>['nutrient']

const row = (key: string, label: string, unit: string, nutrient: Nutrient, rest: Rest): NutritionRowRule => ({
  key,
  label,
  unit,
  mandatory: rest.mandatory ?? true,
  of: { nutrient },
  ...rest,
})
const energy: NutritionRowRule = {
  key: 'calories',
  label: 'Calories',
  unit: 'kcal',
  mandatory: true,
  of: { energy: { protein: 4, totalCarbohydrate: 4, fat: 9 } },
  rounding: calories,
  compliance: most,
  caution: 'factors 4, 4 and 9 of 21 CFR 101.9(c)(1)(i)(B): the wording was not read',
}
const fromMemory = 'steps of the quantity are from memory of 21 CFR 101.9(c)(8)'
const quotedTenths = 'steps of a tenth are quoted from guidance for vitamins and minerals of a daily value under 25'
const dv = (dailyValue: number, dvRounding: NutritionRowRule['rounding'] = nearestPercent) => ({
  dailyValue,
  dvRounding,
})
const vitamin = (dailyValue: number) => dv(dailyValue, vitaminPercent)

const shared = {
  basis: 'per serving',
  carbohydrate: 'totalCarbohydrate',
  saltPerSodium: 2.5,
  toleranceMark: 'from-memory',
  // Common practice, no source: a twentieth of the narrowest tolerance.
  negligiblePct: 1,
  servings: [{ upTo: 5, step: 0.5 }, { step: 1 }],
} as const

/** Panel of 21 CFR 101.9 since the rule of 2016, with its daily values. */
export const us2016: NutritionFormat = {
  ...shared,
  id: 'us-2016',
  rows: [
    energy,
    row('fat', 'Total Fat', 'g', 'fat', { rounding: fat, ...dv(78), compliance: most }),
    row('saturated', 'Saturated Fat', 'g', 'saturated', { rounding: fat, ...dv(20), compliance: most }),
    row('trans', 'Trans Fat', 'g', 'trans', { rounding: fat }),
    row('cholesterol', 'Cholesterol', 'mg', 'cholesterol', { rounding: cholesterol, ...dv(300), compliance: most }),
    row('sodium', 'Sodium', 'mg', 'sodium', { rounding: sodium, ...dv(2300), compliance: most }),
    row('carbohydrate', 'Total Carbohydrate', 'g', 'totalCarbohydrate', {
      rounding: gram,
      ...dv(275),
      compliance: least,
    }),
    row('fibre', 'Dietary Fiber', 'g', 'fibre', { rounding: gram, ...dv(28), compliance: least }),
    row('sugars', 'Total Sugars', 'g', 'sugars', { rounding: gram, compliance: most }),
    row('addedSugars', 'Includes Added Sugars', 'g', 'addedSugars', {
      rounding: gram,
      ...dv(50),
      caution: 'rounding as for sugars, from memory',
    }),
    row('protein', 'Protein', 'g', 'protein', { rounding: gram, compliance: least }),
    row('vitaminD', 'Vitamin D', 'µg', 'vitaminD', {
      rounding: [{ step: 0.1 }],
      ...vitamin(20),
      caution: quotedTenths,
    }),
    row('calcium', 'Calcium', 'mg', 'calcium', { rounding: [{ step: 10 }], ...vitamin(1300), caution: fromMemory }),
    row('iron', 'Iron', 'mg', 'iron', { rounding: [{ step: 0.1 }], ...vitamin(18), caution: quotedTenths }),
    row('potassium', 'Potassium', 'mg', 'potassium', {
      rounding: [{ step: 10 }],
      ...vitamin(4700),
      caution: fromMemory,
    }),
  ],
}

/** Panel of the 1990s, which 9 CFR 317.309 and 381.409 still hold; its list of rows is from memory. */
export const us1993: NutritionFormat = {
  ...shared,
  id: 'us-1993',
  rows: [
    energy,
    {
      key: 'caloriesFromFat',
      label: 'Calories from Fat',
      unit: 'kcal',
      mandatory: true,
      of: { energy: { fat: 9 } },
      rounding: calories,
    },
    row('fat', 'Total Fat', 'g', 'fat', { rounding: fat, ...dv(65), compliance: most }),
    row('saturated', 'Saturated Fat', 'g', 'saturated', { rounding: fat, ...dv(20), compliance: most }),
    row('cholesterol', 'Cholesterol', 'mg', 'cholesterol', { rounding: cholesterol, ...dv(300), compliance: most }),
    row('sodium', 'Sodium', 'mg', 'sodium', { rounding: sodium, ...dv(2400), compliance: most }),
    row('carbohydrate', 'Total Carbohydrate', 'g', 'totalCarbohydrate', {
      rounding: gram,
      ...dv(300),
      compliance: least,
    }),
    row('fibre', 'Dietary Fiber', 'g', 'fibre', { rounding: gram, ...dv(25), compliance: least }),
    row('sugars', 'Sugars', 'g', 'sugars', { rounding: gram, compliance: most }),
    row('protein', 'Protein', 'g', 'protein', { rounding: gram, compliance: least }),
    row('vitaminA', 'Vitamin A', 'IU', 'vitaminA', {
      rounding: [{ step: 1 }],
      ...vitamin(5000),
      caution: 'daily value from memory; printed as a percentage only',
    }),
    row('vitaminC', 'Vitamin C', 'mg', 'vitaminC', {
      rounding: [{ step: 1 }],
      ...vitamin(60),
      caution: 'daily value from memory; printed as a percentage only',
    }),
    row('calcium', 'Calcium', 'mg', 'calcium', {
      rounding: [{ step: 1 }],
      ...vitamin(1000),
      caution: 'printed as a percentage only',
    }),
    row('iron', 'Iron', 'mg', 'iron', {
      rounding: [{ step: 0.1 }],
      ...vitamin(18),
      caution: 'printed as a percentage only',
    }),
  ],
}

/** Reference amounts customarily eaten, g: as served, and uncooked where the table has such a column (9 CFR 317.312(b), Table 2). */
export const referenceAmounts: ReferenceAmounts = {
  bacon: { servedG: 15, uncookedG: 54, mark: 'seen' },
  'breakfast-strips': { servedG: 15, uncookedG: 30, mark: 'seen' },
  'dried-sausage': { servedG: 30, mark: 'seen' },
  'snack-stick': { servedG: 30, mark: 'seen' },
  'luncheon-meat': { servedG: 55, mark: 'from-memory' },
  sausage: { servedG: 55, uncookedG: 75, mark: 'from-memory' },
  topper: { servedG: 7, mark: 'seen' },
}
