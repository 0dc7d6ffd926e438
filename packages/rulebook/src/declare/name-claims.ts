import type { NameClaimsQuestion } from '@forcemeat/craft/declare/name-claim-facts'
import type { Finding } from '@forcemeat/craft/finding'
import { nameClaimRules } from '../../data/declare/name-claims.ts'
import { heading } from '../evaluate.ts'

/** Findings on what a name says: one for all that is contradicted or borne out, one for all that wants a document. */
export function judgeNameClaims({ place, claims }: NameClaimsQuestion): Finding[] {
  const rules = nameClaimRules[place]
  if (!rules) return []
  const of = (standing: string) => claims.filter((c) => c.standing === standing)
  const said = (all: readonly (typeof claims)[number][]) => all.map((c) => `"${c.says}": ${c.because}`).join('; ')
  const settles = (all: readonly (typeof claims)[number][]) =>
    [...new Set(all.flatMap((c) => c.settle ?? []))].join('; ')
  const [wrong, held, open] = [of('contradicted'), of('borne out'), of('unproved')]
  const head = heading(rules.claims, rules.claims.values[0]!)
  return [
    ...(wrong.length > 0
      ? [{ ...head, verdict: 'fail' as const, because: `the name says ${said(wrong)}`, settle: settles(wrong) }]
      : held.length > 0
        ? [
            {
              ...head,
              verdict: 'pass' as const,
              because: `what went in bears out: ${held.map((c) => c.says).join(', ')}`,
            },
          ]
        : []),
    ...(open.length > 0
      ? [
          {
            ...heading(rules.documents, rules.documents.values[0]!),
            verdict: 'cannot-tell' as const,
            because: `the name says ${said(open)}`,
            settle: settles(open),
          },
        ]
      : []),
  ]
}
