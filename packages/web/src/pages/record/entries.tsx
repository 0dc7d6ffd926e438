import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { useResource } from '../../state/resource.ts'
import type { EntryView, KitchenView } from '../../state/views.ts'
import { ChoiceField, TextField } from '../../ui/field.tsx'
import { instant } from '../../ui/figures.ts'
import { paper } from '../../ui/paper.ts'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { factName } from '../../ui/words.ts'
import { aboutOf, personName } from './about.ts'

const STEP = 60
const kinds = [
  'kitchen.set',
  'person.add',
  'instrument.add',
  'instrument.check',
  'lot.receive',
  'lot.adjust',
  'lot.split',
  'lot.rework',
  'lot.move',
  'lot.treat',
  'room.add',
  'business.add',
  'order.take',
  'order.close',
  'price.set',
  'price.sell',
  'plan.resource',
  'recipe.save',
  'batch.plan',
  'batch.weigh',
  'batch.measure',
  'batch.curve',
  'batch.place',
  'batch.decide',
  'batch.pack',
  'pack.ship',
  'recall.drill',
  'deviation.open',
  'deviation.act',
  'deviation.close',
  'doubt.settle',
  'photo.attach',
  'label.approve',
  'hazard.sign',
  'entry.withdraw',
]

/** The record, newest first, by kind and by text. */
export function Entries({ kitchen }: { kitchen: KitchenView }) {
  const kind = useMemo(() => signal(''), [])
  const text = useMemo(() => signal(''), [])
  const limit = useMemo(() => signal(STEP), [])
  const query = new URLSearchParams({ order: 'desc', limit: String(Math.min(limit.value, 1000)) })
  if (kind.value) query.set('kind', kind.value)
  if (text.value.trim()) query.set('q', text.value.trim())
  const entries = useResource<{ entries: readonly EntryView[] }>(`/api/entries?${query.toString()}`)
  return (
    <>
      <div class="head-line">
        <h1>Record</h1>
        <a class="button" href={paperOf(kind.value, text.value)} target="_blank" rel="noreferrer">
          Print these entries
        </a>
      </div>
      <p>
        Entries are only ever added, each tied to the one before by its hash.{' '}
        <a href="/record/trace">Trace a lot or a pack</a>
      </p>
      <div class="row">
        <ChoiceField
          label="Kind of entry"
          value={kind.value}
          options={[{ value: '', label: 'all kinds' }, ...kinds.map((k) => ({ value: k, label: factName(k) }))]}
          onInput={(v) => (kind.value = v)}
        />
        <TextField
          type="search"
          label="Entries that hold"
          value={text.value}
          onInput={(v) => (text.value = v)}
          placeholder="a code, a name, a word"
        />
      </div>
      <Shown of={entries.value} what="the record">
        {({ entries: rows }) =>
          rows.length === 0 ? (
            <p class="empty">{kind.value || text.value ? 'No entry is like that.' : 'The record is empty.'}</p>
          ) : (
            <>
              <Sheet
                caption="Entries, newest first"
                rows={rows}
                rowKey={(e) => e.seq}
                columns={[
                  { head: 'No.', num: true, cell: (e) => <a href={`/record/${e.seq}`}>{e.seq}</a> },
                  { head: 'What', names: true, cell: (e) => <a href={`/record/${e.seq}`}>{factName(e.kind)}</a> },
                  { head: 'About', cell: (e) => aboutOf(e) },
                  { head: 'Who', cell: (e) => personName(kitchen, e.by) },
                  { head: 'When', keep: true, cell: (e) => instant(e.at) },
                  { head: 'Standing', cell: (e) => <Standing entry={e} /> },
                ]}
              />
              {rows.length >= limit.value && limit.value < 1000 && (
                <button type="button" onClick={() => (limit.value += STEP)}>
                  Show {STEP} more
                </button>
              )}
            </>
          )
        }
      </Shown>
    </>
  )
}

/** The entries shown, on paper, the oldest first. */
function paperOf(kind: string, text: string): string {
  const query = new URLSearchParams()
  if (kind) query.set('kind', kind)
  if (text.trim()) query.set('q', text.trim())
  return paper('entries', query)
}

function Standing({ entry: e }: { entry: EntryView }) {
  if (e.supersededBy !== undefined)
    return (
      <>
        {e.standing} by <a href={`/record/${e.supersededBy}`}>{e.supersededBy}</a>
      </>
    )
  if (e.corrects === undefined) return null
  return (
    <>
      corrects <a href={`/record/${e.corrects}`}>{e.corrects}</a>
    </>
  )
}
