import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { refuse, useForm } from '../../state/form.ts'
import { recordVersion } from '../../state/live.ts'
import { readerOf } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { Faults } from '../../ui/notes.tsx'
import { placeName } from '../../ui/words.ts'
import type { ApprovalView, ProofView } from './label-views.ts'
import { PackForm } from './pack-form.tsx'
import { packOf, textOf } from './pack-text.ts'
import { ProofShown } from './proof.tsx'

type Props = {
  label: string
  place: string
  batch: string | undefined
  recipe: string | undefined
  before: ApprovalView | undefined
  kitchen: KitchenView
}
type State = { busy: boolean; proof?: ProofView; error?: Refused; asked?: object }

/** One label: what is said of the pack, the proof in real size, what stops it, its approval. */
export function OneLabel({ label, place, batch, recipe, before, kitchen }: Props) {
  const form = useForm(`label-${label}-${place}-${batch ?? recipe ?? ''}`, before ? textOf(before.pack) : {})
  const state = useMemo(() => signal<State>({ busy: false }), [])
  const make = async (): Promise<void> => {
    const reader = readerOf(form.values.value)
    const pack = packOf(form.values.value, reader)
    if (reader.faults.length > 0) return refuse(form, reader.faults)
    form.faults.value = []
    const asked = { label, place, pack, ...(batch ? { batch } : { recipe }) }
    state.value = { ...state.value, busy: true }
    try {
      state.value = { busy: false, asked, proof: await post<ProofView>('/api/labels/proof', asked) }
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      state.value = { busy: false, error }
      refuse(
        form,
        error.faults.map((f) => ({ path: f.path.replace(/^pack\./, ''), message: f.message })),
      )
    }
  }
  const version = recordVersion.value
  useEffect(() => {
    // A label approved before is shown as it stands now, and again whenever the record grows.
    if (before || state.value.proof) void make()
  }, [version])
  const { proof, error, busy, asked } = state.value
  return (
    <>
      <p>
        <a href="/labels">All labels</a>
      </p>
      <h1>
        Label {label}, {placeName(place)}
      </h1>
      <p>
        {batch ? (
          <>
            Of batch <a href={`/batches/${encodeURIComponent(batch)}`}>{batch}</a>
          </>
        ) : (
          <>Of recipe {recipe ? <a href={`/recipes/${encodeURIComponent(recipe)}`}>{recipe}</a> : 'not named'}</>
        )}
      </p>
      <div class="two">
        <form
          noValidate
          aria-label="The pack"
          onSubmit={(e) => {
            e.preventDefault()
            void make()
          }}
        >
          <PackForm form={form} place={place} />
          <p class="actions">
            <button type="submit" class="main" disabled={busy}>
              {busy ? 'Making…' : 'Make the proof'}
            </button>
          </p>
        </form>
        <div class="label-side">
          <Faults error={error} />
          {proof && asked ? (
            <ProofShown key={proof.contentHash} proof={proof} asked={asked} place={place} kitchen={kitchen} />
          ) : (
            <p class="quiet">No proof yet.</p>
          )}
        </div>
      </div>
    </>
  )
}
