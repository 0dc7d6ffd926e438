import { columnsOf } from '@forcemeat/craft/log/format'
import { sendBytes } from '../../api.ts'
import { refuse, submit, useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import { readerOf } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { go } from '../../router.ts'
import type { Refused } from '../../api.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { BeginsFields, beginTexts, readBegin } from './begins.tsx'
import type { CurveResult } from '../../work/curve-job.ts'
import { readingOf } from './reading-of.ts'
import { answers, file } from './state.ts'

type BatchLine = { batch: string; recipeName: string; on: string; state: string }

/** Keep the file in the record, byte for byte, and tie it to a batch with what each column is and which probe it came from. */
export function Attach({ result, kitchen, batch }: { result: CurveResult; kitchen: KitchenView; batch: string }) {
  const batches = useResource<{ batches: BatchLine[] }>('/api/batches').value
  const stamp = result.room?.firstStamp ?? result.judged.firstStamp
  const form = useForm(`attach-curve-${file.value?.name ?? ''}`, {
    batch,
    purpose: result.room ? 'dry' : 'cook-and-chill',
    instrument: '',
    note: '',
    ...beginTexts(stamp),
  })
  const slow = form.values.value['purpose'] === 'ferment' || form.values.value['purpose'] === 'dry'
  // A pH is put on the log by its instant: a clock that names no zone is told of.
  const asksBegin = slow && result.judged.format?.time.offset !== true
  const probes = kitchen.instruments.filter((i) => (i.type === 'logger' || i.type === 'thermometer') && !i.retired)
  const channels = result.judged.format ? columnsOf(result.judged.format) : []
  const send = async (): Promise<void> => {
    const chosen = form.values.value['batch']
    if (!chosen) return refuse(form, [{ path: 'batch', message: 'is empty; allowed: one of the batches' }])
    const reader = readerOf(form.values.value)
    const startsAt = asksBegin ? readBegin(reader) : undefined
    if (reader.faults.length > 0) return refuse(form, reader.faults)
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
          reading: readingOf(answers.value),
          ...(startsAt === undefined ? {} : { startsAt }),
          ...(values['note']?.trim() ? { note: values['note'].trim() } : {}),
          channels: channels.map((c) => ({
            column: c.name,
            role: c.role === 'other' ? 'ignore' : c.role,
            ...(instrument && c.role !== 'other' ? { instrument } : {}),
          })),
        },
      }),
      after: () => go(`${slow ? `/curves/${form.values.value['purpose']}` : '/batches'}/${encodeURIComponent(chosen)}`),
    })
  }
  const all = batches.value?.batches ?? []
  return (
    <section>
      <h2>Attach to a batch</h2>
      <EntryForm
        form={form}
        fields={['batch', 'purpose', 'instrument', 'note', 'begins.day', 'begins.time']}
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
        {asksBegin && <BeginsFields form={form} />}
        <FormText
          form={form}
          name="note"
          label="Note"
          hint="Where several batches were cooked together: name the others and say so. Else what is worth knowing, or empty."
        />
      </EntryForm>
    </section>
  )
}
