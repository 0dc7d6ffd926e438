import { overall, type Verdict } from '@forcemeat/craft/finding'
import { EVERYWHERE, type Finding } from '../rule.ts'

export type PlaceSummary = {
  readonly jurisdiction: string
  readonly verdict: Verdict
  /** In a sentence: sold as it stands, not, or not known. */
  readonly says: string
  /** What stops it there. */
  readonly stops: readonly Finding[]
  /** What has to be known first. */
  readonly unknown: readonly Finding[]
  /** The least that would have to change, one line a stop. */
  readonly change: readonly string[]
}

const short = (x: number): string => String(Number(x.toPrecision(4)))

function leastChange({ title, measured, limit, margin, unit, settle }: Finding): string {
  if (measured === undefined || limit === undefined) return `${title}: ${settle ?? 'leave out what is not allowed'}`
  const word = measured > limit ? 'down' : 'up'
  return `${title}: from ${short(measured)} ${word} to ${short(limit)} ${unit}${margin === undefined ? '' : ` (by ${short(Math.abs(margin))})`}`
}

/**
 * Where a recipe may be sold as it stands, from its findings (those that hold everywhere count in each place). `findings` is the flat list
 * of `judgeRecipe`; a place with no finding of its own is not known, never allowed.
 */
export function whereSold(findings: readonly Finding[], jurisdictions: readonly string[]): PlaceSummary[] {
  return jurisdictions.map((jurisdiction) => {
    const own = findings.filter((f) => f.jurisdiction === jurisdiction)
    const here = [...own, ...findings.filter((f) => f.jurisdiction === EVERYWHERE)]
    const worst = overall(here)
    const verdict: Verdict = worst === 'pass' && own.every((f) => f.weight === 'advice') ? 'cannot-tell' : worst
    const binding = here.filter((f) => f.weight !== 'advice')
    const met = new Set(binding.filter((f) => f.anyOf !== undefined && f.verdict === 'pass').map((f) => f.anyOf))
    const open = binding.filter((f) => f.anyOf === undefined || !met.has(f.anyOf))
    const stops = open.filter((f) => f.verdict === 'fail')
    const unknown = open.filter((f) => f.verdict === 'cannot-tell')
    const says =
      verdict === 'pass'
        ? `meets every rule of ${jurisdiction} the recipe can be held against; the process and the label are judged apart`
        : verdict === 'fail'
          ? `may not be sold in ${jurisdiction} as it stands: ${stops.map((f) => f.title).join('; ')}`
          : own.length === 0
            ? `no rule of ${jurisdiction} had anything to judge in what is given: not known`
            : `not known for ${jurisdiction}: ${unknown.map((f) => f.title).join('; ') || 'nothing binding was judged'}`
    return { jurisdiction, verdict, says, stops, unknown, change: stops.map(leastChange) }
  })
}
