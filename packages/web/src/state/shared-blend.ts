import type { SharedInput } from '@forcemeat/craft/blend/schema'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { blendRequest } from './batch-plan.ts'
import type { LotView } from './views.ts'

export type Sharing = { readonly id: string; readonly recipe: Recipe; readonly meatKg: number }

/** What to ask of several batches that share the lots: each with its own limits and additions, the lots in common. */
export function sharedRequest(
  batches: readonly Sharing[],
  lots: readonly LotView[],
  confidencePct: number | undefined,
): { readonly input: SharedInput; readonly notes: readonly string[] } {
  const notes = new Set<string>()
  const materials = new Map<string, SharedInput['materials'][number]>()
  const asked = batches.map(({ id, recipe, meatKg }) => {
    const { input, notes: said } = blendRequest(recipe, meatKg, lots, false, confidencePct)
    said.forEach((n) => notes.add(n))
    const own = input.materials.map((m) => {
      // An addition is a part of one recipe, in its own share; a lot is anybody's.
      const name = m.id.startsWith('+ ') ? `${m.id} (${id})` : m.id
      if (!materials.has(name)) materials.set(name, { ...m, id: name })
      return name
    })
    return {
      id,
      batchKg: input.batchKg,
      materials: own,
      limits: input.limits,
      ...(confidencePct === undefined ? {} : { confidencePct }),
    }
  })
  return { input: { materials: [...materials.values()], batches: asked }, notes: [...notes] }
}
