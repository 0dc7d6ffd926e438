import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { BatchFacts } from './facts.ts'
import { TARGET_PH } from './target-ph.ts'

/** What of a batch says whether it is slow. */
export type KindFacts = {
  readonly recipeBody: BatchFacts['recipeBody']
  readonly lines: readonly { readonly material: string }[]
  readonly curves: readonly { readonly purpose: BatchFacts['curves'][number]['purpose'] }[]
  readonly measures?:
    | readonly { readonly step: string; readonly what: string; readonly value?: number | undefined }[]
    | undefined
}
type Facts = KindFacts

const holds = ({ recipeBody: { meat, additions }, lines }: Facts, material: string): boolean =>
  [...meat, ...additions, ...lines].some((m) => m.material === material)

/** Whether a batch is dried: by its kind, its recipe, or a log of its drying. */
export const dries = ({ recipeBody: { kind, dry }, curves }: Facts): boolean =>
  kind === 'dried' || dry !== undefined || curves.some((c) => c.purpose === 'dry')

export const holdsLactone = (facts: Facts): boolean => holds(facts, 'glucono-delta-lactone')

/**
 * Whether what goes into a batch sours it: a culture does in any product; glucono-delta-lactone in one that is fermented or dried, for in one
 * that is cooked or fresh and no more a little of it only hastens the colour.
 */
export const holdsSourer = (facts: Facts): boolean =>
  holds(facts, 'starter-culture') || (holdsLactone(facts) && (facts.recipeBody.kind === 'fermented' || dries(facts)))

/** Whether anything of a fermentation is recorded: a log of it, or a pH. */
const soured = ({ curves, measures = [] }: Facts): boolean =>
  curves.some((c) => c.purpose === 'ferment') || measures.some((m) => m.step === 'ferment' && m.what === 'ph')

/** Whether an acid, or what turns into one by itself, goes into a product. */
export const holdsAcid = (facts: Facts): boolean => {
  const { recipeBody, lines } = facts
  const all = [...recipeBody.meat, ...recipeBody.additions, ...lines]
  return holdsLactone(facts) || all.some((m) => findMaterial(m.material)?.category === 'acid')
}

/** Whether an acid goes into a cooked product, to be set free by its cook: what is sour after it was not soured. */
const acidSetFree = (facts: Facts): boolean => facts.recipeBody.kind === 'cooked' && holdsAcid(facts)

/** Steps from the cook on. */
const fromTheCook: ReadonlySet<string> = new Set(['cook', 'chill', 'dry', 'pack'])

/** Whether a product that dries was measured sour, at whatever step: its own flora did it. */
const measuredSour = (facts: Facts): boolean =>
  dries(facts) &&
  (facts.measures ?? []).some(
    (m) =>
      m.what === 'ph' &&
      m.value !== undefined &&
      m.value <= TARGET_PH &&
      !(fromTheCook.has(m.step) && acidSetFree(facts)),
  )

const plannedSour = (facts: Facts): boolean =>
  facts.recipeBody.kind === 'fermented' || facts.recipeBody.ferment !== undefined || holdsSourer(facts) || soured(facts)

/** Whether a batch is soured: by its kind, its recipe, what is in it, or what was recorded or measured of it. */
export const sours = (facts: Facts): boolean => plannedSour(facts) || measuredSour(facts)

/** Whether only a measured pH says that a batch soured, with nothing in it or planned that would. */
export const souredUnplanned = (facts: Facts): boolean => measuredSour(facts) && !plannedSour(facts)

/** Whether a batch is judged as a slow one. The name its kind gives it spares it nothing: a toxin made while it soured survives a cook. */
export const isSlow = (facts: Facts): boolean => sours(facts) || dries(facts)

/** A fermentation that must have been, with nothing planned and nothing recorded of it. */
export const unplannedSouring = (facts: Facts): boolean =>
  facts.recipeBody.ferment === undefined && holdsSourer(facts) && !soured(facts)

/** Whether nothing says that a batch soured but the step a pH above the target was entered with. */
export const sourByStepAlone = (facts: Facts): boolean =>
  facts.recipeBody.kind !== 'fermented' &&
  facts.recipeBody.ferment === undefined &&
  !holdsSourer(facts) &&
  !facts.curves.some((c) => c.purpose === 'ferment') &&
  !(facts.measures ?? []).some((m) => m.what === 'ph' && m.value !== undefined && m.value <= TARGET_PH)
