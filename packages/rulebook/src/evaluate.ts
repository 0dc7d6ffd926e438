import { canDecide } from '@forcemeat/craft/source'
import { factWords } from './fact-words.ts'
import { isKnown, measureOf, spanOf, type Known } from './measure.ts'
import { EVERYWHERE, type Case, type Dated, type Finding, type Rule } from './rule.ts'

/** The value in force on an ISO date, or undefined where the rule had none then. */
export function inForce(rule: Rule, on: string): Dated | undefined {
  return rule.values
    .filter((v) => (v.from === undefined || v.from <= on) && (v.until === undefined || on < v.until))
    .toSorted((a, b) => ((a.from ?? '') < (b.from ?? '') ? 1 : -1))[0]
}

/** True where every fact the rule asks about is known and matches. */
export function applies(rule: Rule, facts: Case['facts']): boolean {
  return Object.entries(rule.when ?? {}).every(([key, allowed]) => {
    const fact = facts[key]
    return fact !== undefined && allowed.includes(fact)
  })
}

/** Facts the rule turns on that are named and not known, where nothing that is known rules it out. */
export function unknownFacts(rule: Rule, facts: Case['facts']): string[] {
  const asked = Object.entries(rule.when ?? {})
  const ruledOut = asked.some(([key, allowed]) => {
    const fact = facts[key]
    return fact === undefined ? !Object.hasOwn(facts, key) : !allowed.includes(fact)
  })
  return ruledOut ? [] : asked.filter(([key]) => facts[key] === undefined).map(([key]) => key)
}

/** The fields of a finding that come from the rule itself. */
export function heading(rule: Rule, dated: Dated): Omit<Finding, 'verdict' | 'because'> {
  const { document, section, edition, url, mark } = dated.source
  return {
    rule: rule.id,
    title: rule.title,
    jurisdiction: rule.jurisdiction,
    weight: rule.weight,
    ...(rule.anyOf === undefined ? {} : { anyOf: rule.anyOf }),
    unit: rule.unit,
    source: { document, section, edition, mark, ...(url === undefined ? {} : { url }) },
    inForce: {
      ...(dated.from === undefined ? {} : { from: dated.from }),
      ...(dated.until === undefined ? {} : { until: dated.until }),
    },
  }
}

const round = (x: number): number => Number(x.toPrecision(12))

/** A figure short enough to read that still stands on the same side of the limit as the figure itself. */
export function legible(x: number, limit: number): string {
  for (let decimals = 1; decimals <= 6; decimals += 1) {
    const shown = Number(x.toFixed(decimals))
    if (Math.sign(shown - limit) === Math.sign(round(x) - limit)) return String(shown)
  }
  return String(round(x))
}

type Side = 'min' | 'max'
type Outcome = Pick<Finding, 'verdict' | 'because' | 'settle'>

function against(limit: number, side: Side, measure: Known, rule: Rule): Outcome {
  const { low, high } = spanOf(measure)
  const per = rule.basis === undefined ? '' : ` (${rule.basis})`
  const unit = rule.unit === '' ? '' : ` ${rule.unit}`
  const [worst, best] = side === 'max' ? [high, low] : [low, high]
  const sign = side === 'max' ? 1 : -1
  const shown = low === high ? legible(measure.value, limit) : `${legible(low, limit)} to ${legible(high, limit)}`
  const bound = `${side === 'max' ? 'at most' : 'at least'} ${round(limit)}${unit}`
  if (sign * (worst - limit) <= 0) return { verdict: 'pass', because: `${shown}${unit}${per}; allowed ${bound}` }
  // Both ends, as of the figure itself: the margin is that of the worse.
  const ends = [best, worst].map((x) => legible(Math.abs(x - limit), 0))
  const over = ends[0] === ends[1] ? ends[0]! : ends.join(' to ')
  if (sign * (best - limit) > 0)
    return {
      verdict: 'fail',
      because: `${shown}${unit}${per}; allowed ${bound}, so it is ${over}${unit} ${side === 'max' ? 'over' : 'short'}`,
    }
  return {
    verdict: 'cannot-tell',
    because: `${shown}${unit}${per} lies on both sides of the limit of ${bound}`,
    settle:
      measure.settle ??
      'a finer measurement, or an aim further inside: the whole interval must lie on one side of the limit',
  }
}

/** What the way the limit was read leaves of an outcome. */
function onWhoseWord(outcome: Outcome, dated: Dated): Outcome {
  if (outcome.verdict === 'cannot-tell') return outcome
  const { mark, document, section } = dated.source
  const settle =
    mark === 'common-practice'
      ? 'no document states it: what your own product has shown, written down'
      : `read the limit in ${document}, ${section}, and enter it with its edition`
  if (!canDecide(mark))
    return {
      verdict: 'cannot-tell',
      because: `${outcome.because}; but the limit itself is ${mark === 'from-memory' ? 'from memory' : 'common practice'}, not read in its source`,
      settle,
    }
  if (dated.secondHand === undefined) return outcome
  if (outcome.verdict === 'fail')
    return { ...outcome, because: `${outcome.because} (limit as reported by ${dated.secondHand})` }
  return {
    verdict: 'cannot-tell',
    because: `${outcome.because}; but the limit is known only second hand, from ${dated.secondHand}`,
    settle,
  }
}

/** Rid of the last bits of floating point, and on the rule's own step where it has one. */
const onStep = (measure: Known, step: number | undefined): Known => {
  const to = (x: number): number => round(step === undefined ? x : Math.round(round(x / step)) * step)
  const { low, high } = spanOf(measure)
  return { ...measure, value: to(measure.value), low: to(low), high: to(high) }
}

const order = { fail: 0, 'cannot-tell': 1, pass: 2 }

/**
 * Hold one rule against a case. An unknown fact the rule turns on, a missing measure, an interval across the limit, or a limit nobody has
 * read in its source gives `cannot-tell`; `pass` is never given by default. Undefined where the rule has nothing to say.
 */
export function evaluate(rule: Rule, subject: Case): Finding | undefined {
  if (rule.jurisdiction !== EVERYWHERE && !subject.jurisdictions.includes(rule.jurisdiction)) return undefined
  const dated = inForce(rule, subject.on)
  if (!dated || (rule.measure === undefined && rule.sum === undefined && rule.finding === undefined)) return undefined
  const head = heading(rule, dated)
  const unknown = unknownFacts(rule, subject.facts)
  if (unknown.length > 0)
    return {
      ...head,
      verdict: 'cannot-tell',
      because: `not known: ${unknown.map(factWords).join('; ')}. This holds for ${rule.scope}`,
      settle: `say ${unknown.map(factWords).join('; ')}`,
    }
  if (!applies(rule, subject.facts)) return undefined
  if (rule.finding) return { ...head, ...rule.finding }
  const measure = measureOf(rule, subject.measures)
  if (!isKnown(measure)) {
    const settle = measure?.settle
    return {
      ...head,
      verdict: 'cannot-tell',
      because: measure?.missing ?? 'the figure is not known',
      ...(settle === undefined ? {} : { settle }),
    }
  }
  const held = onStep(measure, rule.step)
  const sides = (['min', 'max'] as const).flatMap((side) => {
    const limit = dated[side]
    if (limit === undefined) return []
    const { low, high } = spanOf(held)
    const margin = round(side === 'max' ? limit - high : low - limit)
    return [{ limit, margin, ...onWhoseWord(against(limit, side, held, rule), dated) }]
  })
  const worst = sides.toSorted((a, b) => order[a.verdict] - order[b.verdict] || a.margin - b.margin)[0]
  return worst && { ...head, measured: round(measure.value), ...worst }
}

/** Findings of every rule that has something to say, in the rules' order. */
export const judgeCase = (rules: readonly Rule[], subject: Case): Finding[] =>
  rules.flatMap((rule) => evaluate(rule, subject) ?? [])
