import type { Form } from '../../state/form.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import type { StageList } from '../../state/recipe-ferment-dry.ts'
import { FormQuantity, FormText } from '../../ui/form.tsx'
import { removeRow } from './parts.tsx'

const most = 20

/** Fermentation and drying with their stages, for what is fermented or dried. */
export function FermentDry({ form }: { form: Form }) {
  const values = form.values.value
  const slow = values['kind'] === 'dried' || values['kind'] === 'fermented'
  const has = (of: 'ferment.' | 'dry.'): boolean =>
    Object.entries(values).some(([k, v]) => k.startsWith(of) && !k.endsWith('.rows') && v.trim() !== '')
  return (
    <>
      {(slow || has('ferment.')) && (
        <section aria-label="Fermentation">
          <h2>Fermentation</h2>
          <div class="row top">
            <FormText form={form} name="ferment.targetPh" label="Ended at pH" numeric />
            <FormText
              form={form}
              name="ferment.startPh"
              label="pH of the mix"
              numeric
              hint="As measured; without it nothing can be said of the sugar."
            />
          </div>
          <FormText
            form={form}
            name="ferment.culture"
            label="Culture"
            hint="By what is in it and how much of it, not by its trade name."
          />
          <Stages form={form} list="ferment.stages" one="Fermentation stage" />
        </section>
      )}
      {(slow || has('dry.')) && (
        <section aria-label="Drying">
          <h2>Drying</h2>
          <div class="row top">
            <FormQuantity form={form} name="dry.lossPct" kind="percent" label="Weight loss in drying" />
            <FormText form={form} name="dry.days" label="Days of drying" numeric unit="days" />
          </div>
          <div class="row top">
            <FormText form={form} name="dry.targetAw" label="Water activity to reach" numeric />
            <FormText form={form} name="dry.targetMoistureToProtein" label="Moisture to protein to reach" numeric />
          </div>
          <Stages form={form} list="dry.stages" one="Drying stage" />
        </section>
      )}
    </>
  )
}

/** Stages of the room's air, one after the other; a new one starts like the last. */
function Stages({ form, list, one }: { form: Form; list: StageList; one: string }) {
  const rows = rowsOf(form.values.value, list)
  const drying = list === 'dry.stages'
  const fields = drying ? ['tempC', 'rhPct', 'airSpeedMPerS'] : ['tempC', 'rhPct']
  const add = (): void => {
    const values = form.values.value
    const like = fields.map((f) => [rowName(list, rows, f), values[rowName(list, rows - 1, f)] ?? ''])
    const long = rowName(list, rows, drying ? 'days' : 'hours')
    form.replace({ ...values, ...Object.fromEntries(like), [long]: '', [`${list}.rows`]: String(rows + 1) })
  }
  return (
    <>
      {Array.from({ length: rows }, (_, i) => {
        const name = (field: string): string => rowName(list, i, field)
        const of = `${one.toLowerCase()} ${i + 1}`
        return (
          <fieldset class="stage" key={i}>
            <legend>
              {one} {i + 1}
            </legend>
            <div class="stage-row">
              {drying ? (
                <FormText form={form} name={name('days')} label="For" of={of} numeric unit="days" />
              ) : (
                <FormText form={form} name={name('hours')} label="For" of={of} numeric unit="h" />
              )}
              <FormQuantity form={form} name={name('tempC')} kind="temperature" label="Air" of={of} />
              <FormQuantity form={form} name={name('rhPct')} kind="percent" label="Humidity" of={of} />
              {drying && (
                <FormText
                  form={form}
                  name={name('airSpeedMPerS')}
                  label="Air past the pieces"
                  of={of}
                  numeric
                  unit="m/s"
                  hint="Empty: 0.2"
                />
              )}
              <button type="button" class="plain" aria-label={`Remove ${of}`} onClick={() => removeRow(form, list, i)}>
                Remove
              </button>
            </div>
          </fieldset>
        )
      })}
      <button type="button" disabled={rows >= most} onClick={add}>
        Add a {one.toLowerCase()}
      </button>
    </>
  )
}
