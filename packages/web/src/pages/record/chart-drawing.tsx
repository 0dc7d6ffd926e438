import { linesOf, short, spread, type Chart } from './chart-figures.ts'

const [WIDE, TALL, LEFT, RIGHT, TOP, FOOT] = [720, 240, 100, 20, 16, 34]
/** Room a label takes from the next, in the units of the drawing. */
const LABEL = 16
/** Letters of a code that fit under half the chart. */
const CODE = 30

/** Until a usual range is known, a chart shows at least this share of its figures: what hardly differs is not stretched over its height. */
const LEAST_SHARE = 0.05

/** Lowest and highest a chart shows. */
export function spanOf(values: readonly number[], usualKnown: boolean): readonly [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const least = usualKnown ? 0 : (LEAST_SHARE * Math.abs(low + high)) / 2
  const more = Math.max(0, (least - (high - low)) / 2)
  return [low - more, high + more]
}

/** Points of a chart in order, with what is usual and what is allowed drawn across. Its table says the same in figures. */
export function Drawing({ of: c }: { of: Chart }) {
  const lines = linesOf(c)
  const all = [...c.points.map((p) => p.value), ...lines.map((l) => l.value)]
  const [low, high] = spanOf(all, c.chart !== undefined)
  const pad = (high - low) * 0.08 || 1
  const n = c.points.length
  const x = (i: number): number => LEFT + (n === 1 ? 0.5 : i / (n - 1)) * (WIDE - LEFT - RIGHT)
  const y = (v: number): number => TOP + ((high + pad - v) / (high - low + 2 * pad)) * (TALL - TOP - FOOT)
  const asks = new Set(c.chart?.signals.map((s) => s.at))
  const words = `${c.title} over ${n} ${n === 1 ? 'batch' : 'batches'}${c.chart ? `; ${asks.size} ask for a cause` : ''}.`
  const labels = spread(
    lines.map((l) => y(l.value)),
    LABEL,
    TALL - FOOT,
  )
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label={`Chart: ${c.title}`}>
      <svg class="trace" viewBox={`0 0 ${WIDE} ${TALL}`} width={WIDE} height={TALL} role="img" aria-label={words}>
        {lines.map((l, i) => (
          <g key={l.mark + l.label}>
            <path class={l.mark} d={`M${LEFT} ${y(l.value)}H${WIDE - RIGHT}`} />
            <text x={LEFT - 8} y={labels[i]! + 5} text-anchor="end">
              {l.label}
            </text>
          </g>
        ))}
        <path class="drift" d={c.points.map((p, i) => `${i ? 'L' : 'M'}${x(i)} ${y(p.value)}`).join('')} />
        {c.points.map((p, i) => (
          <circle
            key={p.batch}
            class={asks.has(i) ? 'point point-off' : 'point'}
            cx={x(i)}
            cy={y(p.value)}
            r={asks.has(i) ? 6 : 4}
          />
        ))}
        <text x={n === 1 ? x(0) : LEFT} y={TALL - 8} text-anchor={n === 1 ? 'middle' : 'start'}>
          {short(c.points[0]!.batch, CODE)}
        </text>
        {n > 1 && (
          <text x={WIDE - RIGHT} y={TALL - 8} text-anchor="end">
            {short(c.points.at(-1)!.batch, CODE)}
          </text>
        )}
      </svg>
    </div>
  )
}
