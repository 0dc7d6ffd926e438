import { useResource } from '../../state/resource.ts'
import type { EntryView } from '../../state/views.ts'
import { instant } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Photos } from '../../ui/photos.tsx'
import { PrintRecord } from '../../ui/print-record.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { factName } from '../../ui/words.ts'
import { aboutOf, personName } from '../record/about.ts'
import type { BatchProps } from './one-batch.tsx'

/** Who did what to this batch, and when. */
export function History({ batch: b, kitchen }: BatchProps) {
  const entries = useResource<{ entries: readonly EntryView[] }>(
    `/api/entries?limit=1000&about=${encodeURIComponent(`batch:${b.batch}`)}`,
  )
  return (
    <Shown of={entries.value} what="the history">
      {({ entries: rows }) => (
        <>
          <p>
            <PrintRecord of="batch" id={b.batch} />
          </p>
          <Sheet
            caption="Entries about the batch"
            rows={rows}
            rowKey={(e) => e.seq}
            columns={[
              { head: 'When', keep: true, cell: (e) => instant(e.at) },
              { head: 'What', names: true, cell: (e) => <a href={`/record/${e.seq}`}>{factName(e.kind)}</a> },
              { head: 'About', cell: (e) => aboutOf(e) },
              { head: 'Who', cell: (e) => personName(kitchen, e.by) },
              {
                head: 'Standing',
                cell: (e) => (e.supersededBy === undefined ? '' : `${e.standing} by ${e.supersededBy}`),
              },
            ]}
          />
          <Photos of="batch" id={b.batch} />
        </>
      )}
    </Shown>
  )
}
