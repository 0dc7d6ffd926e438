import type { CheckView, EntryView } from '../../state/views.ts'
import { system } from '../../state/who.ts'
import { day, number } from '../../ui/figures.ts'

type Point = { readonly on: string; readonly error: number; readonly tolerance: number; readonly unit: string }

const pointOf = (e: EntryView): Point => {
  const b = e.body as unknown as CheckView
  const error = Number((b.reading - b.reference).toFixed(9))
  // An error is a difference: it turns into °F without the zero of the scale.
  if (b.unit === '°C' && system.value === 'us')
    return { on: b.on, error: error * 1.8, tolerance: b.tolerance * 1.8, unit: '°F' }
  return { on: b.on, error, tolerance: b.tolerance, unit: b.unit }
}

const [WIDE, TALL, LEFT, TOP, FOOT] = [640, 220, 64, 14, 34]

/** Error of each check over time, with the largest error allowed drawn in. The table of checks says the same in figures. */
export function Drift({ name, checks }: { name: string; checks: readonly EntryView[] }) {
  const points = checks
    .filter((e) => e.standing === undefined || e.standing === 'stands')
    .map(pointOf)
    .toSorted((a, b) => a.on.localeCompare(b.on))
  if (points.length < 2) return null
  const unit = points[0]!.unit
  const most = Math.max(...points.map((p) => Math.max(Math.abs(p.error), p.tolerance))) * 1.15 || 1
  const times = points.map((p) => Date.parse(p.on))
  const [from, to] = [Math.min(...times), Math.max(...times)]
  const x = (on: string): number => LEFT + ((Date.parse(on) - from) / (to - from || 1)) * (WIDE - LEFT - 16)
  const y = (error: number): number => TOP + ((most - error) / (2 * most)) * (TALL - TOP - FOOT)
  const last = points.at(-1)!
  const words = `Error of ${name} at ${points.length} checks, from ${day(points[0]!.on)} to ${day(last.on)}; at the last ${number(last.error)} ${unit}, allowed ${number(last.tolerance)} ${unit} either way.`
  return (
    <figure>
      <div class="sheet" tabIndex={0} role="region" aria-label={`Drift of ${name}`}>
        <svg class="trace" viewBox={`0 0 ${WIDE} ${TALL}`} width={WIDE} height={TALL} role="img" aria-label={words}>
          {[-last.tolerance, 0, last.tolerance].map((e) => (
            <g key={e}>
              <path class={e === 0 ? 'thread' : 'limit'} d={`M${LEFT} ${y(e)}H${WIDE - 16}`} />
              <text x={LEFT - 8} y={y(e) + 5} text-anchor="end">
                {number(e)}
              </text>
            </g>
          ))}
          <path class="drift" d={points.map((p, i) => `${i ? 'L' : 'M'}${x(p.on)} ${y(p.error)}`).join('')} />
          {points.map((p) => (
            <circle
              key={`${p.on} ${p.error}`}
              class={Math.abs(p.error) > p.tolerance ? 'point point-off' : 'point'}
              cx={x(p.on)}
              cy={y(p.error)}
              r={Math.abs(p.error) > p.tolerance ? 6 : 4}
            />
          ))}
          <text x={LEFT} y={TALL - 8}>
            {day(points[0]!.on)}
          </text>
          <text x={WIDE - 16} y={TALL - 8} text-anchor="end">
            {day(last.on)}
          </text>
        </svg>
      </div>
      <figcaption class="hint">Error at each check, {unit}; the two lines are the largest error allowed.</figcaption>
    </figure>
  )
}
