import { z } from 'zod'

/** One rule held against one measure. `pass` is only ever given where nothing is missing and the figure's source was read. */
export const findingSchema = z.strictObject({
  rule: z.string(),
  title: z.string(),
  jurisdiction: z.string(),
  verdict: z.enum(['pass', 'fail', 'cannot-tell']),
  /** What a breach asks for: `limit` stops a release, `advice` is shown and may be overruled with a reason. */
  weight: z.enum(['limit', 'advice']).optional(),
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

/** The one verdict that stands for many: any fail fails, else any cannot-tell, else pass; nothing judged is cannot-tell. */
export function overall(findings: readonly Pick<Finding, 'verdict'>[]): Verdict {
  if (findings.some((f) => f.verdict === 'fail')) return 'fail'
  if (findings.length === 0 || findings.some((f) => f.verdict === 'cannot-tell')) return 'cannot-tell'
  return 'pass'
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
