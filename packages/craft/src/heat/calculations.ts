import {
  airCalculation,
  cookCalculation,
  fitCalculation,
  propertiesCalculation,
  scheduleCalculation,
} from './physics-calculations.ts'
import { chillCalculation, lethalityCalculation } from './safety-calculations.ts'

export const heatCalculations = [
  propertiesCalculation,
  airCalculation,
  cookCalculation,
  fitCalculation,
  scheduleCalculation,
  lethalityCalculation,
  chillCalculation,
]
