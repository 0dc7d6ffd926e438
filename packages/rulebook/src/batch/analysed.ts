import type { Measure } from '../rule.ts'
import { EARLY_STEPS, notTheEnd } from './end-of-process.ts'
import type { BatchFacts } from './facts.ts'
import { dayOf } from './local-day.ts'
import { isSlow } from './slow-kind.ts'

/** What a laboratory finds in the finished product, and the measure of the rules it is; mg/kg as the sodium salt. */
const analyses = { nitrite: 'residualNitritePpm', nitrate: 'residualNitratePpm' } as const

/**
 * Measures with what was analysed in the finished product put beside them; of several analyses the highest counts, for a limit at most is
 * what they are held against. One of a product still being made says nothing, nor does less than nothing.
 *
 * @param dryEndsAt end of the drying's log, seconds from 1970
 */
export function withAnalyses(
  measures: Readonly<Record<string, Measure>>,
  facts: BatchFacts,
  dryEndsAt?: number,
): Record<string, Measure> {
  const early = isSlow(facts)
    ? notTheEnd(facts, dryEndsAt)
    : // What is cooked or fresh may be finished on its own day.
      (m: { readonly step: string; readonly taken: string }) =>
        EARLY_STEPS.has(m.step) || dayOf(facts, m.taken) < facts.on
          ? 'it was taken of a product not finished'
          : undefined
  const found = Object.entries(analyses).flatMap(([what, measure]) => {
    const values = (facts.measures ?? []).flatMap((m) =>
      m.what === what && m.value !== undefined && m.value >= 0 && early(m) === undefined ? [m.value] : [],
    )
    return values.length === 0 ? [] : [[measure, { value: Math.max(...values) }] as const]
  })
  return { ...measures, ...Object.fromEntries(found) }
}
