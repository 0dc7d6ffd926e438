import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { Reader } from '../../state/reader.ts'
import type { EntryView } from '../../state/views.ts'
import { EntryForm, FormText } from '../../ui/form.tsx'
import { editable } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { factName, fieldName } from '../../ui/words.ts'
import { isDifference, unitIn } from './body-units.ts'
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
    collagenPct: 'number',
    place: 'string',
    note: 'string',
  },
  'kitchen.set': { place: 'string', altitudeM: 'number' },
  'instrument.add': {
    readabilityG: 'number',
    toleranceG: 'number',
    capacityG: 'number',
    toleranceC: 'number',
    accuracyClass: 'string',
    divisionG: 'number',
    resolutionC: 'number',
  },
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

/** What a fact is of: told again it stays the same. */
const subject: Readonly<Record<string, readonly string[]>> = {
  'person.add': ['person'],
  'instrument.add': ['instrument'],
  'instrument.check': ['instrument'],
  'lot.receive': ['lot'],
  'lot.adjust': ['lot'],
  'recipe.save': ['recipe', 'version'],
  'batch.plan': ['batch'],
  'batch.weigh': ['batch', 'line'],
  'batch.measure': ['batch'],
  'batch.curve': ['batch', 'purpose', 'file'],
  'batch.pack': ['pack'],
  'pack.ship': ['pack'],
}

const kindOf = (path: string): 'mass' | 'temperature' | undefined =>
  unitIn(path) === 'kg' ? 'mass' : unitIn(path) === '°C' && !isDifference(path) ? 'temperature' : undefined

/** A figure in the unit of its field; weights and temperatures may be typed with another. */
function readFigure(r: Reader, path: string): number | undefined {
  const kind = kindOf(path)
  return kind ? r.quantity(path, kind, { unit: unitIn(path), allowNegative: true }) : r.number(path)
}

function Correction({ entry }: { entry: EntryView }) {
  const had = leavesOf(entry.body).filter(([path]) => !subject[entry.kind]?.includes(path))
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
            type === 'number'
              ? readFigure(r, path)
              : type === 'boolean'
                ? values[path]?.trim() === 'true'
                : r.text(path)
          body = withLeaf(body, path, value)
        }
        return why ? { kind: entry.kind, body, corrects: entry.seq, why } : undefined
      },
      after: ([made]) => go(made ? `/record/${made.seq}` : '/record'),
    })
  return (
    <>
      <p>
        {factName(entry.kind)}. Each figure is in the unit beside it; a weight or a temperature may be typed with
        another.
      </p>
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
            <FormText
              key={path}
              form={form}
              name={path}
              label={fieldName(path)}
              numeric={type === 'number'}
              unit={type === 'number' ? unitIn(path) : ''}
            />
          ))}
        </div>
      </EntryForm>
    </>
  )
}
