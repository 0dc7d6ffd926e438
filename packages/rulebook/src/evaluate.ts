import { canDecide } from '@forcemeat/craft/source'
import type { Case, Dated, Finding, Measure, Rule } from './rule.ts'

/** The value in force on an ISO date, or undefined where the rule had none then. */
export function inForce(rule: Rule, on: string): Dated | undefined {
  return rule.values
    .filter((v) => (v.from === undefined || v.from <= on) && (v.until === undefined || on < v.until))
    .toSorted((a, b) => ((a.from ?? '') < (b.from ?? '') ? 1 : -1))[0]
}

/** True where every fact the rule asks about is known and matches; undefined facts leave the rule unmatched only if known to differ. */
export function applies(rule: Rule, facts: Case['facts']): boolean {
  return Object.entries(rule.when ?? {}).every(([key, allowed]) => {
    const fact = facts[key]
    return fact !== undefined && allowed.includes(fact)
  })
}

/** The fields of a finding that come from the rule itself. */
export function heading(rule: Rule, dated: Dated): Omit<Finding, 'verdict' | 'because'> {
  const { document, section, edition, url, mark } = dated.source
  return {
    rule: rule.id,
    title: rule.title,
    jurisdiction: rule.jurisdiction,
    weight: rule.weight,
    unit: rule.unit,
    source: { document, section, edition, mark, ...(url === undefined ? {} : { url }) },
    inForce: {
      ...(dated.from === undefined ? {} : { from: dated.from }),
      ...(dated.until === undefined ? {} : { until: dated.until }),
    },
  }
}

const round = (x: number): number => Number(x.toPrecision(12))

function against(limit: number, side: 'min' | 'max', measure: Extract<Measure, { value: number }>, unit: string) {
  const { value, low = value, high = value } = measure
  const word = side === 'max' ? 'at most' : 'at least'
  const [worst, best] = side === 'max' ? [high, low] : [low, high]
  const sign = side === 'max' ? 1 : -1
  const shown = low === high ? `${round(value)} ${unit}` : `${round(low)} to ${round(high)} ${unit}`
  if (sign * (worst - limit) <= 0) return { verdict: 'pass' as const, because: `${shown}, ${word} ${limit} ${unit}` }
  if (sign * (best - limit) > 0) return { verdict: 'fail' as const, because: `${shown}; allowed ${word} ${limit} ${unit}` }
  return {
    verdict: 'cannot-tell' as const,
    because: `${shown} lies on both sides of the limit of ${word} ${limit} ${unit}`,
    settle: 'a finer measurement: the interval must lie on one side of the limit',
  }
}

/**
 * Hold one limit rule against a case. A missing measure, an interval across the limit, or a limit nobody has read in its
 * source gives `cannot-tell`; `pass` is never given by default.
 */
export function evaluate(rule: Rule, subject: Case): Finding | undefined {
  if (!subject.jurisdictions.includes(rule.jurisdiction) || !applies(rule, subject.facts)) return undefined
  const dated = inForce(rule, subject.on)
  if (!dated || rule.measure === undefined) return undefined
  const measure = subject.measures[rule.measure]
  const head = heading(rule, dated)
  if (measure === undefined || 'missing' in measure) {
    const because = measure?.missing ?? `${rule.measure} is not known`
    const settle = measure?.settle
    return { ...head, verdict: 'cannot-tell', because, ...(settle === undefined ? {} : { settle }) }
  }
  const sides = (['min', 'max'] as const).flatMap((side) => {
    const limit = dated[side]
    if (limit === undefined) return []
    const margin = round(side === 'max' ? limit - measure.value : measure.value - limit)
    return [{ limit, margin, ...against(limit, side, measure, rule.unit) }]
  })
  const order = { fail: 0, 'cannot-tell': 1, pass: 2 }
  const worst = sides.toSorted((a, b) => order[a.verdict] - order[b.verdict] || a.margin - b.margin)[0]
  if (!worst) return undefined
  const found = { ...head, measured: round(measure.value), ...worst }
  if (worst.verdict === 'cannot-tell' || canDecide(dated.source.mark)) return found
  return {
    ...found,
    verdict: 'cannot-tell',
    because: `${worst.because}; the limit itself is ${dated.source.mark === 'from-memory' ? 'from memory' : 'common practice'}, not read in its source`,
    settle: 'read the limit in the document named and enter it with its edition',
  }
}

/** Findings of every rule that has something to say, in the rules' order. */
export const judgeCase = (rules: readonly Rule[], subject: Case): Finding[] =>
  rules.flatMap((rule) => evaluate(rule, subject) ?? [])
