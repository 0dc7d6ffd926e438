import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { DeviationView, KitchenView } from '../../state/views.ts'
import { day, today } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Photos } from '../../ui/photos.tsx'
import { PrintRecord } from '../../ui/print-record.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { personName } from './about.ts'
import { paper } from '../../ui/paper.ts'

const whereOf = (type: string, id: string): string =>
  ({
    batch: `/batches/${encodeURIComponent(id)}`,
    lot: `/stock/${encodeURIComponent(id)}`,
    pack: `/record/trace/pack/${encodeURIComponent(id)}`,
    instrument: `/instruments/${encodeURIComponent(id)}`,
  })[type] ?? '/record'

/** Things a deviation touches, as links. */
export function Touches({ about }: { about: DeviationView['about'] }) {
  return (
    <>
      {about.map((a, i) => (
        <span key={`${a.type}:${a.id}`}>
          {i > 0 && ', '}
          {a.type} <a href={whereOf(a.type, a.id)}>{a.id}</a>
        </span>
      ))}
    </>
  )
}

/** What went other than planned, open ones first. */
export function Deviations() {
  const all = useResource<{ deviations: readonly DeviationView[] }>('/api/deviations')
  return (
    <>
      <div class="head-line">
        <h1>Deviations</h1>
        <a class="button main" href="/record/deviations/new">
          Open a deviation
        </a>
      </div>
      <Shown of={all.value} what="the deviations">
        {({ deviations }) => (
          <LongList
            items={deviations.toSorted((a, b) => Number(a.closed !== undefined) - Number(b.closed !== undefined))}
            what="deviations"
            text={(d) => `${d.deviation} ${d.what} ${d.about.map((a) => a.id).join(' ')}`}
            empty="No deviation yet. One is opened by a hold on a limit that failed, or by hand."
          >
            {(shown) => (
              <Sheet
                caption="Deviations"
                rows={shown}
                rowKey={(d) => d.deviation}
                columns={[
                  {
                    head: 'Deviation',
                    names: true,
                    keep: true,
                    cell: (d) => <a href={`/record/deviations/${encodeURIComponent(d.deviation)}`}>{d.deviation}</a>,
                  },
                  { head: 'On', keep: true, cell: (d) => day(d.on) },
                  { head: 'What', cell: (d) => d.what },
                  { head: 'About', cell: (d) => <Touches about={d.about} /> },
                  {
                    head: 'Standing',
                    cell: (d) => (d.closed ? `closed ${day(d.closed.on)}` : <span class="late">open</span>),
                  },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
    </>
  )
}

export function OpenDeviation() {
  const query = new URLSearchParams(location.search)
  const form = useForm('deviation', {
    on: today(),
    type: query.get('type') ?? 'batch',
    id: query.get('id') ?? '',
    what: query.get('what') ?? '',
  })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const id = r.text('id')
        return {
          kind: 'deviation.open',
          body: {
            deviation: r.text('deviation', { required: true }),
            on: r.text('on', { required: true }),
            about: id === undefined ? [] : [{ type: v['type'], id }],
            what: r.text('what', { required: true }),
          },
        }
      },
      after: () => go('/record/deviations'),
    })
  return (
    <>
      <h1>Open a deviation</h1>
      <EntryForm
        form={form}
        fields={['deviation', 'on', 'type', 'id', 'what']}
        label="Open a deviation"
        action="Open it"
        onSubmit={() => void send()}
      >
        <div class="row top">
          <FormText form={form} name="deviation" label="Code" required hint="Such as D-2026-14." />
          <FormText form={form} name="on" label="Seen on" type="date" required />
          <FormChoice
            form={form}
            name="type"
            label="It touches a"
            options={['batch', 'lot', 'pack', 'instrument'].map((t) => ({ value: t, label: t }))}
          />
          <FormText form={form} name="id" label="Code of it" />
        </div>
        <FormText form={form} name="what" label="What was seen" required />
      </EntryForm>
    </>
  )
}

export function OneDeviation({ code, kitchen }: { code: string; kitchen: KitchenView }) {
  const found = useResource<DeviationView>(`/api/deviations/${encodeURIComponent(code)}`)
  return (
    <Shown of={found.value} what="the deviation">
      {(d) => (
        <>
          <div class="head-line">
            <h1>Deviation {d.deviation}</h1>
            <div class="row">
              <a
                class="button"
                href={paper(`deviation/${encodeURIComponent(d.deviation)}`)}
                target="_blank"
                rel="noreferrer"
              >
                Print it
              </a>
              <PrintRecord of="deviation" id={d.deviation} />
            </div>
          </div>
          <dl class="facts">
            <dt>Seen</dt>
            <dd>
              {day(d.on)} by {personName(kitchen, d.by)}
            </dd>
            <dt>What</dt>
            <dd>{d.what}</dd>
            {d.about.length > 0 && (
              <>
                <dt>About</dt>
                <dd>
                  <Touches about={d.about} />
                </dd>
              </>
            )}
            {d.rule && (
              <>
                <dt>Rule</dt>
                <dd>
                  <a href={`/rules/${encodeURIComponent(d.rule)}`}>{d.rule}</a>
                </dd>
              </>
            )}
            <dt>With the product</dt>
            <dd>{d.product ?? <span class="late">not said yet</span>}</dd>
            <dt>Cause</dt>
            <dd>{d.cause ?? <span class="late">not said yet</span>}</dd>
            <dt>So that it does not come again</dt>
            <dd>{d.prevention ?? <span class="late">not said yet</span>}</dd>
            {d.closed && (
              <>
                <dt>Closed</dt>
                <dd>
                  {day(d.closed.on)} by {personName(kitchen, d.closed.by)}: {d.closed.because}
                </dd>
              </>
            )}
          </dl>
          <Photos of="deviation" id={d.deviation} />
          {!d.closed && <Work code={code} />}
        </>
      )}
    </Shown>
  )
}

function Work({ code }: { code: string }) {
  const act = useForm(`act-${code}`, { on: today() })
  const close = useForm(`close-${code}`, { on: today() })
  return (
    <div class="two even">
      <EntryForm
        form={act}
        fields={['on', 'product', 'cause', 'prevention']}
        label="What was done"
        action="Record what was done"
        onSubmit={() =>
          void submit(act, {
            read: (r) => ({
              kind: 'deviation.act',
              body: {
                deviation: code,
                on: r.text('on', { required: true }),
                ...compact({ product: r.text('product'), cause: r.text('cause'), prevention: r.text('prevention') }),
              },
            }),
          })
        }
      >
        <h2>What was done</h2>
        <FormText form={act} name="product" label="With the product" />
        <FormText form={act} name="cause" label="Cause" />
        <FormText form={act} name="prevention" label="So that it does not come again" />
        <FormText form={act} name="on" label="On" type="date" required />
      </EntryForm>
      <EntryForm
        form={close}
        fields={['on', 'because']}
        label="Close it"
        action="Close the deviation"
        quiet
        onSubmit={() =>
          void submit(close, {
            read: (r) => ({
              kind: 'deviation.close',
              body: {
                deviation: code,
                on: r.text('on', { required: true }),
                because: r.text('because', { required: true }),
              },
            }),
          })
        }
      >
        <h2>Close it</h2>
        <p class="hint">When product, cause and prevention are recorded, and somebody has looked whether it worked.</p>
        <FormText form={close} name="because" label="What shows that it is dealt with" required />
        <FormText form={close} name="on" label="On" type="date" required />
      </EntryForm>
    </div>
  )
}
