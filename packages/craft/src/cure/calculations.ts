import { defineCalculation } from '../calculation.ts'
import { amount, amountInput, amountOutput } from './amount.ts'
import { ingoing, ingoingInput, ingoingOutput } from './ingoing.ts'
import { preblend, preblendInput, preblendOutput } from './preblend.ts'
import { atomicWeights, convolution, handbook } from './sources.ts'
import { swap, swapInput, swapOutput } from './swap.ts'
import { weighing, weighingInput, weighingOutput } from './weighing.ts'

const curingSalt = { sodiumNitritePct: 6.25, saltPct: 93.75 }

export const cureCalculations = [
  defineCalculation({
    name: 'cure.ingoing',
    title: 'Ingoing nitrite and nitrate',
    summary:
      'Nitrite (as sodium nitrite and as ion), nitrate, accelerators and salt that the cures bring, per kg of green weight, for comminuted, pumped, immersed and dry-rubbed meat; several agents at once.',
    input: ingoingInput,
    output: ingoingOutput,
    sources: [handbook, atomicWeights],
    example: {
      route: 'comminuted',
      basisKg: 10,
      agents: [{ name: 'curing salt', kg: 0.024, composition: curingSalt }],
    },
    compute: ingoing,
  }),
  defineCalculation({
    name: 'cure.amount',
    title: 'Cure to weigh for a target',
    summary:
      'How much of a curing agent gives a target of ingoing nitrite, and how much salt and nitrate come with it.',
    input: amountInput,
    output: amountOutput,
    sources: [handbook, atomicWeights],
    example: { route: 'comminuted', basisKg: 10, targetNitritePpm: 150, agent: { composition: curingSalt } },
    compute: amount,
  }),
  defineCalculation({
    name: 'cure.swap',
    title: 'One cure for another',
    summary:
      'The amount of another curing agent that gives the same nitrite, what the plain salt changes by, and why a swap cannot be done.',
    input: swapInput,
    output: swapOutput,
    sources: [atomicWeights],
    example: {
      basisKg: 10,
      from: { kg: 0.024, composition: curingSalt },
      to: { composition: { sodiumNitritePct: 0.6, saltPct: 99.4 } },
      totalSaltKg: 0.27,
    },
    compute: swap,
  }),
  defineCalculation({
    name: 'cure.weighing',
    title: 'Does the scale fit the dose?',
    summary:
      'The 95 % interval of ingoing nitrite from the scale (uniform rounding error and tolerance, convolved), against the band wanted; the smallest batch that fits, and what else would.',
    input: weighingInput,
    output: weighingOutput,
    sources: [convolution],
    example: {
      agentKg: 0.0048,
      composition: curingSalt,
      basisKg: 2,
      scale: { readabilityG: 1, toleranceG: 1 },
      target: { lowPpm: 120, highPpm: 156.25 },
    },
    compute: weighing,
  }),
  defineCalculation({
    name: 'cure.preblend',
    title: 'Cure diluted in salt',
    summary:
      "A blend of cure in the recipe's salt for many batches: what to weigh, how much of it a batch takes, and the interval of nitrite that follows.",
    input: preblendInput,
    output: preblendOutput,
    sources: [convolution],
    example: {
      basisKg: 2,
      targetNitritePpm: 140,
      agent: { composition: curingSalt },
      totalSaltKg: 0.04,
      batches: 20,
      blendScale: { readabilityG: 1, toleranceG: 1 },
      batchScale: { readabilityG: 1, toleranceG: 1 },
      target: { lowPpm: 120, highPpm: 156.25 },
    },
    compute: preblend,
  }),
]
