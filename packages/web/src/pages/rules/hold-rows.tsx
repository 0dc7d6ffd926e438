import { formatQuantity } from '@forcemeat/craft/quantity/format'
import { convert } from '@forcemeat/craft/quantity/units'
import { everyTable, pattyTable, type HoldTable } from '@forcemeat/rulebook/lethality/tables'
import { number } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { markName } from '../../ui/words.ts'

/** The table of times and temperatures behind a rule, where it has one. */
export const holdTableOf = (rule: string): HoldTable | undefined =>
  [...everyTable, pattyTable].find((t) => t.id === rule)

/** Rows as printed, in °F, with the exact °C beside them. */
export function HoldRows({ table }: { table: HoldTable }) {
  const doubtful = table.rows.some((r) => r.source.mark !== table.source.mark)
  return (
    <>
      <h2>The table</h2>
      <Sheet
        caption={table.title}
        rows={table.rows}
        rowKey={(r) => r.f}
        columns={[
          { head: 'Core, as printed', names: true, cell: (r) => `${number(r.f)} °F` },
          {
            head: 'Core',
            num: true,
            cell: (r) => formatQuantity(r.tempC, 'temperature', { system: 'metric', places: 2 }),
          },
          {
            head: 'Held for at least',
            num: true,
            cell: (r) =>
              r.seconds === 0
                ? 'reached is enough'
                : formatQuantity(convert(r.seconds, 'time', 's', 'min'), 'time', { system: 'metric' }),
          },
          { head: 'In seconds', num: true, cell: (r) => (r.seconds === 0 ? '–' : number(r.seconds, 6)) },
          ...(doubtful
            ? [{ head: 'How it was read', cell: (r: HoldTable['rows'][number]) => markName(r.source.mark) }]
            : []),
        ]}
      />
    </>
  )
}
