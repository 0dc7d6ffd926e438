import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'

/** Recipes by name, for a choice of what is ordered or sold. */
export function useRecipes() {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes').value.value?.recipes ?? []
  const names = new Map(recipes.map((r) => [r.recipe, r.body.name]))
  return {
    recipes,
    nameOf: (recipe: string): string => names.get(recipe) ?? recipe,
    options: recipes.map((r) => ({ value: r.recipe, label: r.body.name })),
  }
}
