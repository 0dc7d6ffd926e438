import { number } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import type { ProofView } from './label-views.ts'

type Own = NonNullable<ProofView['content']['nutritionOwn']>[number]
const columns = [
  { head: 'What', names: true, cell: (r: Own['rows'][number]) => `${r.label}, ${r.unit}` },
  { head: 'On the label', num: true, cell: (r: Own['rows'][number]) => r.printed },
  { head: 'By its own loss', num: true, cell: (r: Own['rows'][number]) => r.own ?? 'not known' },
  {
    head: 'Tolerance, from memory',
    num: true,
    cell: (r: Own['rows'][number]) =>
      r.low === undefined && r.high === undefined
        ? '–'
        : `${r.low === undefined ? 'up' : number(r.low, 3)} to ${r.high === undefined ? 'any' : number(r.high, 3)}${r.outside ? ', outside' : ''}`,
  },
] as const

/** The nutrition table of the label beside the one by what the batch itself lost. */
export function OwnLoss({ tables }: { tables: readonly Own[] }) {
  return (
    <>
      {tables.map((t) => {
        const title = `Nutrition by what this batch lost: ${number(t.lossPct, 3)} %, ${t.of === 'pieces' ? 'its weighed pieces' : 'all that was packed'}`
        return (
          <details key={t.of} open={t.rows.some((r) => r.own !== r.printed)}>
            <summary>{title}</summary>
            <Sheet caption={title} columns={[...columns]} rows={t.rows} rowKey={(r) => r.key} />
          </details>
        )
      })}
    </>
  )
}
