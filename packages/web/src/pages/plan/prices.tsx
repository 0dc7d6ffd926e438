import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import { system } from '../../state/who.ts'
import { EntryForm, FormChoice, FormQuantity, FormText, faultAt } from '../../ui/form.tsx'
import { day, mass, pricePerMass, today } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { MaterialField, materialName, materialTyped } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import type { PricesView, PriceView } from './plan-views.ts'
import { useRecipes } from './recipe-names.ts'

/** Of each thing the price in force on a day comes first, then those to come, then those before it. */
function inForce<T extends { readonly from: string }>(rows: readonly T[], keyOf: (row: T) => string): Set<T> {
  const now = new Map<string, T>()
  for (const row of rows) if (row.from <= today()) now.set(keyOf(row), row)
  return new Set(now.values())
}

/** Price lists: what materials cost and what products sell at, from which day. */
export function Prices() {
  const all = useResource<PricesView>('/api/prices')
  const { nameOf } = useRecipes()
  return (
    <>
      <div class="head-line">
        <h1>Prices</h1>
        <a class="button" href="/stock/import?kind=prices">
          From a file
        </a>
      </div>
      <p>
        A lot's own price always comes first; these stand in where no lot of a material says one. A new price is a new
        entry from its day on, so that what a batch cost then stays as it was.
      </p>
      <Shown of={all.value} what="the prices">
        {({ prices, sellingPrices }) => {
          const now = inForce(prices, (p) => `${p.material} ${p.supplier ?? ''}`)
          const sold = inForce(sellingPrices, (p) => p.recipe)
          return (
            <>
              <h2>What materials cost</h2>
              <LongList
                items={prices.toReversed()}
                what="prices"
                text={(p) => `${materialName(p.material)} ${p.supplier ?? ''}`}
                empty="No price yet. Type the first one below, or bring a price list in from a file."
              >
                {(shown) => (
                  <Sheet
                    caption="Prices of materials"
                    rows={shown}
                    rowKey={(p) => p.seq}
                    columns={[
                      {
                        head: 'Material',
                        names: true,
                        cell: (p) => <a href={`/record/${p.seq}`}>{materialName(p.material)}</a>,
                      },
                      { head: 'Price', num: true, cell: (p) => pricePerMass(p.costPerKg) },
                      { head: 'From', keep: true, cell: (p) => day(p.from) },
                      { head: 'Supplier', cell: (p) => p.supplier ?? '–' },
                      { head: 'Sold as', cell: (p) => packWords(p) },
                      {
                        head: 'Standing',
                        cell: (p) =>
                          now.has(p) ? 'in force' : p.from > today() ? 'to come' : <span class="quiet">before</span>,
                      },
                    ]}
                  />
                )}
              </LongList>
              <h2>What products sell at</h2>
              <LongList
                items={sellingPrices.toReversed()}
                what="selling prices"
                text={(p) => nameOf(p.recipe)}
                empty="No selling price yet."
              >
                {(shown) => (
                  <Sheet
                    caption="Selling prices"
                    rows={shown}
                    rowKey={(p) => p.seq}
                    columns={[
                      {
                        head: 'Product',
                        names: true,
                        cell: (p) => <a href={`/record/${p.seq}`}>{nameOf(p.recipe)}</a>,
                      },
                      { head: 'Price', num: true, cell: (p) => pricePerMass(p.pricePerKg) },
                      { head: 'From', keep: true, cell: (p) => day(p.from) },
                      {
                        head: 'Standing',
                        cell: (p) =>
                          sold.has(p) ? 'in force' : p.from > today() ? 'to come' : <span class="quiet">before</span>,
                      },
                    ]}
                  />
                )}
              </LongList>
            </>
          )
        }}
      </Shown>
      <h2>Add a price</h2>
      <PriceForm />
      <h2>Add a selling price</h2>
      <SellForm />
    </>
  )
}

const packWords = ({ packKg, unit }: PriceView): string =>
  [unit, packKg === undefined ? undefined : mass(packKg)].filter(Boolean).join(' of ') || '–'

const priceUnit = (): string => (system.value === 'us' ? 'per lb' : 'per kg')
/** One field for each unit of mass: a price typed per kg is never read as one per lb. */
const field = (): string => (system.value === 'us' ? 'priceLb' : 'priceKg')

function PriceForm() {
  const form = useForm('price', { from: today() })
  const typed = form.values.value['material'] ?? ''
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => {
        const material = materialTyped(typed)
        if (!material) r.fault('material', 'is not in the table of materials; allowed: one that the search offers')
        const price = r.number(field(), { required: true })
        return {
          kind: 'price.set',
          body: {
            material: material?.id,
            costPerKg: price === undefined ? undefined : r.perKg(price),
            from: r.text('from', { required: true }),
            ...compact({
              supplier: r.text('supplier'),
              packKg: r.quantity('packKg', 'mass'),
              unit: r.text('unit'),
            }),
          },
        }
      },
      fieldFor: { costPerKg: field() },
      clear: { from: form.values.value['from'] ?? today(), supplier: form.values.value['supplier'] ?? '' },
    })
  return (
    <EntryForm
      form={form}
      fields={['material', field(), 'from', 'supplier', 'packKg', 'unit']}
      label="Add a price"
      action="Add the price"
      onSubmit={() => void send()}
    >
      <div class="columns">
        <MaterialField
          label="Material"
          value={typed}
          onInput={(v) => form.set('material', v)}
          fault={faultAt(form, 'material')}
        />
        <FormText form={form} name={field()} label="Price" numeric unit={priceUnit()} required />
        <FormText form={form} name="from" type="date" label="From" required />
        <FormText form={form} name="supplier" label="Supplier" />
        <FormQuantity form={form} name="packKg" kind="mass" label="Weight of a pack" />
        <FormText form={form} name="unit" label="Sold as" hint="box, sack, hank" />
      </div>
    </EntryForm>
  )
}

function SellForm() {
  const form = useForm('price-sell', { from: today() })
  const { options } = useRecipes()
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => {
        const price = r.number(field(), { required: true })
        return {
          kind: 'price.sell',
          body: {
            recipe: r.text('recipe', { required: true }),
            pricePerKg: price === undefined ? undefined : r.perKg(price),
            from: r.text('from', { required: true }),
          },
        }
      },
      fieldFor: { pricePerKg: field() },
      clear: { from: form.values.value['from'] ?? today() },
    })
  return (
    <EntryForm
      form={form}
      fields={['recipe', field(), 'from']}
      label="Add a selling price"
      action="Add the selling price"
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormChoice
          form={form}
          name="recipe"
          label="Product"
          options={[{ value: '', label: options.length > 0 ? 'choose a product' : 'no recipe yet' }, ...options]}
        />
        <FormText form={form} name={field()} label="Selling price" numeric unit={priceUnit()} required />
        <FormText form={form} name="from" type="date" label="Sold at this from" required />
      </div>
    </EntryForm>
  )
}
