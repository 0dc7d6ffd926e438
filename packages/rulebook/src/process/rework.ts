import { reworkRules } from '../../data/process/arrival.ts'
import { evaluate } from '../evaluate.ts'
import type { Finding } from '../rule.ts'
import { ownFinding, type OwnLimits } from './own-limits.ts'

export type ReworkUsed = {
  readonly lot: string
  readonly kg: number
  /** Day the rework was taken. */
  readonly on: string
}

export type ReworkFacts = {
  readonly rework: readonly ReworkUsed[]
  /** All that was weighed into the batch, kg. */
  readonly totalKg: number
  readonly on: string
  readonly jurisdictions: readonly string[]
  readonly own?: OwnLimits | undefined
}

const days = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000)
const pct = (x: number): number => Number(x.toFixed(2))

/** Share and age of the rework in a batch, against published limits and the kitchen's own. Nothing where no rework went in. */
export function judgeReworkLimits({ rework, totalKg, on, jurisdictions, own = {} }: ReworkFacts): Finding[] {
  if (rework.length === 0 || totalKg <= 0) return []
  const share = (100 * rework.reduce((s, r) => s + r.kg, 0)) / totalKg
  const oldest = rework.reduce((a, b) => (a.on <= b.on ? a : b))
  const age = days(oldest.on, on)
  const measures = { reworkPct: { value: share } }
  const published = reworkRules
    .flatMap((r) => evaluate(r, { facts: {}, measures, on, jurisdictions }) ?? [])
    .map((f): Finding =>
      f.verdict === 'fail'
        ? {
            ...f,
            verdict: 'cannot-tell',
            because: `${f.because}; the limit is for what is re-worked with its casing, and the record does not say`,
            settle: 'a note that the casing was taken off, or less of it',
          }
        : f,
    )
  const { reworkMaxPct, reworkMaxDays } = own
  const judged = (within: boolean) => (within ? ('pass' as const) : ('fail' as const))
  return [
    ...published,
    ...(reworkMaxPct === undefined
      ? []
      : [
          ownFinding(
            'reworkShare',
            {
              verdict: judged(share <= reworkMaxPct),
              because: `${pct(share)} % of the batch is rework (${rework.map((r) => r.lot).join(', ')}); allowed here at most ${reworkMaxPct} %`,
            },
            { measured: pct(share), limit: reworkMaxPct },
          ),
        ]),
    ...(reworkMaxDays === undefined
      ? []
      : [
          ownFinding(
            'reworkAge',
            {
              verdict: judged(age <= reworkMaxDays),
              because: `${oldest.lot} was taken on ${oldest.on}, ${age} days before; allowed here at most ${reworkMaxDays} days`,
            },
            { measured: age, limit: reworkMaxDays },
          ),
        ]),
  ]
}
