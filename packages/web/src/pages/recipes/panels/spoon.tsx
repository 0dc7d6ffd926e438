import { parseOrThrow, InvalidInput } from '@forcemeat/craft/calculation'
import { spoonInput, spoonToGrams, type SpoonOutput } from '@forcemeat/craft/season/spoon'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import { FormChoice } from '../../../ui/form.tsx'
import { MaterialField, materialTyped } from '../../../ui/material-field.tsx'
import { VerdictMark } from '../../../ui/verdict.tsx'
import { NumberField } from './number-field.tsx'
import { Panel } from './panel.tsx'
import { Working } from '../../../ui/working.tsx'

/** An old recipe in spoons, turned into grams with how far they may be off; cure refused. */
export function Spoon({ form }: { form: Form }) {
  const values = form.values.value
  const typed = values['bench.spoon.material'] ?? ''
  const material = materialTyped(typed)
  const count = readerOf(values).number('bench.spoon.count')
  const answer = ((): SpoonOutput | string | undefined => {
    if (!material || count === undefined) return undefined
    const form = values['bench.spoon.form'] || undefined
    try {
      return spoonToGrams(
        parseOrThrow(spoonInput, {
          material: material.id,
          count,
          spoon: values['bench.spoon.spoon'] || 'tsp',
          ...(form ? { form } : {}),
        }),
      )
    } catch (error) {
      if (error instanceof InvalidInput) return error.faults.map((f) => f.message).join('; ')
      throw error
    }
  })()
  return (
    <Panel title="From an old recipe in spoons">
      <div class="row top">
        <NumberField form={form} name="bench.spoon.count" label="Level spoons" above={0} max={10000} />
        <FormChoice
          form={form}
          name="bench.spoon.spoon"
          label="Spoon"
          options={[
            { value: 'tsp', label: 'teaspoon' },
            { value: 'tbsp', label: 'tablespoon' },
          ]}
        />
        <MaterialField label="Of" value={typed} onInput={(v) => form.set('bench.spoon.material', v)} />
        <FormChoice
          form={form}
          name="bench.spoon.form"
          label="It is"
          options={[
            { value: '', label: 'not said' },
            ...['ground', 'whole', 'leaves', 'crumbled'].map((f) => ({ value: f, label: f })),
          ]}
        />
      </div>
      {typeof answer === 'string' && <p class="fault">{answer}</p>}
      {answer && typeof answer !== 'string' && (
        <div role="status">
          <p>
            {!answer.possible && <VerdictMark verdict="fail" label="Not by spoon" />} {answer.because}.
          </p>
          {answer.possible && <Working figure="Working" steps={answer.working} />}
        </div>
      )}
    </Panel>
  )
}
