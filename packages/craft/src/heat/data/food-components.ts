import type { Source } from '../../source.ts'

/** Polynomial in °C: a + b·T + c·T². */
export type Polynomial = readonly [a: number, b: number, c: number]

export type ComponentProperties = {
  /** W/(m·K) */
  readonly conductivity: Polynomial
  /** kg/m³ */
  readonly density: Polynomial
  /** kJ/(kg·K) */
  readonly specificHeat: Polynomial
}

/** Coefficients as reproduced in the open-source property library CoolProp and in several listings; the handbook's page itself was not at hand. */
export const choiOkos: Source = {
  document: 'Choi & Okos 1986, as tabulated in ASHRAE Handbook—Refrigeration, Thermal properties of foods',
  section: 'Table 1 (components) and Table 2 (water), −40 to 150 °C',
  edition: '2006 and later',
  mark: 'quoted',
}

export const mixtureRules: Source = {
  document: 'ASHRAE Handbook—Refrigeration, Thermal properties of foods',
  section:
    'density from mass fractions, specific heat by mass, conductivity by volume fraction (parallel; series as lower bound)',
  edition: '2006 and later',
  mark: 'quoted',
}

/** Components of unfrozen food. The water row is the one for 0 °C and above; nothing here freezes. */
export const foodComponents = {
  water: {
    conductivity: [0.57109, 1.7625e-3, -6.7036e-6],
    density: [997.18, 3.1439e-3, -3.7574e-3],
    specificHeat: [4.1289, -9.0864e-5, 5.4731e-6],
  },
  protein: {
    conductivity: [0.17881, 1.1958e-3, -2.7178e-6],
    density: [1329.9, -0.5184, 0],
    specificHeat: [2.0082, 1.2089e-3, -1.3129e-6],
  },
  fat: {
    conductivity: [0.18071, -2.7604e-4, -1.7749e-7],
    density: [925.59, -0.41757, 0],
    specificHeat: [1.9842, 1.4733e-3, -4.8008e-6],
  },
  carbohydrate: {
    conductivity: [0.20141, 1.3874e-3, -4.3312e-6],
    density: [1599.1, -0.31046, 0],
    specificHeat: [1.5488, 1.9625e-3, -5.9399e-6],
  },
  ash: {
    conductivity: [0.32962, 1.4011e-3, -2.9069e-6],
    density: [2423.8, -0.28063, 0],
    specificHeat: [1.0926, 1.8896e-3, -3.6817e-6],
  },
} as const satisfies Record<string, ComponentProperties>

/**
 * Constant of water's specific heat in the 1986 paper for 0 to 150 °C, kJ/(kg·K). The handbook prints 4.1289, the mean of the
 * paper's two branches at 0 °C, which is 1.2 % under water as measured; both readings are shown as a range.
 */
export const WATER_SPECIFIC_HEAT_1986 = 4.1762

export type ComponentName = keyof typeof foodComponents
export const componentNames = Object.keys(foodComponents) as ComponentName[]
