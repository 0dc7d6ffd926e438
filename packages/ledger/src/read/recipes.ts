import type { Store } from '../dialect/store.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'

export type RecipeVersion = RecordedFact<'recipe.save'>
/** A recipe by its newest version. */
export type RecipeFacts = RecipeVersion & { readonly versions: number }

export async function listRecipes(store: Store): Promise<RecipeFacts[]> {
  const byRecipe = Map.groupBy(await factsOf(store, 'recipe.save'), (v) => v.recipe)
  return [...byRecipe.values()].map((all) => {
    const newest = all.reduce((n, v) => (v.version > n.version ? v : n))
    return { ...newest, versions: all.length }
  })
}

/** All versions of a recipe, oldest first. */
export async function recipeOf(
  store: Store,
  recipe: string,
): Promise<
  { readonly recipe: string; readonly newest: number; readonly versions: readonly RecipeVersion[] } | undefined
> {
  const versions = (await factsOf(store, 'recipe.save', recipe)).toSorted((a, b) => a.version - b.version)
  return versions.length === 0 ? undefined : { recipe, newest: versions.at(-1)!.version, versions }
}
