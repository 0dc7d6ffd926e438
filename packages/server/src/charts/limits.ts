import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'

/** What a figure may be at most or at least: by a rule, or by the recipe's own target. */
export type ChartLimit = {
  readonly rule?: string
  readonly own?: string
  readonly highest?: number
  readonly lowest?: number
  /** Nobody has read the limit in its source: it shows, and nothing is passed by it. */
  readonly unread?: true
}

/** A figure of a batch that a rule measures itself, with the limit it is held to. */
export type AgainstRule = {
  readonly rule: string
  readonly value: number
  readonly limit: number
  readonly unread?: true
}

/** Every limit of fat and of pH there is is a most. Its margin says nothing of its side: it is that of the figure's whole interval. */
const most = ({ rule, limit, measured, source }: Finding): ChartLimit | undefined =>
  limit === undefined || measured === undefined
    ? undefined
    : { rule, highest: limit, ...(canDecide(source.mark ?? 'from-memory') ? {} : { unread: true as const }) }

/** What of a batch a fat limit is held against: the mix as it was weighed in, or the product after its loss. */
export type FatBasis = 'rawFatPct' | 'fatPct'

/** A reckoned figure of fat; %. */
export const figureOf = ({ computed }: BatchJudgement, basis: FatBasis): number | undefined => {
  const m = computed.measures[basis]
  return m && 'value' in m ? m.value : undefined
}

/**
 * What the fat of a recipe is charted as, and the limit that binds it: of the rules on fat alone the tightest, held against the figure that
 * rule measures; else the recipe's own limit of fat, which is of the mix.
 */
export function fatLimit(
  newest: BatchJudgement,
  own: readonly {
    readonly of: string
    readonly minPct?: number | undefined
    readonly maxPct?: number | undefined
  }[] = [],
): { readonly basis: FatBasis; readonly limit?: ChartLimit } {
  const ruled = newest.findings
    .filter((f) => f.weight !== 'advice' && f.title.startsWith('Fat, ') && f.unit.startsWith('%'))
    .toSorted((a, b) => (a.margin ?? Infinity) - (b.margin ?? Infinity))
    .flatMap((f) => {
      // A limit on a figure that is not charted, such as the fat without the cheese, is no limit of this chart.
      const basis = (['rawFatPct', 'fatPct'] as const).find((b) => {
        const value = figureOf(newest, b)
        return value !== undefined && f.measured !== undefined && Math.abs(value - f.measured) < 1e-6
      })
      const limit = most(f)
      return basis && limit ? [{ basis, limit }] : []
    })[0]
  if (ruled) return ruled
  const mine = own.find((l) => l.of === 'fat')
  if (mine?.minPct === undefined && mine?.maxPct === undefined) return { basis: 'rawFatPct' }
  const { minPct, maxPct } = mine
  return {
    basis: 'rawFatPct',
    limit: {
      own: 'the limit of the recipe',
      ...(maxPct === undefined ? {} : { highest: maxPct }),
      ...(minPct === undefined ? {} : { lowest: minPct }),
    },
  }
}

/** The pH a rule asks for at the end of fermentation, else the target the recipe sets itself. */
export function phLimit({ findings }: BatchJudgement, targetPh: number | undefined): ChartLimit | undefined {
  const f = findings.find((x) => x.unit === 'pH' && x.limit !== undefined && x.rule !== 'record.ferment-ph')
  const ruled = f && most(f)
  if (ruled) return ruled
  return targetPh === undefined ? undefined : { own: 'the target of the recipe', highest: targetPh }
}

/** What a kitchen set itself for one recipe. */
export type OwnOfRecipe = {
  readonly yieldMinPct?: number | undefined
  readonly linkMinG?: number | undefined
  readonly linkMaxG?: number | undefined
}

/** The limits of yield and of link weight that a kitchen set itself for a recipe. */
export const ownCharted = ({
  yieldMinPct,
  linkMinG,
  linkMaxG,
}: OwnOfRecipe): { readonly yield?: ChartLimit; readonly 'link-weight'?: ChartLimit } => ({
  ...(yieldMinPct === undefined
    ? {}
    : { yield: { own: 'the least yield this kitchen lets pass', lowest: yieldMinPct } }),
  ...(linkMinG === undefined && linkMaxG === undefined
    ? {}
    : {
        'link-weight': {
          own: 'the mean link weight this kitchen lets pass',
          ...(linkMaxG === undefined ? {} : { highest: linkMaxG }),
          ...(linkMinG === undefined ? {} : { lowest: linkMinG }),
        },
      }),
})

const minutes = (f: Finding): AgainstRule | undefined =>
  f.unit === 'min' && f.measured !== undefined && f.limit !== undefined && f.limit > 0
    ? {
        rule: f.rule,
        value: f.measured,
        limit: f.limit,
        ...(canDecide(f.source.mark ?? 'from-memory') ? {} : { unread: true }),
      }
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
