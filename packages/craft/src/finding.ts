import { z } from 'zod'

/** One rule held against one measure. `pass` is only ever given where nothing is missing and the figure's source was read. */
export const findingSchema = z.strictObject({
  rule: z.string(),
  title: z.string(),
  jurisdiction: z.string(),
  verdict: z.enum(['pass', 'fail', 'cannot-tell']),
  /** What a breach asks for: `limit` stops a release, `advice` is shown and may be overruled with a reason. */
  weight: z.enum(['limit', 'advice']).optional(),
  /** Findings that share this name are alternatives of one requirement: one pass among them meets it. */
  anyOf: z.string().optional(),
  measured: z.number().optional(),
  limit: z.number().optional(),
  unit: z.string(),
  /** Distance to the limit in `unit`, positive on the safe side. */
  margin: z.number().optional(),
  because: z.string(),
  /** What would turn a `cannot-tell` into a verdict. */
  settle: z.string().optional(),
  source: z.strictObject({
    document: z.string(),
    section: z.string(),
    edition: z.string(),
    url: z.string().optional(),
    mark: z.enum(['seen', 'quoted', 'computed', 'common-practice', 'from-memory']).optional(),
  }),
  inForce: z.strictObject({ from: z.string().optional(), until: z.string().optional() }),
})
export type Finding = z.infer<typeof findingSchema>
export type Verdict = Finding['verdict']

const worst = (verdicts: readonly Verdict[]): Verdict => {
  if (verdicts.includes('fail')) return 'fail'
  return verdicts.length === 0 || verdicts.includes('cannot-tell') ? 'cannot-tell' : 'pass'
}

const best = (verdicts: readonly Verdict[]): Verdict => {
  if (verdicts.includes('pass')) return 'pass'
  return verdicts.includes('cannot-tell') ? 'cannot-tell' : 'fail'
}

/**
 * The one verdict that stands for many: alternatives (`anyOf`) count by their best, everything else by the worst; nothing judged
 * is cannot-tell. Advice is left out: it never stops a batch.
 */
export function overall(findings: readonly Pick<Finding, 'verdict' | 'anyOf' | 'weight'>[]): Verdict {
  const binding = findings.filter((f) => f.weight !== 'advice')
  const groups = Map.groupBy(binding, (f) => f.anyOf)
  const alone = (groups.get(undefined) ?? []).map((f) => f.verdict)
  groups.delete(undefined)
  return worst([...alone, ...[...groups.values()].map((g) => best(g.map((f) => f.verdict)))])
}

/** One line of a working, enough for an inspector to redo the figure by hand. */
export const workingStepSchema = z.strictObject({
  step: z.string(),
  expression: z.string(),
  value: z.number(),
  unit: z.string(),
})
export type WorkingStep = z.infer<typeof workingStepSchema>
export const workingSchema = z.array(workingStepSchema)
