import { z } from 'zod'
import { compositionSchema, type Composition } from '../composition.ts'
import { quantity } from '../schema.ts'
import {
  componentNames,
  foodComponents,
  WATER_SPECIFIC_HEAT_1986,
  type ComponentName,
  type Polynomial,
} from './data/food-components.ts'

/** A table of food composition leaves a few percent unnamed; less than this named and it is no composition. */
const LEAST_NAMED_PCT = 80

/** Range of the component polynomials that is used here; below zero water would freeze, which they do not follow. */
export const PROPERTY_RANGE_C = { min: -1, max: 150 } as const

/** Composition of which enough is named to take thermal properties from. */
export const thermalComposition = () =>
  compositionSchema.superRefine((c, ctx) => {
    const sum = namedPct(c)
    if (sum < LEAST_NAMED_PCT)
      ctx.addIssue({
        code: 'custom',
        message: `names only ${Number(sum.toFixed(2))} % of the mass; allowed: at least ${LEAST_NAMED_PCT} % (the rest is shared out in proportion)`,
      })
  })

const share = (c: Composition): Record<ComponentName, number> => ({
  water: c.waterPct,
  protein: c.proteinPct,
  fat: c.fatPct,
  carbohydrate: c.carbohydratePct ?? 0,
  ash: Math.max(c.ashPct ?? 0, c.saltPct ?? 0),
})
const namedPct = (c: Composition): number => Object.values(share(c)).reduce((s, v) => s + v, 0)

/** Mass fractions of the five components, adding up to 1; what is not named is shared out in proportion. Salt counts as ash. */
export function massFractions(composition: Composition): Readonly<Record<ComponentName, number>> {
  const parts = share(composition)
  const sum = namedPct(composition)
  return Object.fromEntries(componentNames.map((n) => [n, parts[n] / sum])) as Record<ComponentName, number>
}

const at = ([a, b, c]: Polynomial, t: number) => a + t * (b + t * c)

/** Thermal properties of a mixture of food components at one temperature. Conductivities in W/(m·K), density kg/m³, specific heat J/(kg·K). */
export type ThermalProperties = {
  readonly conductivity: number
  readonly conductivitySeries: number
  readonly density: number
  readonly specificHeat: number
}

/**
 * Mixture properties by the handbook's rules: 1/ρ = Σ x/ρᵢ, cp = Σ x·cpᵢ, k = Σ v·kᵢ with v the volume fractions (components
 * side by side, the upper bound); in series 1/k = Σ v/kᵢ (the lower bound).
 * @param fractions mass fractions adding to 1
 */
export function mixtureProperties(
  fractions: Readonly<Record<ComponentName, number>>,
  tempC: number,
): ThermalProperties {
  let volume = 0
  let specificHeat = 0
  let parallel = 0
  let series = 0
  for (const name of componentNames) {
    const x = fractions[name]
    if (x === 0) continue
    const { conductivity, density, specificHeat: cp } = foodComponents[name]
    const v = x / at(density, tempC)
    const k = at(conductivity, tempC)
    volume += v
    specificHeat += 1000 * x * at(cp, tempC)
    parallel += v * k
    series += v / k
  }
  return { conductivity: parallel / volume, conductivitySeries: volume / series, density: 1 / volume, specificHeat }
}

/** Specific heat of the mixture as a polynomial in °C, J/(kg·K); exact, since the mixture rule is linear. */
export function specificHeatPolynomial(fractions: Readonly<Record<ComponentName, number>>): Polynomial {
  const sum: [number, number, number] = [0, 0, 0]
  for (const name of componentNames)
    foodComponents[name].specificHeat.forEach((c, i) => (sum[i]! += 1000 * fractions[name] * c))
  return sum
}

export const propertiesInput = z.strictObject({
  composition: thermalComposition(),
  tempC: quantity('°C', PROPERTY_RANGE_C),
})
const bounds = z.strictObject({ low: z.number(), high: z.number() })
export const propertiesOutput = z.strictObject({
  conductivityWPerMK: z.number(),
  densityKgPerM3: z.number(),
  specificHeatJPerKgK: z.number(),
  diffusivityM2PerS: z.number(),
  /** Components in series (low) and side by side (high): no arrangement of the same parts conducts outside these. */
  conductivityBoundsWPerMK: bounds,
  /** Low with the handbook's constant for water, high with the original paper's. */
  specificHeatRangeJPerKgK: bounds,
})
export type PropertiesInput = z.infer<typeof propertiesInput>
export type PropertiesOutput = z.infer<typeof propertiesOutput>

/**
 * Thermal conductivity, density, specific heat and diffusivity of a sausage mix from its composition, −1 to 150 °C, unfrozen.
 * @source Choi & Okos 1986 in ASHRAE Handbook—Refrigeration
 */
export function properties({ composition, tempC }: PropertiesInput): PropertiesOutput {
  const fractions = massFractions(composition)
  const p = mixtureProperties(fractions, tempC)
  return {
    conductivityWPerMK: p.conductivity,
    densityKgPerM3: p.density,
    specificHeatJPerKgK: p.specificHeat,
    diffusivityM2PerS: p.conductivity / (p.density * p.specificHeat),
    conductivityBoundsWPerMK: { low: p.conductivitySeries, high: p.conductivity },
    specificHeatRangeJPerKgK: {
      low: p.specificHeat,
      high: p.specificHeat + 1000 * fractions.water * (WATER_SPECIFIC_HEAT_1986 - foodComponents.water.specificHeat[0]),
    },
  }
}
