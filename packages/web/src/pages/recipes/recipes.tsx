import type { PageProps } from '../../app.tsx'
import { address } from '../../router.ts'
import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'
import { day } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { CompareVersions } from './compare.tsx'
import { EditRecipe } from './edit.tsx'
import { NewRecipe } from './new.tsx'
import { OneRecipe } from './one-recipe.tsx'

/** Recipes by their newest version; one of them with its versions; the bench. */
export function Recipes({ path, kitchen }: PageProps) {
  const [first, second] = path
  const query = address.value.query
  if (first === 'new') return <NewRecipe kitchen={kitchen} />
  if (first && second === 'edit')
    return (
      <EditRecipe
        key={`${first} ${query.get('version') ?? ''}`}
        recipe={first}
        version={query.get('version')}
        kitchen={kitchen}
      />
    )
  if (first && second === 'compare')
    return <CompareVersions key={first} recipe={first} a={query.get('a')} b={query.get('b')} kitchen={kitchen} />
  if (first) return <OneRecipe key={first} recipe={first} kitchen={kitchen} />
  return <AllRecipes />
}

function AllRecipes() {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes')
  return (
    <>
      <div class="head-line">
        <h1>Recipes</h1>
        <a class="button main" href="/recipes/new">
          New recipe
        </a>
      </div>
      <Shown of={recipes.value} what="the recipes">
        {({ recipes: rows }) => (
          <LongList
            items={rows}
            what="recipes"
            text={(r) => `${r.recipe} ${r.body.name} ${r.body.kind}`}
            empty="No recipe yet. A recipe is written as percent of the meat block."
          >
            {(shown) => (
              <Sheet
                caption="Recipes"
                rows={shown}
                rowKey={(r) => r.recipe}
                columns={[
                  {
                    head: 'Name',
                    names: true,
                    cell: (r) => <a href={`/recipes/${encodeURIComponent(r.recipe)}`}>{r.body.name}</a>,
                  },
                  { head: 'Code', cell: (r) => r.recipe },
                  { head: 'Kind', cell: (r) => `${r.body.kind}${r.body.smoked ? ', smoked' : ''}` },
                  { head: 'Newest version', num: true, cell: (r) => r.version },
                  { head: 'Saved', keep: true, cell: (r) => day(r.at) },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
    </>
  )
}
