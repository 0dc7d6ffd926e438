import { tickOf, unitOf, type PlotPicture } from '../../plot/model.ts'
import { BLANK } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'

const ROWS = 60

/** A plot as a table: every instant at which something was read by hand, the rest thinned to what a person reads. */
export function PlotTable({ picture, what }: { picture: PlotPicture; what: string }) {
  const { minutes, series, inDays } = picture
  const every = Math.max(1, Math.ceil(minutes.length / ROWS))
  const read = (i: number): boolean => series.some((s) => s.kind === 'points' && typeof s.values[i] === 'number')
  const rows = minutes.flatMap((minute, i) =>
    i % every === 0 || i === minutes.length - 1 || read(i) ? [{ minute, i }] : [],
  )
  const digits = (right: boolean): number => (right ? (picture.rightAxis?.digits ?? 1) : (picture.digits ?? 1))
  return (
    <details>
      <summary>{what} as a table</summary>
      <Sheet
        caption={`${what}: readings of the plot`}
        rows={rows}
        rowKey={(r) => r.i}
        columns={[
          { head: inDays ? 'Day' : 'Time, h:min', cell: (r) => tickOf(picture, r.minute), names: true },
          ...series.map((s) => ({
            head: [s.name, unitOf(picture, s)].filter(Boolean).join(', '),
            num: true,
            cell: (r: { i: number }) => s.values[r.i]?.toFixed(digits(s.right === true)) ?? BLANK,
          })),
        ]}
      />
    </details>
  )
}
