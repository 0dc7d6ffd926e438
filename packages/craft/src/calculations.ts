import type { Calculation } from './calculation.ts'
import { cureCalculations } from './cure/calculations.ts'
import { declareCalculations } from './declare/calculations.ts'
import { labelCalculations } from './declare/label/calculations.ts'
import { dryCalculations } from './dry/calculations.ts'
import { blendCalculations } from './blend/calculations.ts'
import { fermentCalculations } from './ferment/calculations.ts'
import { heatCalculations } from './heat/calculations.ts'
import { seasonCalculations } from './season/calculations.ts'
import { planCalculations } from './plan/calculations.ts'
import { numericCalculations } from './numeric/calculations.ts'
import { porkCalculations } from './pork/calculations.ts'
import { costCalculations } from './cost/calculations.ts'
import { instrumentCalculations } from './instrument/calculations.ts'
import { mixCalculations } from './mix/calculations.ts'
import { stuffCalculations } from './stuff/calculations.ts'
import { recipeCalculations } from './recipe/calculations.ts'
import { fermentDryCalculations } from './recipe/ferment-dry/ferment-dry.ts'
import { recipeTextCalculations } from './recipe/text/calculation.ts'
import { recipeWorkCalculations } from './recipe/work/calculations.ts'
import { addedWaterCalculation } from './recipe/added-water.ts'

/**
 * The registry: every computation the program can do. Each engine lists its own entries in its `calculations.ts`; an engine is
 * added here, a calculation in its engine's list, and every door follows.
 */
const engines: readonly (readonly Calculation[])[] = [
  heatCalculations,
  blendCalculations,
  cureCalculations,
  [
    addedWaterCalculation,
    ...recipeCalculations,
    ...recipeTextCalculations,
    ...recipeWorkCalculations,
    ...fermentDryCalculations,
  ],
  stuffCalculations,
  mixCalculations,
  seasonCalculations,
  costCalculations,
  instrumentCalculations,
  declareCalculations,
  labelCalculations,
  dryCalculations,
  fermentCalculations,
  porkCalculations,
  planCalculations,
  numericCalculations,
]

const all = engines.flat()

/** Entries by name. */
export const calculations: Readonly<Record<string, Calculation>> = Object.fromEntries(all.map((c) => [c.name, c]))

/** An entry by name, or undefined; never a property of Object. */
export const findCalculation = (name: string): Calculation | undefined =>
  Object.hasOwn(calculations, name) ? calculations[name] : undefined
