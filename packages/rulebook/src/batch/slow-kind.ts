import type { BatchFacts } from './facts.ts'

/** What of a batch says whether it is slow. */
export type KindFacts = {
  readonly recipeBody: BatchFacts['recipeBody']
  readonly lines: readonly { readonly material: string }[]
  readonly curves: readonly { readonly purpose: BatchFacts['curves'][number]['purpose'] }[]
  readonly measures?: readonly { readonly step: string; readonly what: string }[] | undefined
}
type Facts = KindFacts

const holds = ({ recipeBody: { meat, additions }, lines }: Facts, material: string): boolean =>
  [...meat, ...additions, ...lines].some((m) => m.material === material)

/**
 * Whether what goes into a batch sours it: a culture does in any product; glucono-delta-lactone in one that is fermented or dried, for in a
 * cooked or fresh one a little of it only hastens the colour.
 */
export const holdsSourer = (facts: Facts): boolean =>
  holds(facts, 'starter-culture') ||
  (facts.recipeBody.kind !== 'cooked' && facts.recipeBody.kind !== 'fresh' && holds(facts, 'glucono-delta-lactone'))

/** Whether anything of a fermentation is recorded: a log of it, or a pH. */
const soured = ({ curves, measures = [] }: Facts): boolean =>
  curves.some((c) => c.purpose === 'ferment') || measures.some((m) => m.step === 'ferment' && m.what === 'ph')

/** Whether a batch is soured: by its kind, its recipe, what is in it, or what was recorded of it. */
export const sours = (facts: Facts): boolean =>
  facts.recipeBody.kind === 'fermented' || facts.recipeBody.ferment !== undefined || holdsSourer(facts) || soured(facts)

/** Whether a batch is dried: by its kind, its recipe, or a log of its drying. */
export const dries = ({ recipeBody: { kind, dry }, curves }: Facts): boolean =>
  kind === 'dried' || dry !== undefined || curves.some((c) => c.purpose === 'dry')

/** Whether a batch is judged as a slow one. The name its kind gives it spares it nothing: a toxin made while it soured survives a cook. */
export const isSlow = (facts: Facts): boolean => sours(facts) || dries(facts)

/** A fermentation that must have been, with nothing planned and nothing recorded of it. */
export const unplannedSouring = (facts: Facts): boolean =>
  facts.recipeBody.ferment === undefined && holdsSourer(facts) && !soured(facts)
