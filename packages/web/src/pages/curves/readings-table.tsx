import type { CurveSeries } from '../../plot/model.ts'
import { BLANK } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'

const ROWS = 60

const clock = (minute: number): string =>
  `${Math.floor(minute / 60)}:${String(Math.round(minute % 60)).padStart(2, '0')}`

/** The plot as a table, thinned to what a person reads. */
export function ReadingsTable({
  minutes,
  series,
  unit,
}: {
  minutes: readonly number[]
  series: readonly CurveSeries[]
  unit: string
}) {
  const every = Math.max(1, Math.ceil(minutes.length / ROWS))
  const rows = minutes.flatMap((minute, i) => (i % every === 0 || i === minutes.length - 1 ? [{ minute, i }] : []))
  return (
    <details>
      <summary>Readings as a table</summary>
      <Sheet
        caption="Readings of the plot"
        rows={rows}
        rowKey={(r) => r.i}
        columns={[
          { head: 'Time, h:min', cell: (r) => clock(r.minute), names: true },
          ...series.map((s) => ({
            head: `${s.name}, ${s.kind === 'lethality' ? 'log' : s.right ? '% RH' : unit}`,
            num: true,
            cell: (r: { i: number }) => s.values[r.i]?.toFixed(1) ?? BLANK,
          })),
        ]}
      />
    </details>
  )
}
