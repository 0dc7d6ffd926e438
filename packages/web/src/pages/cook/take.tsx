import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { Fault } from '@forcemeat/craft/calculation'
import { Refused, get } from '../../api.ts'
import { record } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { BatchView, RecipeVersion } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { planText, recipeStages } from './plan-text.ts'
import type { PlanShown } from './plan-state.ts'

/** The plan into the recipe, onto a batch, or onto paper. */
export function Take({ shown, recipe, batch }: { shown: PlanShown; recipe: string; batch: string }) {
  const state = useMemo(
    () => ({ batch: signal(batch), done: signal(''), faults: signal<readonly Fault[]>([]), sending: signal(false) }),
    [batch],
  )
  const batches = useResource<{ batches: readonly BatchView[] }>('/api/batches?limit=60').value
  const open = (batches.value?.batches ?? []).filter((b) => b.state !== 'released' && b.state !== 'packed')
  const run = async (work: () => Promise<string>): Promise<void> => {
    state.sending.value = true
    state.done.value = ''
    state.faults.value = []
    try {
      state.done.value = await work()
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      state.faults.value = error.faults
    } finally {
      state.sending.value = false
    }
  }
  const toRecipe = () =>
    run(async () => {
      const { versions, newest } = await get<{ newest: number; versions: readonly RecipeVersion[] }>(
        `/api/recipes/${encodeURIComponent(recipe)}`,
      )
      const { body } = versions.find((v) => v.version === newest)!
      const targetCoreC = shown.request.targetCoreC ?? body.cook?.targetCoreC ?? shown.result.cook.peakCoreC
      const next = { ...body, cook: { ...body.cook, targetCoreC, stages: recipeStages(shown.request.input.stages) } }
      await record(
        [
          {
            kind: 'recipe.save',
            body: { recipe, version: newest + 1, body: next, note: planText(shown).slice(0, 2000) },
          },
        ],
        crypto.randomUUID(),
      )
      return `Saved as version ${newest + 1} of ${body.name}.`
    })
  const toBatch = () =>
    run(async () => {
      const on = state.batch.value
      if (!on) throw new Refused(400, [{ path: 'batch', message: 'is empty; allowed: one of the batches' }])
      await record(
        [
          {
            kind: 'batch.measure',
            body: {
              batch: on,
              step: 'cook',
              what: 'note',
              taken: new Date().toISOString(),
              note: planText(shown).slice(0, 2000),
            },
          },
        ],
        crypto.randomUUID(),
      )
      return `Noted on batch ${on}.`
    })
  return (
    <section class="no-print" aria-label="Take the plan">
      <h2>Take the plan</h2>
      <div class="row">
        <button type="button" disabled={recipe === '' || state.sending.value} onClick={() => void toRecipe()}>
          Into the recipe as a new version
        </button>
        <ChoiceField
          label="Batch"
          value={state.batch.value}
          options={[
            { value: '', label: 'choose' },
            ...open.map((b) => ({ value: b.batch, label: `${b.batch}, ${b.recipeName}` })),
          ]}
          onInput={(v) => (state.batch.value = v)}
        />
        <button type="button" disabled={state.sending.value} onClick={() => void toBatch()}>
          Note it on the batch
        </button>
        <button type="button" onClick={() => window.print()}>
          Print
        </button>
        {state.batch.value && (
          <a class="button" href={`/curves/live/${encodeURIComponent(state.batch.value)}`}>
            Follow this batch
          </a>
        )}
      </div>
      {recipe === '' && <p class="hint">Choose a recipe above to save the stages into it.</p>}
      <p role="status" class="done">
        {state.done.value}
      </p>
      {state.faults.value.length > 0 && (
        <div class="faults" role="alert">
          {state.faults.value.map((f) => `${f.path} ${f.message}`).join('; ')}
        </div>
      )}
    </section>
  )
}
