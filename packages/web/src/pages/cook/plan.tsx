import { useEffect, useRef } from 'preact/hooks'
import { address } from '../../router.ts'
import { useForm, type Form } from '../../state/form.ts'
import { readerOf } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'
import { system } from '../../state/who.ts'
import { Caution } from '../../ui/notes.tsx'
import { RecipeCautions } from '../../ui/recipe-cautions.tsx'
import { blankCook, recipeTexts, withUnits } from './cook-form.ts'
import { PieceFields, RecipeChoice } from './piece-fields.tsx'
import { PlanFigures } from './plan-result.tsx'
import { planText } from './plan-text.ts'
import { Search, searchTexts } from './search.tsx'
import { StageRows } from './stage-rows.tsx'
import { Take } from './take.tsx'
import { usePlan } from './plan-state.ts'

/** What was typed keeps its unit when the screen's units change. */
export function useUnitsKept(form: Form): void {
  const was = useRef(system.value)
  useEffect(() => {
    if (was.current !== system.value) form.replace(withUnits(form.values.value, was.current))
    was.current = system.value
  }, [system.value])
}

/** Fields of a form that a fault speaks of are marked there; this lists the rest. */
function OtherFaults({ faults }: { faults: readonly { path: string; message: string }[] }) {
  const rest = faults.filter((f) => !/^(piece|target|product|stages\[)/.test(f.path))
  if (rest.length === 0) return null
  return (
    <div class="faults" role="alert">
      <ul>
        {rest.map((f) => (
          <li key={f.path + f.message}>
            {f.path} {f.message}
          </li>
        ))}
      </ul>
    </div>
  )
}

/** Plan a cook: the piece and the stages on one side, what they do to it on the other, live. */
export function PlanCook() {
  const recipe = address.value.query.get('recipe') ?? ''
  const batch = address.value.query.get('batch') ?? ''
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes').value
  const form = useForm('cook-plan', { ...blankCook(), ...searchTexts })
  useUnitsKept(form)
  const plan = usePlan(form)
  const listed = recipes.value?.recipes
  const filled = useRef('')
  useEffect(() => {
    // A recipe named in the address fills the fields once; what is typed after that stands.
    const found = listed?.find((r) => r.recipe === recipe)
    if (!found || filled.current === recipe || form.values.value['of'] === recipe) return
    filled.current = recipe
    form.replace({ ...form.values.value, ...recipeTexts(found.body), of: recipe })
  }, [recipe, listed])
  useEffect(() => {
    form.faults.value = plan.faults.value
  }, [plan.faults.value])
  const shown = plan.shown.value
  const chosen = listed?.find((r) => r.recipe === recipe)?.body
  const name = chosen?.name
  const surfaceMaxC = readerOf(form.values.value).quantity('search.surfaceMax', 'temperature')
  return (
    <>
      <div class="head-line">
        <h1>Plan a cook{name ? `, ${name}` : ''}</h1>
        <span role="status" class="quiet no-print" data-ms={shown ? Math.round(shown.ms) : ''}>
          {plan.busy.value
            ? 'Reckoning…'
            : plan.faults.value.length > 0
              ? 'A field cannot be read; the plot shows the plan before.'
              : ''}
        </span>
      </div>
      <Caution>
        A model plans a cook and never releases a batch: only a measured core against a published limit does.
      </Caution>
      {chosen && <RecipeCautions recipe={chosen} />}
      <div class="two cook">
        <div class="no-print">
          <RecipeChoice form={form} recipes={listed ?? []} chosen={recipe} />
          <PieceFields form={form} />
          <StageRows form={form} />
          <Search form={form} />
          <OtherFaults faults={plan.faults.value} />
        </div>
        <div class="cook-figures">
          {shown ? (
            <>
              <pre class="only-print">{planText(shown)}</pre>
              <PlanFigures
                shown={shown}
                title={`Cook planned${name ? ` for ${name}` : ''}`}
                stale={plan.faults.value.length > 0}
                {...(surfaceMaxC === undefined ? {} : { surfaceMaxC })}
              />
              <Take shown={shown} recipe={recipe} batch={batch} />
            </>
          ) : (
            <p role="status">Reckoning the first plan…</p>
          )}
        </div>
      </div>
    </>
  )
}
