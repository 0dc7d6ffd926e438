import type { CookInput } from '@forcemeat/craft/heat/cook'

/** Emulsion of an invented kitchen. */
export const mix = { waterPct: 54, proteinPct: 13, fatPct: 30, ashPct: 3 }
/** Constant properties near those of the mix at 40 °C, for comparison with exact series. */
export const constant = { conductivityWPerMK: 0.43, densityKgPerM3: 1014, specificHeatJPerKgK: 3145 }
export const diffusivity = constant.conductivityWPerMK / constant.densityKgPerM3 / constant.specificHeatJPerKgK

export const bath = (tempC: number, filmWPerM2K: number, minutes: number): CookInput['stages'][number] => ({
  medium: 'water',
  tempC,
  filmWPerM2K,
  minutes,
})
export const piece = (over: Partial<CookInput> & Pick<CookInput, 'stages'>): CookInput => ({
  diameterMm: 75,
  composition: mix,
  startC: 10,
  ...over,
})
