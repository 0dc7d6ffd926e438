import type { CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { instant, length, number, percent } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { pieceWeight } from './lines.ts'
import type { DryView } from './slow-views.ts'

type Row = CourseOutput['series'][number]

/** The computed state nearest to a day. */
export const rowAt = (course: CourseOutput, day: number): Row | undefined =>
  course.series.reduce<Row | undefined>(
    (best, r) => (best && Math.abs(best.day - day) <= Math.abs(r.day - day) ? best : r),
    undefined,
  )

/** How the product stands by the course, beside its targets. */
export function StandingNow({ course, day, target }: { course: CourseOutput; day: number; target: DryView['target'] }) {
  const now = rowAt(course, day)
  if (!now) return null
  return (
    <section>
      <h2>By the course, on day {number(now.day, 3)}</h2>
      <dl class="facts">
        <dt>Weight loss</dt>
        <dd>
          {percent(now.weightLossPct)}
          {target.weightLossPct !== undefined && ` of ${percent(target.weightLossPct)}`}
        </dd>
        <dt>Water activity of the whole</dt>
        <dd>
          {number(now.aw, 3)}
          {target.aw !== undefined && `, target ${number(target.aw, 3)}`}
        </dd>
        <dt>Core and rim</dt>
        <dd>
          {number(now.coreAw, 3)} and {number(now.rimAw, 3)}
        </dd>
        <dt>Moisture to protein</dt>
        <dd>
          {number(now.moistureToProtein, 3)}
          {target.moistureToProtein !== undefined && `, target ${number(target.moistureToProtein, 3)}`}
        </dd>
        <dt>Loss a day</dt>
        <dd>{percent(now.lossPctPerDay, 2)}</dd>
        <dt>Diameter</dt>
        <dd>{length(now.diameterMm)}</dd>
      </dl>
    </section>
  )
}

/** Weighings of the marked pieces, taken together, with how far the pieces lie apart. */
export function Weighings({ view }: { view: DryView }) {
  const { losses, starts } = view.marked
  const late = starts.filter((s) => !s.counts)
  return (
    <section>
      <h2>Marked pieces</h2>
      {late.length > 0 && (
        <p class="late">
          {late.map((s) => s.piece).join(', ')} first weighed on day {number(late[0]!.day, 3)}: the loss before it is
          not known, so {late.length > 1 ? 'they are' : 'it is'} left out.
        </p>
      )}
      {starts.length === 0 ? (
        <p class="empty">No piece is weighed yet.</p>
      ) : (
        <>
          <p>At first: {starts.map((s) => `${s.piece} ${pieceWeight(s.g)}`).join(', ')}.</p>
          <Sheet
            caption="Weighings of the marked pieces"
            rows={losses.toReversed()}
            rowKey={(w) => w.day}
            columns={[
              { head: 'Day', num: true, names: true, cell: (w) => number(w.day, 3) },
              { head: 'Mean loss', num: true, cell: (w) => percent(w.weightLossPct) },
              {
                head: 'Spread, ±',
                num: true,
                cell: (w) => (w.sdPct === undefined ? 'one piece' : percent(w.sdPct, 2)),
              },
              {
                head: 'Pieces',
                cell: (w) => w.pieces.map((p) => `${p.piece} ${percent(p.weightLossPct)}`).join(', '),
              },
            ]}
          />
          <details>
            <summary>Every weight, with who and when</summary>
            <Sheet
              caption="Every weight"
              rows={view.weights.toReversed()}
              rowKey={(w) => w.seq}
              columns={[
                { head: 'When', keep: true, cell: (w) => instant(w.taken) },
                { head: 'Piece', names: true, cell: (w) => w.piece },
                { head: 'Weight', num: true, cell: (w) => pieceWeight(w.g) },
                { head: 'Scale', cell: (w) => w.instrument ?? 'not named' },
                { head: 'By', cell: (w) => w.by },
                { head: 'Note', cell: (w) => w.note ?? '' },
                { head: 'Entry', num: true, cell: (w) => <a href={`/record/${w.seq}`}>{w.seq}</a> },
              ]}
            />
          </details>
        </>
      )}
    </section>
  )
}

/** Measured figures against the course's own: what was measured stands. */
export function Measured({ view, course }: { view: DryView; course: CourseOutput | undefined }) {
  const rows = [
    ...view.aws.map((r) => ({ ...r, what: 'water activity', of: (c: Row) => c.aw })),
    ...view.moistureToProtein.map((r) => ({ ...r, what: 'moisture to protein', of: (c: Row) => c.moistureToProtein })),
  ].toSorted((a, b) => b.day - a.day)
  if (rows.length === 0)
    return (
      <p class="quiet">
        No water activity is measured yet: the end of a drying is told by a checked meter, never by the course.
      </p>
    )
  return (
    <>
      <p>A measured figure stands; the course beside it only says how far to believe the rest of it.</p>
      <Sheet
        caption="Measured figures of the product"
        rows={rows}
        rowKey={(r) => r.seq}
        columns={[
          { head: 'When', keep: true, names: true, cell: (r) => instant(r.taken) },
          { head: 'What', cell: (r) => r.what },
          { head: 'Measured', num: true, cell: (r) => <strong>{number(r.value, 4)}</strong> },
          {
            head: 'Computed',
            num: true,
            cell: (r) => {
              const at = course && rowAt(course, r.day)
              return at ? number(r.of(at), 3) : '–'
            },
          },
          { head: 'With', cell: (r) => r.instrument ?? 'not named' },
          { head: 'By', cell: (r) => r.by },
          { head: 'Note', cell: (r) => [r.piece, r.note].filter(Boolean).join(', ') },
          { head: 'Entry', num: true, cell: (r) => <a href={`/record/${r.seq}`}>{r.seq}</a> },
        ]}
      />
    </>
  )
}
