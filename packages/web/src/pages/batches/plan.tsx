import { useEffect } from 'preact/hooks'
import { go } from '../../router.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView, LotView, RecipeListed } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { Loading, Shown } from '../../ui/notes.tsx'
import { PlanForm } from './plan-form.tsx'

/** From a recipe and the lots in stock to a weigh sheet. */
export function PlanBatch({ recipe, kitchen }: { recipe: string | null; kitchen: KitchenView }) {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes')
  const lots = useResource<{ lots: readonly LotView[] }>('/api/lots?limit=1000&left=1')
  const rows = recipes.value.value?.recipes
  const only = rows?.length === 1 ? rows[0]!.recipe : undefined
  useEffect(() => {
    if (!recipe && only) go(`/batches/plan?recipe=${encodeURIComponent(only)}`, { replace: true })
  }, [recipe, only])
  return (
    <>
      <p>
        <a href="/batches">All batches</a>
      </p>
      <h1>Plan a batch</h1>
      <Shown of={recipes.value} what="the recipes">
        {({ recipes: all }) => {
          if (all.length === 0)
            return (
              <div class="empty">
                <p>There is no recipe to plan from.</p>
                <a class="button" href="/recipes/new">
                  Write a recipe
                </a>
              </div>
            )
          const chosen = all.find((r) => r.recipe === recipe)
          return (
            <>
              <ChoiceField
                label="Recipe"
                value={recipe ?? ''}
                options={[
                  { value: '', label: 'choose a recipe' },
                  ...all.map((r) => ({ value: r.recipe, label: `${r.body.name}, version ${r.version}` })),
                ]}
                onInput={(v) => go(`/batches/plan?recipe=${encodeURIComponent(v)}`, { replace: true })}
              />
              {chosen && !lots.value.value && <Loading what="the lots" />}
              {chosen && lots.value.value && (
                <PlanForm
                  key={`${chosen.recipe} ${chosen.version}`}
                  recipe={chosen}
                  lots={lots.value.value.lots}
                  kitchen={kitchen}
                />
              )}
            </>
          )
        }}
      </Shown>
    </>
  )
}
