import { airCalculation, cookCalculation, fitCalculation, propertiesCalculation } from './physics-calculations.ts'
import { chillCalculation, lethalityCalculation } from './safety-calculations.ts'

export const heatCalculations = [
  propertiesCalculation,
  airCalculation,
  cookCalculation,
  fitCalculation,
  lethalityCalculation,
  chillCalculation,
]
