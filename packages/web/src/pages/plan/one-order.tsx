import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { day, mass, today } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { OrderForm } from './order-form.tsx'
import { Due } from './orders.tsx'
import type { OrderView } from './plan-views.ts'
import { useRecipes } from './recipe-names.ts'

/** One order: its lines, how it ends, its correction. */
export function OneOrder({ order: code }: { order: string }) {
  const all = useResource<{ orders: readonly OrderView[] }>('/api/orders')
  const { nameOf } = useRecipes()
  return (
    <>
      <p>
        <a href="/plan/orders">All orders</a>
      </p>
      <Shown of={all.value} what="the order">
        {({ orders }) => {
          const o = orders.find((x) => x.order === code)
          if (!o) return <p class="empty">There is no order {code}.</p>
          return (
            <>
              <h1>
                {o.order}, {o.customer}
              </h1>
              <p>
                Taken {day(o.on)}, due <Due order={o} />. <a href={`/record/${o.seq}`}>Entry {o.seq}</a>
              </p>
              <Sheet
                caption="Lines of the order"
                rows={o.lines}
                rowKey={(l) => `${l.recipe} ${l.kg} ${l.note ?? ''}`}
                columns={[
                  {
                    head: 'Product',
                    names: true,
                    cell: (l) => <a href={`/recipes/${encodeURIComponent(l.recipe)}`}>{nameOf(l.recipe)}</a>,
                  },
                  { head: 'Finished weight', num: true, cell: (l) => mass(l.kg) },
                  { head: 'Note', cell: (l) => l.note ?? '–' },
                ]}
              />
              {o.note && <p>{o.note}</p>}
              {o.closed?.note && <p>{o.closed.note}</p>}
              {!o.closed && <CloseOrder order={o} />}
              {!o.closed && (
                <details>
                  <summary>Correct this order</summary>
                  <OrderForm key={o.seq} order={o} />
                </details>
              )}
            </>
          )
        }}
      </Shown>
    </>
  )
}

function CloseOrder({ order }: { order: OrderView }) {
  const form = useForm(`close-${order.order}`, { outcome: 'delivered', on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => ({
        kind: 'order.close',
        body: {
          order: order.order,
          outcome: v['outcome'],
          on: r.text('on', { required: true }),
          ...compact({ note: r.text('note') }),
        },
      }),
    })
  return (
    <EntryForm
      form={form}
      fields={['on', 'note']}
      label="Close the order"
      action="Close the order"
      onSubmit={() => void send()}
    >
      <h2>Close it</h2>
      <div class="row top">
        <FormChoice
          form={form}
          name="outcome"
          label="How it ended"
          options={[
            { value: 'delivered', label: 'delivered' },
            { value: 'cancelled', label: 'cancelled' },
          ]}
        />
        <FormText form={form} name="on" type="date" label="On" required />
        <FormText form={form} name="note" label="Note" />
      </div>
      <p class="hint">Packs are sent out on the page of their batch; closing an order moves none.</p>
    </EntryForm>
  )
}
