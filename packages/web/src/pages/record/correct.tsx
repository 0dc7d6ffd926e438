import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { EntryView } from '../../state/views.ts'
import { EntryForm, FormText } from '../../ui/form.tsx'
import { editable } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { factName, spoken } from '../../ui/words.ts'
import { leavesOf, withLeaf, type Leaf } from './leaves.ts'

/** Fields a kind may have that the entry at hand was recorded without. */
const mayHave: Readonly<Record<string, Readonly<Record<string, 'number' | 'string'>>>> = {
  'lot.receive': {
    supplier: 'string',
    supplierLot: 'string',
    useBy: 'string',
    arrivalC: 'number',
    costPerKg: 'number',
    leanAsSoldPct: 'number',
    fatPct: 'number',
    fatSdPct: 'number',
    place: 'string',
    note: 'string',
  },
  'kitchen.set': { place: 'string', altitudeM: 'number' },
  'instrument.add': { readabilityG: 'number', toleranceG: 'number', capacityG: 'number', toleranceC: 'number' },
  'batch.weigh': { lot: 'string', instrument: 'string', note: 'string' },
  'batch.measure': { value: 'number', unit: 'string', instrument: 'string', note: 'string' },
  'batch.pack': { useBy: 'string', note: 'string' },
}

/** A correction: the same fact told again, with what was wrong put right and why. The old entry stays readable. */
export function CorrectEntry({ seq }: { seq: string }) {
  const found = useResource<{ entries: readonly EntryView[] }>(
    `/api/entries?after=${Math.max(0, Number(seq) - 1)}&limit=1`,
  )
  return (
    <>
      <p>
        <a href={`/record/${seq}`}>Back to entry {seq}</a>
      </p>
      <h1>Correct entry {seq}</h1>
      <Shown of={found.value} what="the entry">
        {({ entries: [entry] }) =>
          !entry || entry.seq !== Number(seq) ? <p>The record has no entry {seq}.</p> : <Correction entry={entry} />
        }
      </Shown>
    </>
  )
}

function Correction({ entry }: { entry: EntryView }) {
  const had = leavesOf(entry.body)
  const more = Object.entries(mayHave[entry.kind] ?? {}).filter(([name]) => !had.some(([path]) => path === name))
  const types: [string, string][] = [...had.map(([p, v]): [string, string] => [p, typeof v]), ...more]
  const first = Object.fromEntries(had.map(([p, v]) => [p, typeof v === 'number' ? editable(v) : String(v)]))
  const form = useForm(`correct-${entry.seq}`, first)
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, values) => {
        const why = r.text('why', { required: true })
        let body: Record<string, unknown> = { ...entry.body }
        for (const [path, type] of types) {
          if (values[path] === first[path]) continue
          const value: Leaf | undefined =
            type === 'number' ? r.number(path) : type === 'boolean' ? values[path]?.trim() === 'true' : r.text(path)
          body = withLeaf(body, path, value)
        }
        return why ? { kind: entry.kind, body, corrects: entry.seq, why } : undefined
      },
      after: ([made]) => go(made ? `/record/${made.seq}` : '/record'),
    })
  return (
    <>
      <p>{factName(entry.kind)}. Figures are in the units of the record: kg, °C, %.</p>
      <EntryForm
        form={form}
        fields={['why', ...types.map(([p]) => p)]}
        label="Correct this entry"
        action="Record the correction"
        onSubmit={() => void send()}
      >
        <FormText form={form} name="why" label="Why it is corrected" required />
        <div class="columns">
          {types.map(([path, type]) => (
            <FormText key={path} form={form} name={path} label={spoken(path)} numeric={type === 'number'} />
          ))}
        </div>
      </EntryForm>
    </>
  )
}
