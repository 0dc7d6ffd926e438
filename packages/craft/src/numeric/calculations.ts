import { defineCalculation } from '../calculation.ts'
import { capabilitySource } from './capability.ts'
import { controlChart, controlChartInput, controlChartOutput, runRuleSource } from './control-chart.ts'

export const numericCalculations = [
  defineCalculation({
    name: 'chart.individuals',
    title: 'Control chart of single figures',
    summary:
      'Centre and three-sigma limits from the moving range, points that ask for a cause by the usual run rules, capability against a limit.',
    input: controlChartInput,
    output: controlChartOutput,
    sources: [runRuleSource, capabilitySource],
    example: { values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1], highest: 60 },
    compute: controlChart,
  }),
]
