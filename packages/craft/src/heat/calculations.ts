import { chillCalculation, lethalityCalculation } from './safety-calculations.ts'

export const heatCalculations = [lethalityCalculation, chillCalculation]
