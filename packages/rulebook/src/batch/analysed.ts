import type { Measure } from '../rule.ts'
import type { BatchFacts } from './facts.ts'

/** What a laboratory finds in the finished product, and the measure of the rules it is; mg/kg as the sodium salt. */
const analyses = { nitrite: 'residualNitritePpm', nitrate: 'residualNitratePpm' } as const

/**
 * Measures with what was analysed in the finished product put beside them; of several analyses the highest counts, for a limit at most is
 * what they are held against.
 */
export function withAnalyses(
  measures: Readonly<Record<string, Measure>>,
  facts: Pick<BatchFacts, 'measures'>,
): Record<string, Measure> {
  const found = Object.entries(analyses).flatMap(([what, measure]) => {
    const values = (facts.measures ?? []).flatMap((m) => (m.what === what && m.value !== undefined ? [m.value] : []))
    return values.length === 0 ? [] : [[measure, { value: Math.max(...values) }] as const]
  })
  return { ...measures, ...Object.fromEntries(found) }
}
