import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { useForm } from '../../state/form.ts'
import { recordVersion } from '../../state/live.ts'
import type { Finding } from '../../state/views.ts'
import { who } from '../../state/who.ts'
import { Field } from '../../ui/field.tsx'
import { instant } from '../../ui/figures.ts'
import { Caution, Faults } from '../../ui/notes.tsx'
import { Overall } from '../../ui/overall.tsx'
import { Findings } from '../../ui/verdict.tsx'
import { personName } from '../record/about.ts'
import type { BatchProps } from './one-batch.tsx'

type State = { busy: boolean; error?: Refused; inTheWay?: readonly Finding[]; done?: string }

/** Every finding as it stands now, and the decision: release or hold, with reasons, signed. */
export function Decide({ batch: b, kitchen }: BatchProps) {
  return (
    <div class="two">
      <div>
        <h2 class="first">Findings now</h2>
        {b.verdict && (
          <p>
            <Overall verdict={b.verdict} findings={b.findings ?? []} />
          </p>
        )}
        <Findings findings={b.findings ?? []} />
      </div>
      <div>
        <h2 class="first">Decision</h2>
        {b.signedStillHolds === false && (
          <p class="fault">
            Facts or rules have changed since the last decision was signed: look again, and decide again.
          </p>
        )}
        <DecideForm batch={b.batch} />
        {b.decisions.length > 0 && <h3>Decided so far</h3>}
        <ul class="entries">
          {b.decisions.toReversed().map((d) => (
            <li key={d.seq}>
              <strong>{d.decision === 'release' ? 'Released' : 'Held'}</strong> {instant(d.at)} by{' '}
              {personName(kitchen, d.by)}, <a href={`/record/${d.seq}`}>entry {d.seq}</a>
              <p>{d.reasons.join('; ')}</p>
              <p class="hint">
                On {d.counts.fail} that fail, {d.counts.cannotTell} that cannot be told, {d.counts.pass} that meet.
                Signed <code>{d.signed.slice(0, 12)}…</code>
              </p>
            </li>
          ))}
        </ul>
      </div>
    </div>
  )
}

function DecideForm({ batch }: { batch: string }) {
  const form = useForm(`decide-${batch}`, {})
  const state = useMemo(() => signal<State>({ busy: false }), [])
  const fault = useMemo(() => signal<string | undefined>(undefined), [])
  const decide = async (decision: 'release' | 'hold'): Promise<void> => {
    const reasons = (form.values.value['reasons'] ?? '')
      .split('\n')
      .map((s) => s.trim())
      .filter(Boolean)
    fault.value = reasons.length === 0 ? 'is empty; allowed: one reason or more, one a line' : undefined
    if (reasons.length === 0) return
    if (!who.value) {
      state.value = {
        busy: false,
        error: new Refused(400, [
          { path: '', message: 'Nobody is named: choose who is working here, at the top of the page.' },
        ]),
      }
      return
    }
    state.value = { busy: true }
    try {
      await post(`/api/batches/${encodeURIComponent(batch)}/decide`, {
        decision,
        reasons,
        by: who.value,
        key: form.key.value,
      })
      form.clear({})
      state.value = { busy: false, done: decision === 'release' ? 'Released and signed.' : 'On hold, and signed.' }
      recordVersion.value += 1
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      const inTheWay =
        error.status === 409 ? (error.answer as { findings?: Finding[] } | undefined)?.findings : undefined
      state.value = { busy: false, error, ...(inTheWay ? { inTheWay } : {}) }
    }
  }
  const { busy, error, inTheWay, done } = state.value
  return (
    <form noValidate aria-label="Release or hold" onSubmit={(e) => e.preventDefault()}>
      <Caution>
        The program informs; the maker, the law of the place and a qualified person decide. A prediction never releases
        a batch: a measurement against a published limit does.
      </Caution>
      <Field label="Reasons, one a line" fault={fault.value}>
        {({ id, describedBy, invalid }) => (
          <textarea
            id={id}
            rows={4}
            value={form.values.value['reasons'] ?? ''}
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            aria-invalid={invalid}
            onInput={(e) => form.set('reasons', e.currentTarget.value)}
          />
        )}
      </Field>
      <p class="actions">
        <button type="button" class="main" disabled={busy} onClick={() => void decide('release')}>
          Release the batch
        </button>
        <button type="button" class="stop" disabled={busy} onClick={() => void decide('hold')}>
          Hold the batch
        </button>
        <span role="status" class="done">
          {done}
        </span>
      </p>
      {inTheWay ? (
        <div class="faults" role="alert" tabIndex={-1}>
          <h3 class="first">This stands in the way of a release</h3>
          <Findings findings={inTheWay} />
        </div>
      ) : (
        <Faults error={error} />
      )}
    </form>
  )
}
