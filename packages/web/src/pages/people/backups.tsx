import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { recordVersion } from '../../state/live.ts'
import { useResource } from '../../state/resource.ts'
import { mayManage } from '../../state/session.ts'
import { instant } from '../../ui/figures.ts'
import { Faults, Shown } from '../../ui/notes.tsx'

type Plan = { readonly folder: string; readonly everyHours: number; readonly keep: number }
type Copy = {
  readonly at: string
  readonly tried: string
  readonly file: string
  readonly entries: number
  readonly head: string | null
  /** Batches whose open feed was copied with it. */
  readonly feeds: readonly string[]
}
type State = {
  readonly plan?: Plan
  readonly last?: Copy
  readonly byHand?: Copy
  readonly trouble?: { readonly at: string; readonly why: string }
}

/** Copies of the record: by the clock, and one now. */
export function Backups() {
  const state = useResource<State>('/api/backup')
  return (
    <section aria-labelledby="backups">
      <h2 id="backups">Copies of the record</h2>
      <Shown of={state.value} what="the copies">
        {(s) => (
          <>
            <Standing state={s} />
            {s.byHand && <ByHand copy={s.byHand} />}
            {mayManage.value && <CopyNow />}
            <details>
              <summary>How copies by the clock are set, and how one is put back</summary>
              <p>The folder and the times are given when the server is started, so that no page can move them:</p>
              <pre class="code">forcemeat serve --backup-to /media/other-disk --backup-every 24 --backup-keep 30</pre>
              <p>
                A copy is checked, or put in the place of the record, with the server stopped. A record that holds
                entries the copy lacks is not replaced.
              </p>
              <pre class="code">
                {'forcemeat verify\nforcemeat restore /media/other-disk/record-2026-11-25T083000000Z.db'}
              </pre>
            </details>
          </>
        )}
      </Shown>
    </section>
  )
}

function Standing({ state: { plan, last, trouble } }: { state: State }) {
  if (!plan)
    return (
      <p class="late">
        No copies are made by the clock: if this machine’s disk fails, the record is lost. Start the server with a
        folder on another disk.
      </p>
    )
  return (
    <dl class="facts">
      <dt>Folder</dt>
      <dd>
        <code class="code">{plan.folder}</code>
      </dd>
      <dt>Times</dt>
      <dd>
        every {plan.everyHours} hours; the newest {plan.keep} are kept
      </dd>
      <dt>Last good</dt>
      <dd>{last ? <Tried copy={last} /> : 'none since the server was started'}</dd>
      {trouble && (
        <>
          <dt>Last trouble</dt>
          <dd class="late">
            {instant(trouble.at)}: {trouble.why}
          </dd>
        </>
      )}
    </dl>
  )
}

/** What was copied, that it was tried out, when, and what lies beside it. */
function Tried({ copy: { at, tried, file, entries, head, feeds } }: { copy: Copy }) {
  return (
    <>
      {instant(at)}: <code class="code">{file}</code>, {entries} {entries === 1 ? 'entry' : 'entries'}. Tried out{' '}
      {instant(tried)}: restored into a scratch record, it ends where the record ended, in{' '}
      <code class="hash">{head?.slice(0, 16) ?? 'none'}</code>.{' '}
      {feeds.length === 0
        ? 'No feed of readings was open.'
        : `Copied with it: the open ${feeds.length === 1 ? 'feed' : 'feeds'} of ${feeds.join(', ')}.`}
    </>
  )
}

function ByHand({ copy }: { copy: Copy }) {
  return (
    <dl class="facts">
      <dt>Last by hand</dt>
      <dd>
        <Tried copy={copy} />
      </dd>
    </dl>
  )
}

function CopyNow() {
  const busy = useMemo(() => signal(false), [])
  const made = useMemo(() => signal(false), [])
  const fault = useMemo(() => signal<Refused | undefined>(undefined), [])
  const run = async (): Promise<void> => {
    busy.value = true
    fault.value = undefined
    made.value = false
    try {
      await post('/api/backup', {})
      made.value = true
      recordVersion.value += 1
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      fault.value = error
    } finally {
      busy.value = false
    }
  }
  return (
    <>
      <Faults error={fault.value} />
      <button type="button" disabled={busy.value} onClick={() => void run()}>
        {busy.value ? 'Copying and trying it out…' : 'Copy the record now'}
      </button>
      {made.value && <p role="status">Copied and tried out; what it holds stands above.</p>}
    </>
  )
}
