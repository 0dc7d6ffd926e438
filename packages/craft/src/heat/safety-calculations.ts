import { defineCalculation } from '../calculation.ts'
import { chill } from './chill.ts'
import { deathSets } from './data/death.ts'
import { lethality } from './lethality.ts'
import { perfringensSource } from './perfringens.ts'
import { chillInputSchema, chillOutputSchema, lethalityInputSchema, lethalityOutputSchema } from './safety-schema.ts'

const cook = [
  { minute: 0, coreC: 8 },
  { minute: 30, coreC: 35 },
  { minute: 60, coreC: 56 },
  { minute: 90, coreC: 66 },
  { minute: 110, coreC: 70.5 },
  { minute: 115, coreC: 70.6 },
]
const cooling = [
  { minute: 0, coreC: 70.6 },
  { minute: 20, coreC: 55 },
  { minute: 60, coreC: 30 },
  { minute: 90, coreC: 18 },
  { minute: 150, coreC: 8 },
  { minute: 210, coreC: 4.2 },
]

export const lethalityCalculation = defineCalculation({
  name: 'heat.lethality',
  title: 'Lethality of a cook',
  summary:
    'Accumulates the kill of a core log with published D and z, and, kept apart from it, holds the log against the lethality tables, the come-up time and the humidity conditions. No credit below the lowest temperature studied or across holes in the log.',
  input: lethalityInputSchema,
  output: lethalityOutputSchema,
  sources: [...new Map(deathSets.map((s) => [s.source.document, s.source])).values()],
  example: {
    log: cook,
    organism: 'salmonella',
    product: { species: 'meat', target: '6.5-log' },
    humidity: { exempt: 'moisture-holding-casing' },
  },
  compute: lethality,
})

export const chillCalculation = defineCalculation({
  name: 'heat.chill',
  title: 'Chilling after a cook',
  summary:
    'Measures the warmest core through every published cooling option that applies to the product; the options are alternatives and one that is met is enough. A conservative growth estimate of C. perfringens stands beside them and decides nothing.',
  input: chillInputSchema,
  output: chillOutputSchema,
  sources: [perfringensSource],
  example: { log: cooling, product: { cured: true, nitritePpm: 140, saltPct: 2, waterPct: 58 } },
  compute: chill,
})
