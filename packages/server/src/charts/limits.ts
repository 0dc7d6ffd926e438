import type { Finding } from '@forcemeat/craft/finding'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'

/** What a figure may be at most or at least: by a rule, or by the recipe's own target. */
export type ChartLimit = {
  readonly rule?: string
  readonly own?: string
  readonly highest?: number
  readonly lowest?: number
}

/** A figure of a batch that a rule measures itself, with the limit it is held to. */
export type AgainstRule = { readonly rule: string; readonly value: number; readonly limit: number }

const sided = ({ rule, limit, measured, margin }: Finding): ChartLimit | undefined => {
  if (limit === undefined || measured === undefined || margin === undefined) return undefined
  return Math.abs(limit - measured - margin) < 1e-6 ? { rule, highest: limit } : { rule, lowest: limit }
}

/** The limit of fat that binds, read off a batch's findings. */
export function fatLimit({ findings }: BatchJudgement): ChartLimit | undefined {
  const f = findings.find(
    (x) => x.weight !== 'advice' && /\bfat\b/i.test(x.title) && x.limit !== undefined && x.unit.startsWith('%'),
  )
  return f && sided(f)
}

/** The pH a rule asks for at the end of fermentation, else the target the recipe sets itself. */
export function phLimit({ findings }: BatchJudgement, targetPh: number | undefined): ChartLimit | undefined {
  const f = findings.find((x) => x.unit === 'pH' && x.limit !== undefined && x.rule !== 'record.ferment-ph')
  const ruled = f && sided(f)
  if (ruled) return ruled
  return targetPh === undefined ? undefined : { own: 'the target of the recipe', highest: targetPh }
}

const minutes = (f: Finding): AgainstRule | undefined =>
  f.unit === 'min' && f.measured !== undefined && f.limit !== undefined && f.limit > 0
    ? { rule: f.rule, value: f.measured, limit: f.limit }
    : undefined

/** Minutes a batch took to come up through the warm zone, as the rule of come-up measures them. */
export function comeUpOf({ findings }: BatchJudgement): AgainstRule | undefined {
  const f = findings.find((x) => x.rule.endsWith('.come-up'))
  return f && minutes(f)
}

/** How much of the time its cooling option allows the slowest window of a chill took, by option; %. */
export const chillSharesOf = ({ findings }: BatchJudgement): ReadonlyMap<string, number> =>
  new Map(
    findings.flatMap((f) => {
      const found = f.rule.includes('.cooling.') ? minutes(f) : undefined
      return found ? [[found.rule, (100 * found.value) / found.limit] as const] : []
    }),
  )

/** The option a kitchen chills by: the one most batches meet with the most to spare. */
export function optionOf(all: readonly BatchJudgement[]): string | undefined {
  const met = new Map<string, { readonly passes: number; readonly worst: number }>()
  for (const { findings } of all)
    for (const f of findings) {
      const found = f.rule.includes('.cooling.') && f.verdict === 'pass' ? minutes(f) : undefined
      if (!found) continue
      const { passes, worst } = met.get(found.rule) ?? { passes: 0, worst: 0 }
      met.set(found.rule, { passes: passes + 1, worst: Math.max(worst, found.value / found.limit) })
    }
  return [...met].toSorted(([, a], [, b]) => b.passes - a.passes || a.worst - b.worst)[0]?.[0]
}
