import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { RecallView } from '../../state/views.ts'
import { ChoiceField, TextField } from '../../ui/field.tsx'
import { instant, mass } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { Caution, Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { RecallTables } from './recall-tables.tsx'
import { paper } from '../../ui/paper.ts'

const kinds = [
  { value: 'lot', label: 'lot' },
  { value: 'pack', label: 'pack' },
  { value: 'batch', label: 'batch' },
]

type Drill = RecallView['drills'][number] & { readonly subject: string; readonly of: string }

const minutesOf = (d: { began: string; ended: string }): string =>
  `${((Date.parse(d.ended) - Date.parse(d.began)) / 60_000).toFixed(1)} min`

/** Where a recall or a drill of one begins, and those done before. */
export function RecallStart() {
  const type = useMemo(() => signal('lot'), [])
  const code = useMemo(() => signal(''), [])
  const fault = useMemo(() => signal<string | undefined>(undefined), [])
  const done = useResource<{ drills: readonly Drill[] }>('/api/recall')
  return (
    <>
      <h1>Recall</h1>
      <p>
        From one lot, pack or batch to every pack that has any of it, through rework, with who has them. Try it before
        it is needed: the watch runs from the start.
      </p>
      <form
        noValidate
        aria-label="Begin a recall"
        onSubmit={(e) => {
          e.preventDefault()
          if (code.value.trim() === '') fault.value = `is empty; allowed: the code of a ${type.value}`
          else go(`/record/recall/${type.value}/${encodeURIComponent(code.value.trim())}`)
        }}
      >
        <div class="row">
          <ChoiceField label="Of" value={type.value} options={kinds} onInput={(v) => (type.value = v)} />
          <TextField label="Code" value={code.value} onInput={(v) => (code.value = v)} fault={fault.value} />
        </div>
        <button type="submit" class="main">
          Find everything it is in
        </button>
      </form>
      <h2>Drills and recalls so far</h2>
      <Shown of={done.value} what="the drills">
        {({ drills }) =>
          drills.length === 0 ? (
            <p class="quiet">None yet.</p>
          ) : (
            <Sheet
              caption="Drills and recalls"
              rows={drills.toReversed()}
              rowKey={(d) => d.seq}
              columns={[
                { head: 'Drill', names: true, cell: (d) => <a href={`/record/${d.seq}`}>{d.drill}</a> },
                {
                  head: 'Of',
                  cell: (d) => (
                    <a href={`/record/recall/${d.subject}/${encodeURIComponent(d.of)}`}>{`${d.subject} ${d.of}`}</a>
                  ),
                },
                { head: 'Began', keep: true, cell: (d) => instant(d.began) },
                { head: 'Took', num: true, cell: minutesOf },
                { head: 'Packs', num: true, cell: (d) => d.packs },
                { head: 'Accounted for', num: true, cell: (d) => d.accounted },
              ]}
            />
          )
        }
      </Shown>
    </>
  )
}

/** A recall of one thing, with the watch running. */
export function OneRecall({ type, id }: { type: string; id: string }) {
  const path = `${encodeURIComponent(type)}/${encodeURIComponent(id)}`
  const found = useResource<RecallView>(`/api/recall/${path}`)
  return (
    <>
      <p>
        <a href="/record/recall">Another recall</a>
      </p>
      <Shown of={found.value} what="the recall">
        {(r) => (
          <>
            <div class="head-line">
              <h1>
                Recall: {type} {id}
              </h1>
              <p class="actions">
                <a class="button" href={paper(`recall/${path}`)} target="_blank" rel="noreferrer">
                  Print the report
                </a>
                <a class="button" href={`/api/recall/${path}/csv`} download>
                  Consignments as CSV
                </a>
                <a class="button" href={`/api/recall/${path}/csv?part=inputs`} download>
                  Lots as CSV
                </a>
              </p>
            </div>
            <p class="figure-line">
              <strong>{r.quantity.packs}</strong> packs made; <strong>{r.quantity.shipped}</strong> have left (
              {mass(r.quantity.shippedKg)}), <strong>{r.quantity.here}</strong> are here ({mass(r.quantity.hereKg)});{' '}
              {mass(r.quantity.stockKg)} of its lots in stock
              {r.quantity.notPackedKg > 0 && (
                <>
                  ; at most <strong>{mass(r.quantity.notPackedKg)}</strong> made and not packed, before losses
                </>
              )}
              {r.quantity.unaccountedPacks > 0 && (
                <span class="late">; {r.quantity.unaccountedPacks} packs are not accounted for</span>
              )}
              .
            </p>
            <Caution>
              Hold every pack and lot on this page before anything else leaves. The record says what it holds; whether
              to recall, and whom to tell, the law of your place and a qualified person decide.
            </Caution>
            {r.gaps > 0 && (
              <p class="late">
                {r.gaps} fields that the tracing rule asks for are not recorded ({r.formSource}). Enter addresses of
                customers under <a href="/stock/businesses">Stock, businesses</a>.
              </p>
            )}
            <RecallTables recall={r} />
            <Watch recall={r} />
          </>
        )}
      </Shown>
    </>
  )
}

/** The stopwatch of a drill: from the opening of this page to the recording of how much was found. */
function Watch({ recall: r }: { recall: RecallView }) {
  const began = useMemo(() => new Date(), [])
  const now = useMemo(() => signal(began), [])
  useEffect(() => {
    const tick = setInterval(() => (now.value = new Date()), 1000)
    return () => clearInterval(tick)
  }, [])
  const form = useForm(`drill-${r.subject.type}-${r.subject.id}`, {
    kind: 'trial',
    accounted: String(r.quantity.here + r.quantity.shipped),
  })
  const seconds = Math.floor((now.value.getTime() - began.getTime()) / 1000)
  const send = (): Promise<void> =>
    submit(form, {
      read: (reader, v) => ({
        kind: 'recall.drill',
        body: {
          drill: reader.text('drill', { required: true }),
          subject: r.subject.type,
          of: r.subject.id,
          trial: v['kind'] !== 'earnest',
          began: began.toISOString(),
          ended: new Date().toISOString(),
          packs: r.quantity.packs,
          accounted: reader.number('accounted', { required: true }),
          ...compact({ note: reader.text('note') }),
        },
      }),
      done: 'Recorded, with the time it took.',
    })
  return (
    <section aria-labelledby="watch">
      <h2 id="watch">Drill</h2>
      <p class="figure-line">
        <strong>
          <time>{`${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`}</time>
        </strong>{' '}
        since this page was opened; the record answered in {r.tookMs} ms.
      </p>
      <EntryForm
        form={form}
        fields={['drill', 'accounted', 'kind', 'note']}
        label="Record the drill"
        action="Stop and record"
        onSubmit={() => void send()}
      >
        <div class="row top">
          <FormText form={form} name="drill" label="Code of the drill" required hint="Such as DRILL-2026-2." />
          <FormText
            form={form}
            name="accounted"
            label="Packs found or known to be used"
            numeric
            required
            hint={`Of ${r.quantity.packs} made.`}
          />
          <FormChoice
            form={form}
            name="kind"
            label="What it was"
            options={[
              { value: 'trial', label: 'a drill' },
              { value: 'earnest', label: 'a recall in earnest' },
            ]}
          />
        </div>
        <FormText form={form} name="note" label="What went well, what did not" />
      </EntryForm>
    </section>
  )
}
