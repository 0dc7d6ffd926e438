import type { NutritionFormat, NutritionRowRule } from '@forcemeat/craft/declare/nutrition-rules'

// Every band stands by the unrounded value: the guidance does not say whether the band is chosen before or after rounding.
const macro = [{ upTo: 0.5, text: '< 0.5' }, { below: 10, step: 0.1 }, { step: 1 }]
const fattyAcid = [{ upTo: 0.1, text: '< 0.1' }, { below: 10, step: 0.1 }, { step: 1 }]
const salt = [{ upTo: 0.0125, text: '< 0.01' }, { below: 1, step: 0.01 }, { step: 0.1 }]

const twoTwentyEight = [{ below: 10, amount: 2 }, { below: 40.000001, pct: 20 }, { amount: 8 }]
const fatBand = [{ below: 10, amount: 1.5 }, { below: 40.000001, pct: 20 }, { amount: 8 }]
const fattyAcidBand = [{ below: 4, amount: 0.8 }, { pct: 20 }]
const saltBand = [{ below: 1.25, amount: 0.375 }, { pct: 20 }]

const g = (
  key: string,
  label: string,
  nutrient: Extract<NutritionRowRule['of'], { nutrient: unknown }>['nutrient'],
  rest: Pick<NutritionRowRule, 'rounding' | 'tolerance'> & { mandatory?: boolean; times?: number },
): NutritionRowRule => {
  const { mandatory = true, times, ...bands } = rest
  return { key, label, unit: 'g', mandatory, of: { nutrient, ...(times === undefined ? {} : { times }) }, ...bands }
}

/** Table of Regulation (EU) 1169/2011, Annexes XIV and XV, rounded by the Commission's guidance. */
export const euFormat: NutritionFormat = {
  id: 'eu-1169',
  basis: 'per 100 g',
  carbohydrate: 'availableCarbohydrate',
  saltPerSodium: 2.5,
  toleranceMark: 'from-memory',
  // Common practice, no source: a twentieth of the narrowest tolerance.
  negligiblePct: 1,
  rows: [
    {
      key: 'energyKj',
      label: 'Energy',
      unit: 'kJ',
      mandatory: true,
      // Polyols are counted in the carbohydrate at 17 and brought down to 10.
      of: {
        energy: {
          availableCarbohydrate: 17,
          polyols: 10 - 17,
          protein: 17,
          fat: 37,
          alcohol: 29,
          organicAcids: 13,
          fibre: 8,
        },
      },
      rounding: [{ step: 1 }],
    },
    {
      key: 'energyKcal',
      label: 'Energy',
      unit: 'kcal',
      mandatory: true,
      of: {
        energy: {
          availableCarbohydrate: 4,
          polyols: 2.4 - 4,
          protein: 4,
          fat: 9,
          alcohol: 7,
          organicAcids: 3,
          fibre: 2,
        },
      },
      rounding: [{ step: 1 }],
    },
    g('fat', 'Fat', 'fat', { rounding: macro, tolerance: fatBand }),
    g('saturated', 'of which saturates', 'saturated', { rounding: fattyAcid, tolerance: fattyAcidBand }),
    g('carbohydrate', 'Carbohydrate', 'availableCarbohydrate', { rounding: macro, tolerance: twoTwentyEight }),
    g('sugars', 'of which sugars', 'sugars', { rounding: macro, tolerance: twoTwentyEight }),
    g('fibre', 'Fibre', 'fibre', { rounding: macro, tolerance: twoTwentyEight, mandatory: false }),
    g('protein', 'Protein', 'protein', { rounding: macro, tolerance: twoTwentyEight }),
    g('salt', 'Salt', 'sodium', { rounding: salt, tolerance: saltBand, times: 2.5 / 1000 }),
  ],
}
