import { submit, useForm } from '../../state/form.ts'
import type { InstrumentView } from '../../state/views.ts'
import { compact, type Reader } from '../../state/reader.ts'
import { EntryForm, FormChoice, FormQuantity, FormText, faultAt } from '../../ui/form.tsx'
import { system } from '../../state/who.ts'
import { today } from '../../ui/figures.ts'
import { MaterialField, materialTyped } from '../../ui/material-field.tsx'
import { Arrival, arrivalOf } from './arrival.tsx'
import { ColdEnough } from './cold-enough.tsx'
import { Documents, documentsOf } from './documents.tsx'
import { mayCarry } from './made-safe-words.ts'

const fields = [
  'lot',
  'material',
  'kg',
  'supplier',
  'supplierLot',
  'on',
  'useBy',
  'arrivalC',
  'costPerKg',
  'costPerLb',
  'leanAsSoldPct',
  'fatPct',
  'fatSdPct',
  'place',
  'note',
  'documents',
  'bought.count',
  'bought.unit',
  'arrival.packaging',
  'arrival.condition',
  'arrival.labels',
  'arrival.vehicle',
  'arrival.instrument',
]

/** Boxes, hanks, bags: both how many and of what, or neither. */
function boughtOf(r: Reader): { count: number; unit: string } | undefined {
  const [count, unit] = [r.number('bought.count'), r.text('bought.unit')]
  if (count !== undefined && unit !== undefined) return { count, unit }
  if (count !== undefined) return r.fault('bought.unit', 'is empty; allowed: what was counted, such as boxes')
  return unit === undefined ? undefined : r.fault('bought.count', 'is empty; allowed: how many')
}

/** One field for each unit of mass: a price typed per kg is never read as one per lb. */
const priceField = (): string => (system.value === 'us' ? 'costPerLb' : 'costPerKg')

/** A lot as it comes in at the door. */
export function ReceiveLot({ instruments }: { instruments: readonly InstrumentView[] }) {
  const form = useForm('receive', { on: today(), fatBasis: 'analysed', documents: '0' })
  const typed = form.values.value['material'] ?? ''
  const material = materialTyped(typed)
  const meat = material === undefined || material.meatBlock || material.species !== undefined
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        if (!material)
          r.fault(
            'material',
            typed.trim() === ''
              ? 'is empty; allowed: a material of the table'
              : `${JSON.stringify(typed)} is not in the table of materials; allowed: one that the search offers`,
          )
        const fatPct = r.quantity('fatPct', 'percent')
        const price = r.number(priceField())
        return {
          kind: 'lot.receive',
          body: {
            lot: r.text('lot', { required: true }),
            material: material?.id,
            kg: r.quantity('kg', 'mass', { required: true }),
            on: r.text('on', { required: true }),
            ...compact({
              supplier: r.text('supplier'),
              supplierLot: r.text('supplierLot'),
              useBy: r.text('useBy'),
              arrivalC: r.quantity('arrivalC', 'temperature'),
              costPerKg: price === undefined ? undefined : r.perKg(price),
              place: r.text('place'),
              documents: documentsOf(r, v),
              arrival: arrivalOf(v),
              bought: boughtOf(r),
              note: r.text('note'),
            }),
            ...(meat &&
              compact({
                leanAsSoldPct: r.quantity('leanAsSoldPct', 'percent'),
                fatPct,
                fatSdPct: r.quantity('fatSdPct', 'percent'),
                collagenPct: r.quantity('collagenPct', 'percent'),
                fatBasis: fatPct === undefined ? undefined : v['fatBasis'],
              })),
          },
        }
      },
      done: (entries) => `Received, entry ${entries[0]?.seq ?? ''}.`,
      clear: {
        on: form.values.value['on'] ?? today(),
        fatBasis: 'analysed',
        documents: '0',
        supplier: form.values.value['supplier'] ?? '',
      },
    })
  return (
    <>
      <p>
        <a href="/stock">All lots</a>
      </p>
      <h1>Receive a lot</h1>
      <EntryForm
        form={form}
        fields={fields}
        label="Receive a lot"
        action="Receive the lot"
        onSubmit={() => void send()}
      >
        <div class="columns">
          <MaterialField
            label="Material"
            value={typed}
            onInput={(v) => form.set('material', v)}
            fault={faultAt(form, 'material')}
          />
          <FormText
            form={form}
            name="lot"
            label="Lot code"
            required
            hint="Letters, digits, dots and dashes: what goes on the box."
          />
          <FormQuantity
            form={form}
            name="kg"
            kind="mass"
            label="Weight"
            required
            hint="As on your own scale: 25 kg, 55 lb, 2 lb 4 oz."
          />
          <FormText form={form} name="on" type="date" label="Came in on" required />
          <FormText form={form} name="supplier" label="Supplier" />
          <FormText form={form} name="supplierLot" label="Supplier's lot or slaughter number" />
          <FormQuantity form={form} name="arrivalC" kind="temperature" label="Temperature on arrival" />
          <FormText form={form} name="useBy" type="date" label="Use by" />
          <FormText
            form={form}
            name={priceField()}
            label="Price"
            numeric
            unit={system.value === 'us' ? 'per lb' : 'per kg'}
          />
          <FormText form={form} name="place" label="Where it is kept" />
          <FormText form={form} name="bought.count" label="As bought: how many" numeric />
          <FormText form={form} name="bought.unit" label="As bought: of what" hint="boxes, hanks, bags" />
        </div>
        {meat && (
          <fieldset>
            <legend>Lean and fat</legend>
            <div class="columns">
              <FormQuantity
                form={form}
                name="leanAsSoldPct"
                kind="percent"
                label="Lean as sold"
                hint="80 for what is sold as 80/20."
              />
              <FormQuantity form={form} name="fatPct" kind="percent" label="Fat found" />
              <FormQuantity form={form} name="fatSdPct" kind="percent" label="Spread of fat, standard deviation" />
              <FormQuantity
                form={form}
                name="collagenPct"
                kind="percent"
                label="Collagen"
                hint="From its specification: the declared meat is reckoned from it."
              />
              <FormChoice
                form={form}
                name="fatBasis"
                label="How the fat was found"
                options={[
                  { value: 'analysed', label: 'analysed' },
                  { value: 'estimated', label: 'estimated' },
                  { value: 'as-sold', label: 'as sold' },
                ]}
              />
            </div>
          </fieldset>
        )}
        <Arrival form={form} instruments={instruments} />
        {material && (
          <ColdEnough
            material={material.id}
            on={form.values.value['on'] ?? ''}
            typed={form.values.value['arrivalC'] ?? ''}
            instrument={form.values.value['arrival.instrument'] ?? ''}
          />
        )}
        <Documents form={form} pork={mayCarry(material)} />
        <FormText form={form} name="note" label="Note" />
      </EntryForm>
    </>
  )
}
