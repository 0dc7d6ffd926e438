import type { Finding, Verdict } from '@forcemeat/craft/finding'

const best = (group: readonly Finding[]): Verdict =>
  group.some((f) => f.verdict === 'pass')
    ? 'pass'
    : group.some((f) => f.verdict === 'cannot-tell')
      ? 'cannot-tell'
      : 'fail'

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`

/** What a verdict over many findings is called, and what stands beside it: alternatives count once, advice apart from limits. */
export function overallWords(verdict: Verdict, findings: readonly Finding[]): { label: string; more: string } {
  const asked = (weight: 'limit' | 'advice') => findings.filter((f) => (f.weight ?? 'limit') === weight)
  const of = (v: Verdict, weight: 'limit' | 'advice'): number => {
    const groups = Map.groupBy(asked(weight), (f) => f.anyOf)
    const alone = groups.get(undefined) ?? []
    groups.delete(undefined)
    return [...alone.map((f) => [f]), ...groups.values()].filter((g) => best(g) === v).length
  }
  const [failed, untold] = [of('fail', 'limit'), of('cannot-tell', 'limit')]
  const [unmet, untoldAdvice] = [of('fail', 'advice'), of('cannot-tell', 'advice')]
  const label =
    verdict === 'pass'
      ? 'Meets every limit'
      : verdict === 'fail'
        ? `Fails ${count(failed, 'limit', 'limits')}`
        : untold > 0
          ? `Cannot tell: ${count(untold, 'limit', 'limits')}`
          : 'Cannot tell'
  const parts = [
    ...(verdict === 'fail' && untold > 0 ? [`${count(untold, 'limit', 'limits')} cannot be told`] : []),
    ...(unmet > 0 ? [`${unmet} advice not met`] : []),
    ...(untoldAdvice > 0 ? [`${untoldAdvice} advice cannot be told`] : []),
  ]
  return { label, more: parts.length > 0 ? `; ${parts.join('; ')}.` : '.' }
}
