import { useResource } from '../../state/resource.ts'
import { submit, useForm } from '../../state/form.ts'
import type { EntryView, KitchenView } from '../../state/views.ts'
import { EntryForm, FormText } from '../../ui/form.tsx'
import { instant } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { factName } from '../../ui/words.ts'
import { personName } from './about.ts'
import { BodyTable } from './body-table.tsx'

/** One entry: what it says, who recorded it and when, its hash, what it corrects; to correct or withdraw it from here. */
export function OneEntry({ seq, kitchen }: { seq: string; kitchen: KitchenView }) {
  const after = Math.max(0, Number(seq) - 1)
  const found = useResource<{ entries: readonly EntryView[] }>(`/api/entries?after=${after}&limit=1`)
  return (
    <>
      <p>
        <a href="/record">All entries</a>
      </p>
      <Shown of={found.value} what="the entry">
        {({ entries: [entry] }) =>
          !entry || entry.seq !== Number(seq) ? (
            <h1>The record has no entry {seq}</h1>
          ) : (
            <>
              <h1>
                Entry {entry.seq}: {factName(entry.kind)}
              </h1>
              {entry.supersededBy !== undefined && (
                <p class="fault">
                  {entry.standing === 'withdrawn' ? 'Withdrawn' : 'Corrected'} by{' '}
                  <a href={`/record/${entry.supersededBy}`}>entry {entry.supersededBy}</a>
                </p>
              )}
              <dl class="facts">
                <dt>Recorded</dt>
                <dd>
                  {instant(entry.at)} by {personName(kitchen, entry.by)}
                </dd>
                {entry.corrects !== undefined && (
                  <>
                    <dt>Corrects</dt>
                    <dd>
                      <a href={`/record/${entry.corrects}`}>entry {entry.corrects}</a>
                    </dd>
                  </>
                )}
                {entry.why && (
                  <>
                    <dt>Why</dt>
                    <dd>{entry.why}</dd>
                  </>
                )}
              </dl>
              <BodyTable body={entry.body} />
              <details>
                <summary>Hashes, to check the chain by hand</summary>
                <dl class="facts">
                  <dt>This entry</dt>
                  <dd>
                    <code class="hash">{entry.hash}</code>
                  </dd>
                  <dt>The one before</dt>
                  <dd>
                    <code class="hash">{entry.prev}</code>
                  </dd>
                </dl>
              </details>
              {entry.kind !== 'entry.withdraw' && entry.supersededBy === undefined && (
                <>
                  <h2>If it is wrong</h2>
                  <p>
                    <a class="button" href={`/record/${entry.seq}/correct`}>
                      Correct this entry
                    </a>
                  </p>
                  <Withdraw seq={entry.seq} />
                </>
              )}
            </>
          )
        }
      </Shown>
    </>
  )
}

function Withdraw({ seq }: { seq: number }) {
  const form = useForm(`withdraw-${seq}`, {})
  return (
    <details>
      <summary>Withdraw it: it never should have been recorded</summary>
      <EntryForm
        form={form}
        fields={['why']}
        label="Withdraw this entry"
        action="Withdraw this entry"
        onSubmit={() =>
          void submit(form, {
            read: (r) => {
              const why = r.text('why', { required: true })
              return why ? { kind: 'entry.withdraw', body: { entry: seq }, why } : undefined
            },
            done: 'Withdrawn. The entry stays readable, and no longer counts.',
          })
        }
      >
        <FormText form={form} name="why" label="Why it is withdrawn" required />
      </EntryForm>
    </details>
  )
}
