import type { Form } from '../../state/form.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import { Field } from '../../ui/field.tsx'
import { FormQuantity, FormText, faultAt } from '../../ui/form.tsx'
import { FermentDry } from './ferment-dry.tsx'
import { removeRow } from './parts.tsx'

/** Limits for blending, casing, cook, fermentation and drying, steps. */
export function Process({ form }: { form: Form }) {
  const limits = rowsOf(form.values.value, 'limits')
  const kind = form.values.value['kind']
  return (
    <>
      <h2>Limits for the blend</h2>
      <p class="hint">
        Held when a batch is planned from the lots in stock: fat, protein, water, collagen, added water, fat plus added
        water, salt, a species or a material.
      </p>
      {Array.from({ length: limits }, (_, i) => (
        <div class="row top" key={i}>
          <FormText form={form} name={rowName('limits', i, 'of')} label={`Limit ${i + 1} on`} placeholder="fat" />
          <FormQuantity
            form={form}
            name={rowName('limits', i, 'minPct')}
            kind="percent"
            label={`Limit ${i + 1}, at least`}
          />
          <FormQuantity
            form={form}
            name={rowName('limits', i, 'maxPct')}
            kind="percent"
            label={`Limit ${i + 1}, at most`}
          />
          <button
            type="button"
            class="plain"
            aria-label={`Remove limit ${i + 1}`}
            onClick={() => removeRow(form, 'limits', i)}
          >
            Remove
          </button>
        </div>
      ))}
      <button type="button" disabled={limits >= 60} onClick={() => form.set('limits.rows', String(limits + 1))}>
        Add a limit
      </button>
      <h2>Ingoing nitrite meant to be hit</h2>
      <div class="row top">
        <FormText form={form} name="nitriteTarget.lowPpm" label="At least, ppm" numeric unit="ppm" />
        <FormText
          form={form}
          name="nitriteTarget.highPpm"
          label="At most, ppm"
          numeric
          unit="ppm"
          hint="The weigh sheet judges the scale against this band."
        />
      </div>
      <h2>Casing</h2>
      <div class="row top">
        <FormQuantity form={form} name="casing.calibreMm" kind="length" unit="mm" label="Calibre" />
        <FormQuantity form={form} name="casing.linkG" kind="mass" unit="g" label="Weight of a link" />
      </div>
      {(kind === 'cooked' || form.values.value['cook.targetCoreC']) && (
        <>
          <h2>Cook</h2>
          <div class="row top">
            <FormQuantity form={form} name="cook.targetCoreC" kind="temperature" label="Core to reach" />
            <FormText form={form} name="cook.holdMinutes" label="Held for" numeric unit="min" />
            <FormQuantity form={form} name="cook.lossPct" kind="percent" label="Loss in the cook" />
          </div>
        </>
      )}
      <FermentDry form={form} />
      <h2>Steps and note</h2>
      <Area form={form} name="steps" label="Steps, one a line" rows={5} />
      <Area form={form} name="note" label="Note" rows={2} />
    </>
  )
}

function Area({ form, name, label, rows }: { form: Form; name: string; label: string; rows: number }) {
  return (
    <Field label={label} fault={faultAt(form, name)}>
      {({ id, describedBy, invalid }) => (
        <textarea
          id={id}
          rows={rows}
          value={form.values.value[name] ?? ''}
          {...(describedBy ? { 'aria-describedby': describedBy } : {})}
          aria-invalid={invalid}
          onInput={(e) => form.set(name, e.currentTarget.value)}
        />
      )}
    </Field>
  )
}
