import type { RightAxis } from './model.ts'

/** Lowest humidity shown where none lies below it, %. */
const LEAST_SHOWN = 40

/** The axis of a humidity, %: from 40 on as chambers and rooms have it, from nothing where it was drier. */
export const humidityAxis = (values: readonly (number | null)[]): RightAxis => ({
  label: 'relative humidity, %',
  unit: '% RH',
  range: [
    values.some((v) => v !== null && v < LEAST_SHOWN) ? 0 : LEAST_SHOWN,
    values.some((v) => v !== null && v > 100) ? 105 : 100,
  ],
  digits: 0,
})
