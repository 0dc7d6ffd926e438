import type { Source } from '../source.ts'

export const iapwsIf97: Source = {
  document: 'IAPWS R7-97(2012), Industrial Formulation 1997 for the Thermodynamic Properties of Water and Steam',
  section: 'section 8, region 4: equations (30) and (31), coefficients of Table 34, check values of Tables 35 and 36',
  edition: '2012',
  url: 'http://www.iapws.org/relguide/IF97-Rev.html',
  mark: 'quoted',
}

/** Table 34. */
const N = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const

export const KELVIN = 273.15
/** Range of the equations: 0 °C to the critical point. */
export const SATURATION_PA = { min: 611.213, max: 22_064_000 } as const

/** Temperature in °C at which water boils under `pressurePa`, IF97 equation (31). Callers hold the range. */
export function saturationC(pressurePa: number): number {
  const [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N
  const beta = (pressurePa / 1e6) ** 0.25
  const e = beta ** 2 + n3 * beta + n6
  const f = n1 * beta ** 2 + n4 * beta + n7
  const g = n2 * beta ** 2 + n5 * beta + n8
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g))
  return (n10 + d - Math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2 - KELVIN
}

/** Pressure in Pa under which water boils at `tempC`, IF97 equation (30), 0 to 373.946 °C. */
export function saturationPa(tempC: number): number {
  const [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N
  const t = tempC + KELVIN
  const theta = t + n9 / (t - n10)
  const a = theta ** 2 + n1 * theta + n2
  const b = n3 * theta ** 2 + n4 * theta + n5
  const c = n6 * theta ** 2 + n7 * theta + n8
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4
}
