import { z } from 'zod'
import type { Source } from '../source.ts'

export const capabilitySource: Source = {
  document: 'NIST/SEMATECH e-Handbook of Statistical Methods',
  section: '6.1.6 What is process capability?: approximate interval of Cpk',
  edition: '2012',
  mark: 'from-memory',
}

/** Figures a standard deviation from moving ranges of two is worth, of those it is drawn from: 0.5 / 0.826, its variance against that of the sample's own. */
const WORTH = 0.5 / 0.826
const NORMAL_95 = 1.96
/** Fewest figures a capability is spoken of: common practice. */
const FEWEST = 10
/** Three standard deviations between the centre and the limit. */
const CAPABLE = 1

export const capabilitySchema = z.strictObject({
  /** Interval of the index, 95 %. */
  low: z.number(),
  high: z.number(),
  verdict: z.enum(['capable', 'not-capable', 'cannot-tell']),
  because: z.string(),
})
export type Capability = z.infer<typeof capabilitySchema>

type Asked = {
  readonly cpk: number
  /** How many figures the limits of the chart are drawn from. */
  readonly figures: number
  /** Points of the chart that ask for a cause. */
  readonly signals: number
}

/**
 * What a capability index of so many figures says: Cpk ± 1.96 √(1/(9 n) + Cpk²/(2 ν)), ν = 0.605 (n − 1) for a standard deviation
 * from moving ranges. Few figures, or a chart with points that ask for a cause, say nothing yet.
 *
 * @source {@link capabilitySource}; the worth of moving ranges: asymptotic variance 0.826 σ²/n, checked by simulation in the tests
 */
export function capability({ cpk, figures: n, signals }: Asked): Capability {
  const half = NORMAL_95 * Math.sqrt(1 / (9 * n) + cpk ** 2 / (2 * WORTH * Math.max(1, n - 1)))
  const [low, high] = [cpk - half, cpk + half]
  const span = `${low.toFixed(2)} to ${high.toFixed(2)} at 95 %`
  const tell = (verdict: Capability['verdict'], because: string): Capability => ({ low, high, verdict, because })
  if (n < FEWEST) return tell('cannot-tell', `${n} figures are too few: ${span}; from ${FEWEST} on it is spoken of`)
  if (signals > 0)
    return tell('cannot-tell', `${signals} points ask for a cause: until it is found the chart foretells nothing`)
  if (low >= CAPABLE) return tell('capable', `${span}: three standard deviations and more to the limit`)
  if (high < CAPABLE)
    return tell('not-capable', `${span}: less than three standard deviations to the limit, so some will lie beyond it`)
  return tell('cannot-tell', `${span}: more figures would narrow it`)
}
