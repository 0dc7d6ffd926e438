import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { textsOf } from '../../state/recipe-draft.ts'
import { benchTexts } from '../../state/recipe-work.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView, RecipeVersion } from '../../state/views.ts'
import { Shown } from '../../ui/notes.tsx'
import { Bench } from './bench.tsx'

export type RecipeView = {
  readonly recipe: string
  readonly newest: number
  readonly versions: readonly RecipeVersion[]
}

/** A version on the bench; what is saved becomes the next version. */
export function EditRecipe({
  recipe,
  version,
  kitchen,
}: {
  recipe: string
  version: string | null
  kitchen: KitchenView
}) {
  const found = useResource<RecipeView>(`/api/recipes/${encodeURIComponent(recipe)}`)
  return (
    <>
      <p>
        <a href={`/recipes/${encodeURIComponent(recipe)}`}>Versions of this recipe</a>
      </p>
      <Shown of={found.value} what="the recipe">
        {(view) => {
          const from = view.versions.find((v) => v.version === Number(version ?? view.newest))
          if (!from)
            return (
              <h1>
                Recipe {recipe} has no version {version}
              </h1>
            )
          return <OnTheBench key={from.version} from={from} next={view.newest + 1} kitchen={kitchen} />
        }}
      </Shown>
    </>
  )
}

function OnTheBench({ from, next, kitchen }: { from: RecipeVersion; next: number; kitchen: KitchenView }) {
  const form = useForm(`recipe-${from.recipe}-${from.version}`, { ...textsOf(from.body), ...benchTexts })
  const save = (recipe: Recipe, note: string | undefined): Promise<void> =>
    submit(form, {
      read: () => ({
        kind: 'recipe.save',
        body: { recipe: from.recipe, version: next, body: recipe, ...(note ? { note } : {}) },
      }),
      after: () => go(`/recipes/${encodeURIComponent(from.recipe)}`),
    })
  return (
    <>
      <h1>
        {from.body.name} <span class="where">from version {from.version}</span>
      </h1>
      <Bench
        form={form}
        kept={from.body}
        kitchen={kitchen}
        action={`Save as version ${next}`}
        onSave={save}
        code={from.recipe}
        version={from.version}
      />
    </>
  )
}
