import { submit, useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { DoubtView } from '../../state/views.ts'
import { apart, day } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { Caution, Shown } from '../../ui/notes.tsx'

/** Batches an instrument touched between its last good check and the one that found it wrong; each is dealt with here. */
export function Doubts({ instrument }: { instrument: string }) {
  const all = useResource<{ doubts: readonly DoubtView[] }>('/api/doubts')
  return (
    <Shown of={all.value} what="what it touched">
      {({ doubts }) => {
        const mine = doubts.filter((d) => d.instrument === instrument && d.batches.length > 0)
        if (mine.length === 0) return null
        return (
          <section aria-labelledby="doubts">
            <h2 id="doubts">Batches it touched while it may have been wrong</h2>
            <Caution>
              Until each is dealt with, every finding of these batches that rests on this instrument cannot be told, and
              none of them can be released. Those already released may have to come back.
            </Caution>
            {mine.map((d) => (
              <OneDoubt key={d.check} doubt={d} />
            ))}
          </section>
        )
      }}
    </Shown>
  )
}

function OneDoubt({ doubt: d }: { doubt: DoubtView }) {
  return (
    <>
      <h3>
        Found {apart(d.error, d.unit)} off on {day(d.found)} (allowed ± {apart(d.tolerance, d.unit)});{' '}
        {d.since ? `last good on ${day(d.since)}` : 'never found good before'}
      </h3>
      <ul class="entries">
        {d.batches.map((b) => (
          <li key={b.batch}>
            <a class="lead" href={`/batches/${encodeURIComponent(b.batch)}`}>
              {b.batch}
            </a>{' '}
            {b.recipeName}, {day(b.on)}, {b.state}
            {b.settled ? (
              <p>
                {b.settled.outcome === 'stands' ? 'Its readings stand' : 'Its readings are not relied on'}:{' '}
                {b.settled.because} (<a href={`/record/${b.settled.seq}`}>entry {b.settled.seq}</a>)
              </p>
            ) : (
              <Settle doubt={d} batch={b.batch} />
            )}
          </li>
        ))}
      </ul>
    </>
  )
}

function Settle({ doubt: d, batch }: { doubt: DoubtView; batch: string }) {
  const form = useForm(`doubt-${d.check}-${batch}`, { outcome: 'not-relied' })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => ({
        kind: 'doubt.settle',
        body: {
          batch,
          instrument: d.instrument,
          check: d.check,
          outcome: v['outcome'],
          because: r.text('because', { required: true }),
        },
      }),
    })
  return (
    <EntryForm
      form={form}
      fields={['outcome', 'because']}
      label={`Deal with batch ${batch}`}
      action="Record it"
      actionOf={`for ${batch}`}
      quiet
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormChoice
          form={form}
          name="outcome"
          label="Its readings"
          of={batch}
          options={[
            { value: 'not-relied', label: 'are not relied on' },
            { value: 'stands', label: 'stand' },
          ]}
        />
        <FormText
          form={form}
          name="because"
          label="Why"
          of={batch}
          required
          hint="Such as: read low, so the product was hotter than shown; or: measured again on another probe."
        />
      </div>
    </EntryForm>
  )
}
