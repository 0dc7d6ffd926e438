import type { Form } from '../../state/form.ts'
import { readQuantity } from '../../state/reader.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { mediumNames, stageCount, stageField, stageFields, tempText, type Medium } from './cook-form.ts'

const mediums = Object.entries(mediumNames).map(([value, label]) => ({ value, label }))

/** Take a stage out, or put one in after it like it; the rows behind it move along. */
export function changeStages(form: Form, at: number, how: 'remove' | 'add'): void {
  const values = { ...form.values.value }
  const rows = stageCount(values)
  const read = (i: number) => stageFields.map((f) => values[stageField(i, f)] ?? '')
  const all = Array.from({ length: rows }, (_, i) => read(i))
  if (how === 'remove') all.splice(at, 1)
  else all.splice(at + 1, 0, all[at] ?? ['air', tempText(70), '30', '', 'rh', '60', '1', '', ''])
  for (const [i, texts] of all.entries()) stageFields.forEach((f, k) => (values[stageField(i, f)] = texts[k]!))
  values['stages.rows'] = String(all.length)
  form.replace(values)
}

function Slider({
  label,
  min,
  max,
  step,
  value,
  onInput,
}: {
  label: string
  min: number
  max: number
  step: number
  value: number
  onInput: (v: number) => void
}) {
  return (
    <input
      type="range"
      class="slide"
      aria-label={label}
      min={min}
      max={max}
      step={step}
      value={value}
      onInput={(e) => onInput(Number(e.currentTarget.value))}
    />
  )
}

/** What a stage waits for: a time, a core, or whichever comes first; read off the fields that are filled. */
function StageRow({ form, i, running }: { form: Form; i: number; running: boolean }) {
  const values = form.values.value
  const name = (field: string): string => stageField(i, field)
  const medium = (values[name('medium')] ?? 'air') as Medium
  const temp = readQuantity(values[name('tempC')] ?? '', 'temperature', undefined, true)
  const minutes = Number((values[name('minutes')] ?? '').replace(',', '.'))
  const of = `stage ${i + 1}`
  const cold = medium === 'ice-water'
  const air = medium === 'air'
  return (
    <fieldset class={running ? 'stage stage-now' : 'stage'}>
      <legend>
        Stage {i + 1}
        {running ? ', running' : ''}
      </legend>
      <div class="stage-row">
        <FormChoice form={form} name={name('medium')} label="In" of={of} options={mediums} />
        <div>
          <FormQuantity form={form} name={name('tempC')} kind="temperature" label="House" of={of} allowNegative />
          <Slider
            label={`House temperature of stage ${i + 1}, slide`}
            min={cold ? -4 : air ? -5 : 0}
            max={cold ? 10 : 110}
            step={0.5}
            value={temp.ok ? temp.value : 0}
            onInput={(v) => form.set(name('tempC'), tempText(v))}
          />
        </div>
        <div>
          <FormText form={form} name={name('minutes')} label="Minutes" of={of} numeric unit="min" />
          <Slider
            label={`Minutes of stage ${i + 1}, slide`}
            min={0}
            max={360}
            step={5}
            value={Number.isFinite(minutes) ? minutes : 0}
            onInput={(v) => form.set(name('minutes'), v === 0 ? '' : String(v))}
          />
        </div>
        <FormQuantity
          form={form}
          name={name('untilCoreC')}
          kind="temperature"
          label="or until core"
          of={of}
          allowNegative
        />
        {air && (
          <>
            <ChoiceField
              label="Humidity as"
              of={of}
              value={values[name('humidityAs')] ?? 'rh'}
              options={[
                { value: 'rh', label: 'RH' },
                { value: 'wet-bulb', label: 'wet bulb' },
              ]}
              onInput={(v) => form.replace({ ...form.values.value, [name('humidityAs')]: v, [name('humidity')]: '' })}
            />
            {values[name('humidityAs')] === 'wet-bulb' ? (
              <FormQuantity
                form={form}
                name={name('humidity')}
                kind="temperature"
                label="Wet bulb"
                of={of}
                allowNegative
              />
            ) : (
              <FormText form={form} name={name('humidity')} label="RH" of={of} numeric unit="%" />
            )}
          </>
        )}
        <FormText
          form={form}
          name={name('speed')}
          label={air || medium === 'steam' ? 'Air speed' : 'Water speed'}
          of={of}
          numeric
          unit="m/s"
        />
      </div>
      <details class="stage-more">
        <summary>More of stage {i + 1}</summary>
        <div class="stage-row">
          <FormText
            form={form}
            name={name('rampMinutes')}
            label="Change over"
            of={of}
            numeric
            unit="min"
            hint="In a straight line from the stage before."
          />
          <FormText
            form={form}
            name={name('film')}
            label="Film coefficient"
            of={of}
            numeric
            unit="W/(m²·K)"
            hint="Empty takes a published correlation."
          />
          <button type="button" class="plain" onClick={() => changeStages(form, i, 'add')}>
            Add one like it after
          </button>
          <button
            type="button"
            class="plain"
            disabled={stageCount(values) < 2}
            onClick={() => changeStages(form, i, 'remove')}
          >
            Remove stage {i + 1}
          </button>
        </div>
      </details>
    </fieldset>
  )
}

/** The stages of a house, a bath and a chiller, each typed or slid. */
export function StageRows({ form, running }: { form: Form; running?: number }) {
  const rows = stageCount(form.values.value)
  return (
    <section aria-label="Stages">
      {Array.from({ length: rows }, (_, i) => (
        <StageRow key={i} form={form} i={i} running={running === i} />
      ))}
      <button type="button" disabled={rows >= 20} onClick={() => changeStages(form, rows - 1, 'add')}>
        Add a stage
      </button>
    </section>
  )
}
