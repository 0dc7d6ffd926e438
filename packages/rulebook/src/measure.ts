import type { Measure, Rule } from './rule.ts'

export type Known = Extract<Measure, { readonly value: number }>

export const isKnown = (measure: Measure | undefined): measure is Known => measure !== undefined && 'value' in measure

/** Lowest and highest a figure may be. */
export const spanOf = ({ value, low = value, high = value }: Known): { low: number; high: number } => ({ low, high })

/** Sum of measures, each times its weight; its interval is the widest the parts allow. Missing where any part is. */
export function weighted(parts: NonNullable<Rule['sum']>, measures: Readonly<Record<string, Measure>>): Measure {
  let [value, low, high] = [0, 0, 0]
  const settles: string[] = []
  for (const { measure, weight } of parts) {
    const part = measures[measure]
    if (!isKnown(part))
      return part ?? { missing: `${measure} is not known`, settle: `${measure}, measured or computed` }
    const span = spanOf(part)
    if (part.settle !== undefined) settles.push(part.settle)
    value += weight * part.value
    low += weight * (weight < 0 ? span.high : span.low)
    high += weight * (weight < 0 ? span.low : span.high)
  }
  return { value, low, high, ...(settles.length > 0 ? { settle: settles.join('; ') } : {}) }
}

/** The figure a rule is about: its measure, the stand-in for it, or the sum it names. */
export function measureOf(rule: Rule, measures: Readonly<Record<string, Measure>>): Measure | undefined {
  if (rule.sum) return weighted(rule.sum, measures)
  if (rule.measure === undefined) return undefined
  const first = measures[rule.measure]
  const second = rule.orMeasure === undefined ? undefined : measures[rule.orMeasure]
  if (isKnown(first) || second === undefined)
    return first ?? { missing: `${rule.measure} is not known`, settle: `${rule.measure}, measured or computed` }
  return second
}
