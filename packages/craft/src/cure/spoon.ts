import type { AgentComposition } from '../materials/schema.ts'
import { strengthOf } from './agent.ts'

/** Bulk density spread of granular cures in a spoon: the same level spoon holds from 0.75 to 1.25 of its mean. Common practice, no source. */
const SPOON_SPREAD = 0.25

export type SpoonAnswer = { readonly allowed: false; readonly reason: string } | { readonly allowed: true }

/**
 * May this be measured by volume? Anything that holds nitrite or nitrate may not: the answer carries the reason to show. Herbs, spices,
 * salt and sugar may.
 */
export function spoonFor(agent: AgentComposition): SpoonAnswer {
  const { nitrite, nitrate } = strengthOf(agent)
  if (nitrite === 0 && nitrate === 0) return { allowed: true }
  const spread = Math.round(SPOON_SPREAD * 100)
  return {
    allowed: false,
    reason:
      `Cure is weighed, never spooned. A level spoon of granules differs by ${spread} % or more with grain, damp and hand, ` +
      'and two cures that look alike can differ tenfold in strength; the room between too little to protect and more than the law allows is narrower than that. ' +
      'Weigh it, or mix a pre-blend of cure in salt and weigh that.',
  }
}
