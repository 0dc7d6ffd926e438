import { useResource } from '../../state/resource.ts'
import type { KitchenView, LotView, RecipeListed } from '../../state/views.ts'

/** What comes before the first batch, in its order, each step ticked off once it is there. */
export function FirstSteps({ kitchen }: { kitchen: KitchenView }) {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes').value.value?.recipes
  const lots = useResource<{ lots: readonly LotView[] }>('/api/lots?limit=1').value.value?.lots
  const batches = useResource<{ batches: readonly unknown[] }>('/api/batches?limit=1').value.value?.batches
  if (!recipes || !lots || !batches || batches.length > 0) return null
  const of = (types: readonly string[]) => kitchen.instruments.some((i) => types.includes(i.type) && !i.retired)
  const steps = [
    { done: recipes.length > 0, at: '/recipes/new', what: 'Write a recipe', why: 'what goes in, and how it is cooked' },
    {
      done: of(['scale']),
      at: '/instruments/new',
      what: 'Add your scales',
      why: 'the sheet then says which is fine enough for the cure',
    },
    {
      done: of(['thermometer', 'logger']),
      at: '/instruments/new',
      what: 'Add a thermometer or logger',
      why: 'a cook is proved by one that is checked',
    },
    { done: lots.length > 0, at: '/stock/receive', what: 'Receive the lots', why: 'so that every pack can be traced' },
    { done: false, at: '/batches/plan', what: 'Plan a batch', why: 'and print its sheet' },
  ]
  return (
    <section class="part" aria-labelledby="first-steps">
      <h2 id="first-steps">Before the first batch</h2>
      <ol class="entries">
        {steps.map((s) => (
          <li key={s.what}>
            {s.done ? <span class="quiet">{s.what}: done</span> : <a href={s.at}>{s.what}</a>}
            {!s.done && <span class="hint">: {s.why}</span>}
          </li>
        ))}
      </ol>
      <p class="hint">A recipe alone is enough for a sheet on paper; scales and lots make it exact and traceable.</p>
    </section>
  )
}
