import { submit, useForm, type Form, type FactDraft, type Values } from '../../state/form.ts'
import { compact, type Reader } from '../../state/reader.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { editableQuantity, today } from '../../ui/figures.ts'
import type { OrderView } from './plan-views.ts'
import { useRecipes } from './recipe-names.ts'

const most = 60
const lineField = (i: number, field: string): string => rowName('lines', i, field)

const valuesOf = (o: OrderView): Values => ({
  order: o.order,
  customer: o.customer,
  on: o.on,
  due: o.due,
  note: o.note ?? '',
  'lines.rows': String(o.lines.length),
  ...Object.fromEntries(
    o.lines.flatMap((l, i) => [
      [lineField(i, 'recipe'), l.recipe],
      [lineField(i, 'kg'), editableQuantity(l.kg, 'mass', 'kg')],
      [lineField(i, 'note'), l.note ?? ''],
    ]),
  ),
  why: '',
})

function linesOf(r: Reader, v: Values): object[] {
  return Array.from({ length: rowsOf(v, 'lines') }, (_, i) => ({
    recipe: r.text(lineField(i, 'recipe'), { required: true }),
    kg: r.quantity(lineField(i, 'kg'), 'mass', { required: true }),
    ...compact({ note: r.text(lineField(i, 'note')) }),
  }))
}

/** Take a line out; those below move up. */
function dropLine(form: Form, row: number): void {
  const v = form.values.value
  const rows = rowsOf(v, 'lines')
  const kept = Array.from({ length: rows }, (_, i) => i).filter((i) => i !== row)
  const others = Object.entries(v).filter(([k]) => !k.startsWith('lines'))
  form.replace(
    Object.fromEntries([
      ...others,
      ...kept.flatMap((from, i) =>
        ['recipe', 'kg', 'note'].map((f) => [lineField(i, f), v[lineField(from, f)] ?? ''] as const),
      ),
      ['lines.rows', String(kept.length)] as const,
    ]),
  )
}

/** An order as it is taken, or corrected where one is given. */
export function OrderForm({ order }: { order?: OrderView }) {
  const fresh = { on: today(), 'lines.rows': '1' }
  const form = useForm(order ? `order-${order.order}-${order.seq}` : 'order', order ? valuesOf(order) : fresh)
  const { options } = useRecipes()
  const rows = rowsOf(form.values.value, 'lines')
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v): FactDraft => ({
        kind: 'order.take',
        body: {
          order: r.text('order', { required: true }),
          customer: r.text('customer', { required: true }),
          on: r.text('on', { required: true }),
          due: r.text('due', { required: true }),
          lines: linesOf(r, v),
          ...compact({ note: r.text('note') }),
        },
        ...(order ? { corrects: order.seq, why: r.text('why', { required: true }) ?? '' } : {}),
      }),
      clear: order ? false : fresh,
    })
  const label = order ? `Correct ${order.order}` : 'Take an order'
  return (
    <EntryForm
      form={form}
      fields={[
        'order',
        'customer',
        'on',
        'due',
        'note',
        'why',
        ...Array.from({ length: rows }, (_, i) => ['recipe', 'kg', 'note'].map((f) => lineField(i, f))).flat(),
      ]}
      label={label}
      action={order ? label : 'Take the order'}
      onSubmit={() => void send()}
      quiet={!!order}
    >
      <div class="columns">
        <FormText form={form} name="customer" label="Customer" required />
        {!order && <FormText form={form} name="order" label="Order code" required />}
        <FormText form={form} name="on" type="date" label="Taken on" required />
        <FormText form={form} name="due" type="date" label="Due" required />
      </div>
      {Array.from({ length: rows }, (_, i) => (
        <div class="row top" key={i}>
          <FormChoice
            form={form}
            name={lineField(i, 'recipe')}
            label={`Product ${i + 1}`}
            options={[{ value: '', label: options.length > 0 ? 'choose a product' : 'no recipe yet' }, ...options]}
          />
          <FormQuantity form={form} name={lineField(i, 'kg')} kind="mass" label={`Finished weight ${i + 1}`} required />
          <FormText form={form} name={lineField(i, 'note')} label={`Note ${i + 1}`} />
          {rows > 1 && (
            <button
              type="button"
              class="plain"
              aria-label={`Remove product ${i + 1}`}
              onClick={() => dropLine(form, i)}
            >
              Remove
            </button>
          )}
        </div>
      ))}
      <p class="actions">
        <button type="button" disabled={rows >= most} onClick={() => form.set('lines.rows', String(rows + 1))}>
          Add a product
        </button>
      </p>
      <FormText form={form} name="note" label="Note on the order" />
      {order && <FormText form={form} name="why" label="Why it is corrected" required />}
    </EntryForm>
  )
}
