import { signal } from '@preact/signals'
import type { Fault } from '@forcemeat/craft/calculation'
import { useEffect, useMemo, useRef } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { refuse, useForm } from '../../state/form.ts'
import { recordVersion } from '../../state/live.ts'
import { readerOf } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { Faults } from '../../ui/notes.tsx'
import { placeName } from '../../ui/words.ts'
import type { ApprovalView, ProofView } from './label-views.ts'
import { PackForm } from './pack-form.tsx'
import { packOf, startingLanguages, textOf } from './pack-text.ts'
import { ProofShown } from './proof.tsx'

type Props = {
  label: string
  place: string
  batch: string | undefined
  recipe: string | undefined
  before: ApprovalView | undefined
  kitchen: KitchenView
}
/** How long the hand has to rest before the proof follows. */
const FOLLOW_MS = 700

type State = { busy: boolean; proof?: ProofView; error?: Refused; asked?: object }

/** One label: what is said of the pack, the proof in real size, what stops it, its approval. */
export function OneLabel({ label, place, batch, recipe, before, kitchen }: Props) {
  const form = useForm(
    `label-${label}-${place}-${batch ?? recipe ?? ''}`,
    before ? textOf(before.pack) : startingLanguages(place),
  )
  const state = useMemo(() => signal<State>({ busy: false }), [])
  const turn = useRef(0)
  /** Make the proof; `typing`: by itself, so that a fault is shown where it is and nothing is taken from under the hand. */
  const make = async (typing = false): Promise<void> => {
    const mine = (turn.current += 1)
    const reader = readerOf(form.values.value)
    const pack = packOf(form.values.value, reader)
    const fault = (faults: readonly Fault[]): void => {
      if (typing) form.faults.value = faults
      else refuse(form, faults)
    }
    if (reader.faults.length > 0) return fault(reader.faults)
    form.faults.value = []
    const asked = { label, place, pack, ...(batch ? { batch } : { recipe }) }
    state.value = { ...state.value, busy: true }
    try {
      const proof = await post<ProofView>('/api/labels/proof', asked)
      // An answer that was overtaken is of no use.
      if (mine === turn.current) state.value = { busy: false, asked, proof }
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      if (mine !== turn.current) return
      // What was typed last cannot be drawn; the proof before stays in sight, and says so.
      state.value = { ...(typing ? state.value : {}), busy: false, error }
      fault(error.faults.map((f) => ({ path: f.path.replace(/^pack\./, ''), message: f.message })))
    }
  }
  const version = recordVersion.value
  const typed = form.values.value
  const first = useRef(true)
  useEffect(() => {
    const wait = first.current ? 0 : FOLLOW_MS
    first.current = false
    const timer = setTimeout(() => void make(true), wait)
    return () => clearTimeout(timer)
  }, [version, typed])
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
      <div class="two label-two">
        <form
          noValidate
          aria-label="The pack"
          onSubmit={(e) => {
            e.preventDefault()
            void make()
          }}
        >
          <PackForm form={form} place={place} proof={proof} />
          <p class="actions">
            <button type="submit" class="main" disabled={busy}>
              {busy ? 'Making…' : 'Make the proof'}
            </button>
          </p>
        </form>
        <div class="label-side">
          <Faults error={error} />
          {proof && error && <p class="quiet">The proof below is of what was typed before.</p>}
          {proof && asked ? (
            <ProofShown key={proof.contentHash} proof={proof} asked={asked} place={place} kitchen={kitchen} />
          ) : (
            <p class="quiet">{busy ? 'The proof is being made…' : 'No proof yet.'}</p>
          )}
        </div>
      </div>
    </>
  )
}
