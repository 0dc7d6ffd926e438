import type { DryView } from '@forcemeat/server/slow/dry-view'
import type { CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { instant, length, number, percent } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { dateOf } from './dry-ready.tsx'
import { pieceWeight } from './lines.ts'

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
          {target.weightLossPct !== undefined && `, target ${percent(target.weightLossPct)}`}
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
              { head: 'Day', names: true, cell: (w) => number(w.day, 3) },
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

const metWords = {
  weightLossPct: 'loss',
  aw: 'water activity',
  moistureToProtein: 'moisture to protein',
} as const

/** Every target the recipe names is met by a figure that was measured. */
export const allMet = ({ met, left }: DryView): boolean => met.length > 0 && Object.keys(left).length === 0

/** What was measured wins: the targets it meets, and what is left to wait for. */
export function Met({ view, start }: { view: DryView; start: number }) {
  const { met, marked, aws, moistureToProtein } = view
  if (met.length === 0) return null
  const dayOf = (of: keyof typeof metWords): number | undefined =>
    (of === 'weightLossPct' ? marked.losses : of === 'aw' ? aws : moistureToProtein).at(-1)?.day
  return (
    <p class="standing">
      <strong>{allMet(view) ? 'Every target is met as measured' : 'Met as measured'}</strong>:{' '}
      {met
        .map((m) => {
          const day = dayOf(m.of)
          const shown = (x: number): string => (m.of === 'weightLossPct' ? percent(x) : number(x, 3))
          return `${metWords[m.of]} ${shown(m.measured)} (asked ${shown(m.target)})${day === undefined ? '' : ` on ${dateOf(start, day)}`}`
        })
        .join('; ')}
      . {allMet(view) ? 'What was measured stands, whatever the course computes; ' : 'The date is for the rest; '}
      whether it is enough stands in the findings below.
    </p>
  )
}

/** A course this far off a measured water activity is not to be planned by. An assumption. */
const OFF_AW = 0.02

/** Measured figures against the course's own: what was measured stands. */
export function Measured({ view, course }: { view: DryView; course: CourseOutput | undefined }) {
  const rows = [
    ...view.aws.map((r) => ({ ...r, what: 'water activity', of: (c: Row) => c.aw })),
    ...view.moistureToProtein.map((r) => ({ ...r, what: 'moisture to protein', of: (c: Row) => c.moistureToProtein })),
  ].toSorted((a, b) => b.day - a.day)
  const last = view.aws.at(-1)
  const beside = last && course && rowAt(course, last.day)
  const off = last && beside ? beside.aw - last.value : undefined
  if (rows.length === 0)
    return (
      <p class="quiet">
        No water activity is measured yet: the end of a drying is told by a checked meter, never by the course.
      </p>
    )
  return (
    <>
      <p>A measured figure stands; the course beside it only says how far to believe the rest of it.</p>
      {off !== undefined && Math.abs(off) > OFF_AW && (
        <p class="late">
          The course’s water activity lies {number(Math.abs(off), 2)} {off > 0 ? 'over' : 'under'} the last one
          measured: do not plan by it.
        </p>
      )}
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
