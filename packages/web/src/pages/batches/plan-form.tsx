import { convert } from '@forcemeat/craft/quantity/units'
import { useEffect, useMemo } from 'preact/hooks'
import { address, go } from '../../router.ts'
import { layOut, lotFault, usableOn, workOutPlan, type LineInput } from '../../state/batch-plan.ts'
import { submit, useForm, type Form } from '../../state/form.ts'
import { compact, massUnitFor, readerOf, type Reader } from '../../state/reader.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import { system } from '../../state/who.ts'
import type { KitchenView, LotView, RecipeListed } from '../../state/views.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'
import { editable, today } from '../../ui/figures.ts'
import { Places, placesOf } from '../../ui/places.tsx'
import { PlanFigures } from './plan-figures.tsx'
import { PlanLines } from './plan-lines.tsx'
import { Propose } from './propose.tsx'

type Props = { recipe: RecipeListed; lots: readonly LotView[]; kitchen: KitchenView }

/** A weight to be edited, in the unit it is weighed in on this screen; to less than any scale shows. */
function weightText(kg: number): string {
  const unit = massUnitFor(kg)
  return `${editable(Number(convert(kg, 'mass', 'kg', unit).toFixed(unit === 'g' ? 3 : 4)))} ${unit}`
}

/** Write lines into the form's fields, in the units they are typed in. */
export function putLines(form: Form, lines: readonly LineInput[]): void {
  const kept = Object.entries(form.values.value).filter(([k]) => !k.startsWith('lines['))
  const rows = lines.flatMap((l, i) => [
    [rowName('lines', i, 'material'), l.material],
    [rowName('lines', i, 'lot'), l.lot ?? ''],
    [rowName('lines', i, 'kg'), weightText(l.kg)],
    [rowName('lines', i, 'scale'), ''],
  ])
  form.replace(Object.fromEntries([...kept, ...rows, ['lines.rows', String(lines.length)]]) as Record<string, string>)
}

export function readLines(r: Reader, values: Readonly<Record<string, string>>): LineInput[] {
  return Array.from({ length: rowsOf(values, 'lines') }, (_, i) => ({
    material: values[rowName('lines', i, 'material')] ?? '',
    ...compact({
      lot: values[rowName('lines', i, 'lot')] || undefined,
      scale: values[rowName('lines', i, 'scale')] || undefined,
    }),
    kg: r.quantity(rowName('lines', i, 'kg'), 'mass', { required: true }) ?? 0,
  }))
}

export function PlanForm({ recipe, lots, kitchen }: Props) {
  // A batch proposed elsewhere comes with its day and size; it is a form of its own beside one begun by hand.
  const [askedOn, askedKg] = ['on', 'meatKg'].map((name) => address.value.query.get(name) ?? '')
  const asked = askedOn || askedKg ? `-${askedOn}-${askedKg}` : ''
  const form = useForm(`plan-${recipe.recipe}-${recipe.version}${asked}`, {
    on: askedOn || today(),
    meatKg: askedKg ? `${askedKg} kg` : system.value === 'us' ? '20 lb' : '10 kg',
    'lines.rows': '0',
    heldShares: 'yes',
  })
  const values = form.values.value
  const on = values['on'] || today()
  const places = placesOf(form, 'places', kitchen)
  const reader = readerOf(values)
  const meatKg = reader.quantity('meatKg', 'mass', { required: true })
  const lines = readLines(reader, values)
  const readable = reader.faults.length === 0 && lines.length > 0
  const worked = useMemo(
    () =>
      readable && meatKg !== undefined
        ? workOutPlan({
            recipe: recipe.body,
            meatKg,
            lines,
            lots,
            instruments: kitchen.instruments,
            on,
            jurisdictions: places,
          })
        : undefined,
    [values, lots, kitchen.instruments],
  )
  const lay = (): void => {
    if (meatKg !== undefined && meatKg > 0) putLines(form, layOut(recipe.body, meatKg, lots, on))
  }
  useEffect(() => {
    if (rowsOf(form.values.value, 'lines') === 0) lay()
  }, [])
  const made = worked && 'computed' in worked ? worked : undefined
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const planned = readLines(r, v)
        const batch = r.text('batch', { required: true })
        for (const [i, line] of planned.entries()) {
          const wrong = lotFault(lots, line, on)
          if (wrong && !r.text('note')) r.fault(rowName('lines', i, 'lot'), `${wrong}, or a note on the plan`)
        }
        if (places.length === 0) r.fault('jurisdictions', 'none is chosen; allowed: one place or more')
        return {
          kind: 'batch.plan',
          body: {
            batch,
            recipe: recipe.recipe,
            version: recipe.version,
            on: r.text('on', { required: true }),
            meatKg: made?.computed.totals.meatKg ?? r.quantity('meatKg', 'mass', { required: true }),
            jurisdictions: places,
            lines: planned.map((l, i) => {
              const scale = v[rowName('lines', i, 'scale')] || made?.sheetFor[i]?.scale
              return { line: `L${i + 1}`, material: l.material, targetKg: l.kg, ...compact({ lot: l.lot, scale }) }
            }),
            ...compact({ note: r.text('note') }),
          },
        }
      },
      after: () => go(`/batches/${encodeURIComponent(batchCode)}/weigh`),
    })
  const batchCode = (values['batch'] ?? '').trim()
  return (
    <EntryForm
      form={form}
      fields={[
        'batch',
        'on',
        'meatKg',
        'note',
        ...lines.flatMap((_, i) => ['kg', 'lot', 'scale', 'targetKg'].map((f) => rowName('lines', i, f))),
      ]}
      label="Plan a batch"
      action="Plan the batch"
      onSubmit={() => void send()}
    >
      <div class="row top">
        <FormText form={form} name="batch" label="Batch code" required hint="Goes on every sheet and label." />
        <FormText form={form} name="on" type="date" label="Made on" required />
        <FormQuantity form={form} name="meatKg" kind="mass" label="Weight of the meat block" required />
      </div>
      <Places form={form} name="places" kitchen={kitchen} legend="Sold in" />
      <p class="actions">
        <button type="button" onClick={lay}>
          Lay out the lines from the recipe
        </button>
      </p>
      <Propose form={form} recipe={recipe.body} meatKg={meatKg} lots={usableOn(lots, on)} />
      <PlanLines form={form} lots={lots} on={on} instruments={kitchen.instruments} worked={made} />
      {worked && 'faults' in worked && (
        <p class="fault">{worked.faults.map((f) => `${f.path} ${f.message}`).join('; ')}</p>
      )}
      {made && <PlanFigures worked={made} />}
      <FormText form={form} name="note" label="Note on the plan" />
    </EntryForm>
  )
}
