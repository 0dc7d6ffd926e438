import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import type { PackView } from '../../state/views.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'
import { day, mass, today } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import type { BatchProps } from './one-batch.tsx'

/** Packs made of the batch, and where they went. */
export function Packs({ batch: b }: BatchProps) {
  return (
    <>
      {b.packs.length === 0 ? (
        <p class="quiet">Nothing is packed yet.</p>
      ) : (
        <>
          <Sheet
            caption="Packs of the batch"
            rows={b.packs}
            rowKey={(p) => p.pack}
            columns={[
              {
                head: 'Pack',
                keep: true,
                names: true,
                cell: (p) => <a href={`/record/trace/pack/${encodeURIComponent(p.pack)}`}>{p.pack}</a>,
              },
              { head: 'Packs', num: true, cell: (p) => p.count },
              { head: 'Weight', num: true, cell: (p) => mass(p.totalKg) },
              { head: 'Packed', keep: true, cell: (p) => day(p.on) },
              { head: 'Use by', keep: true, cell: (p) => day(p.useBy) },
              { head: 'Still here', num: true, cell: (p) => p.hereCount },
              { head: 'Sent to', cell: (p) => p.shipments.map((s) => `${s.to} (${s.count})`).join(', ') },
            ]}
          />
          {b.state !== 'released' && b.state !== 'packed' && (
            <p class="hint">Nothing leaves before the batch is released.</p>
          )}
          {b.packs
            .filter((p) => p.hereCount > 0)
            .map((p) => (
              <Ship key={p.pack} pack={p} />
            ))}
        </>
      )}
      <Pack batch={b.batch} />
    </>
  )
}

function Pack({ batch }: { batch: string }) {
  const form = useForm(`pack-${batch}`, { on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => ({
        kind: 'batch.pack',
        body: {
          batch,
          pack: r.text('pack', { required: true }),
          count: r.number('count', { required: true }),
          totalKg: r.quantity('totalKg', 'mass', { required: true }),
          on: r.text('on', { required: true }),
          ...compact({ useBy: r.text('useBy'), note: r.text('note') }),
        },
      }),
      done: 'Packed.',
    })
  return (
    <>
      <h2>Pack</h2>
      <EntryForm
        form={form}
        fields={['pack', 'count', 'totalKg', 'on', 'useBy', 'note']}
        label="Pack the batch"
        action="Record the packs"
        onSubmit={() => void send()}
      >
        <div class="columns">
          <FormText form={form} name="pack" label="Pack code" required hint="One code for all packs alike." />
          <FormText form={form} name="count" label="Number of packs" numeric required />
          <FormQuantity form={form} name="totalKg" kind="mass" label="Weight in all" required />
          <FormText form={form} name="on" type="date" label="Packed on" required />
          <FormText form={form} name="useBy" type="date" label="Use by" />
          <FormText form={form} name="note" label="Note on the packs" />
        </div>
      </EntryForm>
    </>
  )
}

function Ship({ pack }: { pack: PackView }) {
  const form = useForm(`ship-${pack.pack}`, { on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => ({
        kind: 'pack.ship',
        body: {
          pack: pack.pack,
          to: r.text('to', { required: true }),
          count: r.number('count', { required: true }),
          on: r.text('on', { required: true }),
          ...compact({ note: r.text('note') }),
        },
      }),
      done: 'Sent out.',
    })
  return (
    <details>
      <summary>
        Send out {pack.pack}, {pack.hereCount} here
      </summary>
      <EntryForm
        form={form}
        fields={['to', 'count', 'on', 'note']}
        label={`Send out ${pack.pack}`}
        action={`Send out ${pack.pack}`}
        onSubmit={() => void send()}
      >
        <div class="row top">
          <FormText form={form} name="to" label="Sent to" required />
          <FormText form={form} name="count" label="How many packs" numeric required />
          <FormText form={form} name="on" type="date" label="Sent on" required />
          <FormText form={form} name="note" label="Note on sending" />
        </div>
      </EntryForm>
    </details>
  )
}
