import type { NutritionFormat, NutritionRowRule } from '@forcemeat/craft/declare/nutrition-rules'

// The "0" of each row hangs on the conditions of a "free of" claim, which are not held: the amount of all other cases is printed.
const calories = [{ below: 5, step: 1 }, { upTo: 50, step: 5 }, { step: 10 }]
const fat = [{ below: 0.5, step: 0.1 }, { upTo: 5, step: 0.5 }, { step: 1 }]
const cholesterol = [{ step: 5 }]
const sodium = [{ below: 5, step: 1 }, { upTo: 140, step: 5 }, { step: 10 }]
const gram = [{ below: 0.5, text: '0' }, { step: 1 }]
const protein = [{ below: 0.5, step: 0.1 }, { step: 1 }]
const mineral = [{ below: 5, text: '0' }, { below: 50, step: 10 }, { below: 250, step: 25 }, { step: 50 }]
const iron = [{ below: 0.05, text: '0' }, { below: 0.5, step: 0.1 }, { below: 2.5, step: 0.25 }, { step: 0.5 }]
const percent = [{ step: 1 }]

const unreadDv = 'daily value from memory of the Table of Daily Values (Health Canada, 2022), which was not read'

type Nutrient = Extract<NutritionRowRule['of'], { nutrient: unknown }>['nutrient']
const row = (
  key: string,
  label: string,
  unit: string,
  nutrient: Nutrient,
  rest: Pick<NutritionRowRule, 'rounding'> & Partial<NutritionRowRule>,
): NutritionRowRule => ({ key, label, unit, mandatory: true, of: { nutrient }, ...rest })
const dv = (dailyValue: number) => ({ dailyValue, dvRounding: percent, caution: unreadDv })

/**
 * Nutrition facts table of Canada. Rows, their order and their rounding: Food and Drug Regulations, B.01.401, table, as read in the
 * consolidation of 21 November 2025. Calories by the average factors 4, 9, 4 and 7, and daily values, from memory.
 */
export const caFormat: NutritionFormat = {
  id: 'ca-2016',
  basis: 'per serving',
  carbohydrate: 'totalCarbohydrate',
  saltPerSodium: 2.5,
  toleranceMark: 'from-memory',
  // Common practice, no source: a twentieth of the narrowest tolerance.
  negligiblePct: 1,
  servings: [{ below: 2, step: 1 }, { upTo: 5, step: 0.5 }, { step: 1 }],
  servingsFrom: 0,
  servingWords: { number: 'Servings per container', size: 'Per' },
  footnotes: ['*5% or less is a little, 15% or more is a lot'],
  rows: [
    {
      key: 'calories',
      label: 'Calories',
      unit: 'Cal',
      mandatory: true,
      of: { energy: { protein: 4, totalCarbohydrate: 4, fat: 9, alcohol: 7 } },
      rounding: calories,
      caution: 'average factors 4, 9, 4 and 7: the table of the CFIA was not read',
    },
    row('fat', 'Fat', 'g', 'fat', { rounding: fat, ...dv(75) }),
    row('saturated', 'Saturated', 'g', 'saturated', { rounding: fat }),
    row('trans', 'Trans', 'g', 'trans', { rounding: fat }),
    {
      key: 'saturatedTrans',
      label: 'Saturated + Trans',
      unit: '% DV',
      mandatory: true,
      of: { sum: ['saturated', 'trans'] },
      rounding: fat,
      percentOnly: true,
      ...dv(20),
    },
    row('cholesterol', 'Cholesterol', 'mg', 'cholesterol', { rounding: cholesterol }),
    row('sodium', 'Sodium', 'mg', 'sodium', { rounding: sodium, ...dv(2300) }),
    row('carbohydrate', 'Carbohydrate', 'g', 'totalCarbohydrate', { rounding: gram }),
    row('fibre', 'Fibre', 'g', 'fibre', { rounding: gram, ...dv(28) }),
    row('sugars', 'Sugars', 'g', 'sugars', { rounding: gram, ...dv(100) }),
    row('protein', 'Protein', 'g', 'protein', { rounding: protein }),
    row('potassium', 'Potassium', 'mg', 'potassium', { rounding: mineral, ...dv(3400), dvOfPrinted: true }),
    row('calcium', 'Calcium', 'mg', 'calcium', { rounding: mineral, ...dv(1300), dvOfPrinted: true }),
    row('iron', 'Iron', 'mg', 'iron', { rounding: iron, ...dv(18), dvOfPrinted: true }),
  ],
}
