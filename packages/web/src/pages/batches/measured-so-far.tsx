import { instant, measured } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { LongList } from '../../ui/long-list.tsx'
import { personName } from '../record/about.ts'
import type { BatchProps } from './one-batch.tsx'

/** What a measure is of, in words. */
export const measureNames: Readonly<Record<string, string>> = {
  temperature: 'temperature',
  ph: 'pH',
  aw: 'water activity',
  weight: 'weight',
  humidity: 'humidity',
  'moisture-protein': 'moisture to protein',
  nitrite: 'nitrite in the finished product',
  nitrate: 'nitrate in the finished product',
  note: 'a note only',
}

/** Every measure of the batch, the last one first, with who took it and when. */
export function MeasuredSoFar({ batch: b, kitchen }: BatchProps) {
  const rows = b.measures.toSorted((x, y) => Date.parse(y.taken) - Date.parse(x.taken))
  return (
    <LongList
      items={rows}
      what="measures"
      text={(m) => `${m.step} ${measureNames[m.what] ?? m.what} ${m.piece ?? ''} ${m.note ?? ''}`}
      empty={<p class="quiet">Nothing yet.</p>}
    >
      {(shown) => (
        <Sheet
          caption="Measures of the batch"
          rows={shown}
          rowKey={(m) => m.seq}
          columns={[
            { head: 'When', keep: true, cell: (m) => instant(m.taken) },
            { head: 'Step', names: true, cell: (m) => m.step },
            { head: 'What', cell: (m) => [measureNames[m.what] ?? m.what, m.piece].filter(Boolean).join(' of ') },
            { head: 'Reading', num: true, cell: (m) => measured(m.value, m.unit) },
            { head: 'With', cell: (m) => m.instrument ?? '–' },
            { head: 'By', cell: (m) => personName(kitchen, m.by) },
            { head: 'Note', cell: (m) => m.note ?? '' },
            { head: 'Entry', num: true, cell: (m) => <a href={`/record/${m.seq}`}>{m.seq}</a> },
          ]}
        />
      )}
    </LongList>
  )
}
