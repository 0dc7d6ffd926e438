import type { Ledger } from '@forcemeat/ledger'
import { comparePlans, hazardPlan, type HazardPlan, type PlanChange } from '@forcemeat/rulebook/hazard/plan'

export type PlanOfRecipe = {
  readonly recipe: string
  readonly version: number
  readonly newest: number
  readonly plan: HazardPlan
  /** Against the version before, where there is one: what a person who signed that one must look at again. */
  readonly against?: number
  readonly changes: readonly PlanChange[]
}

/** The draft hazard plan of a version of a recipe, on a day, and what changed since another. `undefined` where there is no such version. */
export async function planOf(
  ledger: Ledger,
  code: string,
  {
    version,
    against,
    on,
  }: { readonly version?: number | undefined; readonly against?: number | undefined; readonly on: string },
): Promise<PlanOfRecipe | undefined> {
  const [found, kitchen] = await Promise.all([ledger.recipe(code), ledger.kitchen()])
  const mine = found?.versions.find((v) => v.version === (version ?? found.newest))
  if (!found || !mine) return undefined
  const places = kitchen?.jurisdictions ?? []
  const plan = hazardPlan(mine.body, on, places)
  const other = found.versions.find((v) => v.version === (against ?? mine.version - 1))
  return {
    recipe: code,
    version: mine.version,
    newest: found.newest,
    plan,
    ...(other ? { against: other.version } : {}),
    changes: other ? comparePlans(hazardPlan(other.body, on, places), plan) : [],
  }
}
