import { overall } from '@forcemeat/craft/finding'
import type { Finding } from '../rule.ts'
import { cookedDry, SETTLE_ORDER } from './cook-order.ts'
import type { BatchFacts, CurveChannel } from './facts.ts'
import type { SlowLogs } from './slow-facts.ts'

const isLethality = (f: Finding): boolean => f.rule.includes('lethality') && f.weight !== 'advice'

/** Of a recipe that cooks nothing a warm smoke or a drying may have been logged as a cook: what that did not meet is shown and stops nothing. */
const cooksNothing = ({ recipeBody }: BatchFacts): boolean =>
  recipeBody.kind !== 'cooked' && recipeBody.cook === undefined

/** After drying no table is met by a temperature alone. */
const afterDrying = (f: Finding, because: string): Finding =>
  f.verdict === 'pass'
    ? { ...f, verdict: 'cannot-tell', because: `${f.because}; but ${because}`, settle: SETTLE_ORDER }
    : f

const asShown = (f: Finding): Finding =>
  f.verdict === 'pass'
    ? f
    : {
        ...f,
        weight: 'advice',
        because: `${f.because}; the recipe cooks nothing, so that this stops nothing`,
        settle: `where this was a warm smoke or the drying: the curve recorded anew with that purpose; where it was to be a cook: ${f.settle ?? 'the recipe with its cook'}`,
      }

/** The findings of a batch's own cook and chill as they stand, what there was of a cook, and whether it is proven. */
export function judgeHeated(
  facts: BatchFacts,
  curves: readonly Finding[],
  channels: readonly CurveChannel[],
  logs: SlowLogs,
): { readonly heated: readonly Finding[]; readonly logged: boolean; readonly cooked: boolean } {
  const dried = curves.some(isLethality) ? cookedDry(facts, channels, logs) : undefined
  const ordered = dried === undefined ? curves : curves.map((f) => (isLethality(f) ? afterDrying(f, dried) : f))
  const cook = ordered.filter(isLethality)
  const cooked = cook.length > 0 && overall(cook) === 'pass'
  return {
    heated: !cooked && cooksNothing(facts) ? ordered.map((f) => (isLethality(f) ? asShown(f) : f)) : ordered,
    logged: cook.length > 0,
    cooked,
  }
}
