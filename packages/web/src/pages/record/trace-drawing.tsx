export type Knot = { readonly id: string; readonly label: string; readonly under?: string; readonly href?: string }
export type Thread = { readonly from: string; readonly to: string }

const WIDE = 230
const TALL = 62
const GAP = 14

/** Columns of things and the lines between them: what went into what. The table beside it says the same in words. */
export function TraceDrawing({
  columns,
  threads,
  title,
}: {
  columns: readonly { head: string; knots: readonly Knot[] }[]
  threads: readonly Thread[]
  title: string
}) {
  const most = Math.max(1, ...columns.map((c) => c.knots.length))
  const height = 30 + most * (TALL + GAP)
  const width = columns.length * WIDE + (columns.length - 1) * 70
  const at = new Map<string, { x: number; y: number }>()
  columns.forEach((c, i) => {
    const top = 30 + ((most - c.knots.length) * (TALL + GAP)) / 2
    c.knots.forEach((k, j) => at.set(k.id, { x: i * (WIDE + 70), y: top + j * (TALL + GAP) }))
  })
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label={title}>
      <svg
        class="trace"
        viewBox={`0 0 ${width} ${height}`}
        // A page narrower than the drawing shows all of its columns, as long as they can be read.
        style={{ width: '100%', minWidth: `${width * 0.74}px`, maxWidth: `${width}px` }}
        role="img"
        aria-label={title}
      >
        {threads.map((t) => {
          const [a, b] = [at.get(t.from), at.get(t.to)]
          if (!a || !b) return null
          const [x1, y1, x2, y2] = [a.x + WIDE, a.y + TALL / 2, b.x, b.y + TALL / 2]
          const mid = (x1 + x2) / 2
          return (
            <path key={`${t.from}-${t.to}`} class="thread" d={`M${x1} ${y1}C${mid} ${y1} ${mid} ${y2} ${x2} ${y2}`} />
          )
        })}
        {columns.map((c, i) => (
          <g key={c.head}>
            <text class="trace-head" x={i * (WIDE + 70)} y={16}>
              {c.head}
            </text>
            {c.knots.map((k) => {
              const p = at.get(k.id)!
              return (
                <g key={k.id}>
                  <rect class="knot" x={p.x + 0.5} y={p.y + 0.5} width={WIDE - 1} height={TALL - 1} />
                  <text x={p.x + 12} y={p.y + 26} class="knot-label">
                    {short(k.label)}
                  </text>
                  {k.under && (
                    <text x={p.x + 12} y={p.y + 47} class="knot-under">
                      {short(k.under, 30)}
                    </text>
                  )}
                </g>
              )
            })}
          </g>
        ))}
      </svg>
    </div>
  )
}

const short = (text: string, most = 25): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text)
