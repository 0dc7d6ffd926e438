import { ownLimitRules } from '../../data/process/arrival.ts'
import { heading } from '../evaluate.ts'
import type { Finding } from '../rule.ts'

/** Limits a kitchen sets itself, beside the law. */
export type OwnLimits = {
  /** Warmest a chilled meat may come in, °C. */
  readonly arrivalMaxC?: number | undefined
  /** Most rework in a batch, % of all that is weighed in. */
  readonly reworkMaxPct?: number | undefined
  /** Oldest rework may be when it is weighed in, days. */
  readonly reworkMaxDays?: number | undefined
}

type Said = Pick<Finding, 'verdict' | 'because' | 'settle'>

/** A finding against a limit of the kitchen's own. It is advice, and the source is the kitchen. */
export function ownFinding(
  which: keyof typeof ownLimitRules,
  said: Said,
  figures: { readonly measured?: number; readonly limit?: number } = {},
): Finding {
  const rule = ownLimitRules[which]
  const { measured, limit } = figures
  return {
    ...heading(rule, rule.values[0]),
    source: { document: "The kitchen's own limit", section: 'as set in its record', edition: 'the entry in force' },
    ...said,
    ...figures,
    ...(measured !== undefined && limit !== undefined ? { margin: Number((limit - measured).toFixed(6)) } : {}),
  }
}
