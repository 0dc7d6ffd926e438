import { day, mass } from '../../ui/figures.ts'
import type { LoadDay } from './plan-views.ts'

const [WIDE, TALL, LEFT, TOP, FOOT] = [860, 260, 76, 14, 40]

/** A round figure at or above another: 1, 2 or 5 times a power of ten. */
function roundedUp(x: number): number {
  const ten = 10 ** Math.floor(Math.log10(Math.max(x, 1e-6)))
  return ten * ([1, 2, 5, 10].find((n) => n * ten >= x) ?? 10)
}

/** Water given off by the day: bars of what hangs there and of what is to come, the line of what is taken away. */
export function LoadPlot({ load }: { load: readonly LoadDay[] }) {
  const removed = load[0]?.removedKg
  const top = roundedUp(1.05 * Math.max(1e-3, removed ?? 0, ...load.map((d) => d.allKg)))
  const step = (WIDE - LEFT - 16) / Math.max(1, load.length)
  const y = (kg: number): number => TOP + ((top - kg) / top) * (TALL - TOP - FOOT)
  const every = Math.max(1, Math.ceil(load.length / 9))
  const over = load.filter((d) => removed !== undefined && d.allKg > removed * (1 + 1e-9))
  const said = `Water the batches give off on ${load.length} days${
    removed === undefined ? '' : `, against ${mass(removed)} a day taken away; too much on ${over.length} days`
  }. The figures stand in the table below.`
  return (
    <figure class="curve">
      <div class="sheet" tabIndex={0} role="region" aria-label="Plot of water by the day">
        <svg
          class="trace"
          viewBox={`0 0 ${WIDE} ${TALL}`}
          style={{ width: '100%', minWidth: '40rem', maxWidth: `${WIDE}px` }}
          role="img"
          aria-label={said}
        >
          <defs>
            <pattern id="to-come" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect width="6" height="6" fill="#fffdf9" />
              <line x1="0" y1="0" x2="0" y2="6" stroke="#5d564c" stroke-width="2.4" />
            </pattern>
          </defs>
          {[0, 0.25, 0.5, 0.75, 1].map((share) => (
            <g key={share}>
              <line x1={LEFT} x2={WIDE - 16} y1={y(share * top)} y2={y(share * top)} stroke="#d9d1c3" />
              <text x={LEFT - 8} y={y(share * top) + 5} text-anchor="end">
                {mass(share * top, 3)}
              </text>
            </g>
          ))}
          {load.map((d, i) => {
            const [x, width] = [LEFT + i * step + 1, Math.max(1, step - 2)]
            return (
              <g key={d.on}>
                <rect
                  x={x}
                  width={width}
                  y={y(d.hangingKg)}
                  height={Math.max(0, y(0) - y(d.hangingKg))}
                  fill="#5d564c"
                />
                <rect
                  x={x}
                  width={width}
                  y={y(d.allKg)}
                  height={Math.max(0, y(d.hangingKg) - y(d.allKg))}
                  fill="url(#to-come)"
                  stroke="#5d564c"
                  stroke-width="0.6"
                />
                {i % every === 0 && (
                  <text x={x} y={TALL - 14}>
                    {day(d.on).replace(/,? \d{4}$/, '')}
                  </text>
                )}
              </g>
            )
          })}
          {removed !== undefined && (
            <>
              <line
                x1={LEFT}
                x2={WIDE - 16}
                y1={y(removed)}
                y2={y(removed)}
                stroke="#8f1d1d"
                stroke-width="2"
                stroke-dasharray="8 4"
              />
              <text x={WIDE - 20} y={y(removed) - 6} text-anchor="end" fill="#8f1d1d">
                taken away
              </text>
            </>
          )}
        </svg>
      </div>
      <figcaption class="hint">
        Water a day. Filled: what hangs there now. Hatched: what is to come, on its turn. Dashed: what unit and fresh
        air take away at the set air.
      </figcaption>
    </figure>
  )
}
