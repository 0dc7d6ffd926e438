import { sendBytes } from '../../api.ts'
import { refuse, submit, useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView } from '../../state/views.ts'
import { go } from '../../router.ts'
import type { Refused } from '../../api.ts'
import { EntryForm, FormChoice } from '../../ui/form.tsx'
import type { CurveResult } from '../../work/curve-job.ts'
import { answers, file } from './state.ts'

type BatchLine = { batch: string; recipeName: string; on: string; state: string }

/** Answers in the words of the record. */
const reading = (): Record<string, string> => ({
  ...(answers.value.delimiter ? { delimiter: answers.value.delimiter } : {}),
  ...(answers.value.decimal ? { decimal: answers.value.decimal } : {}),
  ...(answers.value.unit ? { unit: answers.value.unit } : {}),
  ...(answers.value.dateOrder ? { dateOrder: answers.value.dateOrder.toUpperCase() } : {}),
})

/** Keep the file in the record, byte for byte, and tie it to a batch with what each column is and which probe it came from. */
export function Attach({ result, kitchen, batch }: { result: CurveResult; kitchen: KitchenView; batch: string }) {
  const batches = useResource<{ batches: BatchLine[] }>('/api/batches').value
  const form = useForm('attach-curve', { batch, purpose: 'cook-and-chill', instrument: '' })
  const probes = kitchen.instruments.filter((i) => (i.type === 'logger' || i.type === 'thermometer') && !i.retired)
  const channels = result.judged.format?.channels ?? []
  const send = async (): Promise<void> => {
    const chosen = form.values.value['batch']
    if (!chosen) return refuse(form, [{ path: 'batch', message: 'is empty; allowed: one of the batches' }])
    const open = file.value!
    let sha256: string
    try {
      sha256 = (await sendBytes<{ sha256: string }>('PUT', '/api/files', new Blob([open.bytes as BlobPart]))).sha256
    } catch (error) {
      return refuse(form, (error as Refused).faults ?? [{ path: '', message: String(error) }])
    }
    const instrument = form.values.value['instrument']
    await submit(form, {
      read: (_reader, values) => ({
        kind: 'batch.curve',
        body: {
          batch: chosen,
          purpose: values['purpose'],
          file: sha256,
          fileName: open.name.slice(0, 200),
          reading: reading(),
          channels: channels.map((c) => ({
            column: c.name,
            role: c.role === 'other' ? 'ignore' : c.role,
            ...(instrument && c.role !== 'other' ? { instrument } : {}),
          })),
        },
      }),
      after: () => go(`/batches/${encodeURIComponent(chosen)}`),
    })
  }
  const all = batches.value?.batches ?? []
  return (
    <section>
      <h2>Attach to a batch</h2>
      <EntryForm
        form={form}
        fields={['batch', 'purpose', 'instrument']}
        action="Attach to the batch"
        label="Attach to a batch"
        onSubmit={() => void send()}
      >
        <div class="row">
          <FormChoice
            form={form}
            name="batch"
            label="Batch"
            options={[
              { value: '', label: 'choose' },
              ...all.map((b) => ({ value: b.batch, label: `${b.batch}, ${b.recipeName}, ${b.on}` })),
            ]}
          />
          <FormChoice
            form={form}
            name="purpose"
            label="The log covers"
            options={[
              { value: 'cook-and-chill', label: 'cook and chill' },
              { value: 'cook', label: 'the cook' },
              { value: 'chill', label: 'the chill' },
              { value: 'ferment', label: 'fermentation' },
              { value: 'dry', label: 'drying' },
            ]}
          />
          <FormChoice
            form={form}
            name="instrument"
            label="Logger or thermometer"
            hint="Without one in date, nothing the log shows can pass."
            options={[
              { value: '', label: 'not known' },
              ...probes.map((i) => ({ value: i.instrument, label: i.name })),
            ]}
          />
        </div>
      </EntryForm>
    </section>
  )
}
