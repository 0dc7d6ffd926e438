import type { NutritionFormat, NutritionRowRule } from '@forcemeat/craft/declare/nutrition-rules'

// Steps that never print more than three figures, which is the most the standard lets stand (from memory of 1.2.8—7).
const kilojoules = [{ below: 999.5, step: 1 }, { below: 9995, step: 10 }, { step: 100 }]
const grams = [{ below: 99.95, step: 0.1 }, { step: 1 }]
const milligrams = [{ below: 999.5, step: 1 }, { below: 9995, step: 10 }, { step: 100 }]
const percent = [{ step: 1 }]
const threeFigures = 'not more than three figures: from memory of 1.2.8—7'

type Nutrient = Extract<NutritionRowRule['of'], { nutrient: unknown }>['nutrient']
const g = (key: string, label: string, nutrient: Nutrient, dailyValue: number, mandatory = true): NutritionRowRule => ({
  key,
  label,
  unit: 'g',
  mandatory,
  of: { nutrient },
  rounding: grams,
  dailyValue,
  dvRounding: percent,
  caution: threeFigures,
})

/**
 * Nutrition information panel of Australia and New Zealand: per serving and per 100 g. Rows (1.2.8—6, S12—2 to S12—4), reference values
 * of the percent daily intake (1.2.8—8) and available carbohydrate by difference (S11—3) as read in the New Zealand Gazette of
 * 8 May 2015, numbers 49 and 50; energy factors of S11—2(2) from memory. Polyols have factors of their own, which are not held.
 */
export const auNzFormat: NutritionFormat = {
  id: 'au-nz',
  basis: 'per 100 g',
  bothColumns: true,
  carbohydrate: 'availableCarbohydrate',
  saltPerSodium: 2.5,
  toleranceMark: 'from-memory',
  // Common practice, no source: a twentieth of the narrowest tolerance.
  negligiblePct: 1,
  servings: [{ step: 1 }],
  servingsFrom: 0,
  servingWords: { number: 'Servings per package', size: 'Serving size' },
  footnotes: ['Percentage daily intakes are based on an average adult diet of 8 700 kJ'],
  polyolsNotHeld: true,
  rows: [
    {
      key: 'energyKj',
      label: 'Energy',
      unit: 'kJ',
      mandatory: true,
      of: { energy: { availableCarbohydrate: 17, protein: 17, fat: 37, alcohol: 29, organicAcids: 13, fibre: 8 } },
      rounding: kilojoules,
      dailyValue: 8700,
      dvRounding: percent,
      caution: 'energy factors from memory of S11—2',
    },
    g('protein', 'Protein', 'protein', 50),
    g('fat', 'Fat, total', 'fat', 70),
    g('saturated', '– saturated', 'saturated', 24),
    g('carbohydrate', 'Carbohydrate', 'availableCarbohydrate', 310),
    g('sugars', '– sugars', 'sugars', 90),
    g('fibre', 'Dietary fibre', 'fibre', 30, false),
    {
      key: 'sodium',
      label: 'Sodium',
      unit: 'mg',
      mandatory: true,
      of: { nutrient: 'sodium' },
      rounding: milligrams,
      dailyValue: 2300,
      dvRounding: percent,
      caution: threeFigures,
    },
  ],
}
