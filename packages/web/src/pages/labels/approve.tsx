import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { refuse, useForm } from '../../state/form.ts'
import { recordVersion } from '../../state/live.ts'
import { who } from '../../state/who.ts'
import { FormText } from '../../ui/form.tsx'
import { Faults } from '../../ui/notes.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import type { ProofView } from './label-views.ts'

/** What stops a label, what the approver answers for, and the approval. */
export function Approve({ proof, asked }: { proof: ProofView; asked: object }) {
  const form = useForm(`approve-${proof.label}-${proof.contentHash.slice(0, 12)}`, {})
  const state = useMemo(() => signal<{ busy: boolean; error?: Refused }>({ busy: false }), [])
  const stops = proof.blocks.filter((b) => b.by === 'data')
  const answers = proof.blocks.filter((b) => b.by === 'person')
  const approve = async (): Promise<void> => {
    const values = form.values.value
    const empty = answers.filter((b) => !(values[b.id] ?? '').trim())
    const reasons = (values['reasons'] ?? '').trim()
    const faults = [
      ...empty.map((b) => ({ path: b.id, message: 'is empty; allowed: how it was settled, in words' })),
      ...(reasons === '' ? [{ path: 'reasons', message: 'is empty; allowed: what was checked' }] : []),
    ]
    if (faults.length > 0) return refuse(form, faults)
    if (!who.value) {
      state.value = {
        busy: false,
        error: new Refused(400, [{ path: '', message: 'Nobody is named: choose who is working here, at the top.' }]),
      }
      return
    }
    state.value = { busy: true }
    try {
      await post('/api/labels/approve', {
        ...asked,
        settled: answers.map((b) => ({ id: b.id, how: values[b.id]!.trim() })),
        reasons: [reasons],
        by: who.value,
        key: form.key.value,
      })
      form.clear({})
      state.value = { busy: false }
      recordVersion.value += 1
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      state.value = { busy: false, error }
    }
  }
  return (
    <>
      <h3>Approval</h3>
      {stops.length > 0 ? (
        <>
          <p>
            <VerdictMark verdict="fail" label="Cannot be approved yet" />
          </p>
          <ul class="findings">
            {stops.map((b) => (
              <li key={b.id} class="finding">
                <p>{b.what}</p>
                <p class="settle">
                  <strong>Would settle it:</strong> {b.settle}
                </p>
              </li>
            ))}
          </ul>
        </>
      ) : (
        <form
          noValidate
          aria-label="Approve the label"
          onSubmit={(e) => {
            e.preventDefault()
            void approve()
          }}
        >
          <Faults error={state.value.error} />
          {answers.length > 0 && <p>The program cannot tell these; whoever approves answers for them.</p>}
          {answers.map((b) => (
            <FormText key={b.id} form={form} name={b.id} label={b.what} hint={b.settle} />
          ))}
          <FormText form={form} name="reasons" label="What was checked" />
          <p class="actions">
            <button type="submit" class="main" disabled={state.value.busy}>
              Approve the label
            </button>
          </p>
        </form>
      )}
    </>
  )
}
