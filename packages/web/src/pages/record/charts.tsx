import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { day, number } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'

type Chart = {
  readonly name: string
  readonly title: string
  readonly unit: string
  readonly points: readonly { readonly batch: string; readonly on: string; readonly value: number }[]
  readonly chart?: {
    readonly centre: number
    readonly upper: number
    readonly lower: number
    readonly sigma: number
    readonly cpk?: number
    readonly capability?: {
      readonly low: number
      readonly high: number
      readonly verdict: 'capable' | 'not-capable' | 'cannot-tell'
      readonly because: string
    }
    readonly caution?: string
    readonly signals: readonly { readonly at: number; readonly rule: string; readonly because: string }[]
  }
  readonly limit?: {
    readonly rule?: string
    readonly own?: string
    readonly highest?: number
    readonly lowest?: number
  }
}

/** Control charts of a recipe over its batches. */
export function Charts() {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes')
  const chosen = useMemo(() => signal(''), [])
  const list = recipes.value.value?.recipes ?? []
  const recipe = chosen.value || list[0]?.recipe
  const charts = useResource<{ coldC: number; charts: readonly Chart[] }>(
    recipe ? `/api/charts/${encodeURIComponent(recipe)}` : undefined,
  )
  return (
    <>
      <h1>Control charts</h1>
      <p>
        What a recipe does from batch to batch. The lines are three standard deviations either way, reckoned from the
        batches themselves: they say what is usual here, not what is allowed. A ringed point asks for its cause.
      </p>
      {list.length === 0 ? (
        <p class="empty">No recipe yet.</p>
      ) : (
        <ChoiceField
          label="Recipe"
          value={recipe ?? ''}
          options={list.map((r) => ({ value: r.recipe, label: r.body.name }))}
          onInput={(v) => (chosen.value = v)}
        />
      )}
      {recipe && (
        <Shown of={charts.value} what="the charts">
          {(c) => (
            <>
              {c.charts.map((one) => (
                <OneChart key={one.name} of={one} />
              ))}
              <p class="hint">Cold is {c.coldC} °C at the core here: a mark to compare batches by, not a limit.</p>
            </>
          )}
        </Shown>
      )}
    </>
  )
}

const [WIDE, TALL, LEFT, TOP, FOOT] = [720, 240, 70, 16, 34]

function OneChart({ of: c }: { of: Chart }) {
  return (
    <section aria-label={c.title}>
      <h2>{c.title}</h2>
      {c.points.length === 0 && <p class="quiet">No batch has this figure yet.</p>}
      {c.points.length > 0 && <Drawing of={c} chart={c.chart} />}
      {c.points.length > 0 && c.chart === undefined && (
        <p class="quiet">
          The usual range is drawn from five batches on.
          {c.limit && ' Whether it keeps within its limit cannot be told from so few.'}
        </p>
      )}
      {c.chart && (
        <>
          <p>
            Centre {number(c.chart.centre)} {c.unit}; usual from {number(c.chart.lower)} to {number(c.chart.upper)}{' '}
            {c.unit}.{c.chart.caution && <span class="quiet">{c.chart.caution}</span>}
          </p>
          <Capability of={c} chart={c.chart} />
          {c.chart.signals.length > 0 && (
            <ul>
              {c.chart.signals.map((s) => (
                <li key={`${s.at} ${s.rule}`}>
                  <a href={`/batches/${encodeURIComponent(c.points[s.at]!.batch)}`}>{c.points[s.at]!.batch}</a>:{' '}
                  {s.because}
                </li>
              ))}
            </ul>
          )}
        </>
      )}
      {c.points.length > 0 && (
        <details>
          <summary>The figures</summary>
          <Sheet
            caption={`Figures: ${c.title}`}
            rows={c.points}
            rowKey={(p) => p.batch}
            columns={[
              { head: 'Batch', names: true, keep: true, cell: (p) => p.batch },
              { head: 'On', keep: true, cell: (p) => day(p.on) },
              { head: c.unit, num: true, cell: (p) => number(p.value) },
            ]}
          />
        </details>
      )}
    </section>
  )
}

const said = {
  capable: { verdict: 'pass', label: 'Keeps within it' },
  'not-capable': { verdict: 'fail', label: 'Will go beyond it' },
  'cannot-tell': { verdict: 'cannot-tell', label: 'Cannot tell' },
} as const

/** How the usual spread stands to the limit, where the figure has one. */
function Capability({ of: { limit, unit }, chart }: { of: Chart; chart: NonNullable<Chart['chart']> }) {
  if (!limit) return <p class="quiet">No limit is known for this figure here, so nothing is said of its capability.</p>
  const { cpk, capability } = chart
  return (
    <p>
      {capability && <VerdictMark {...said[capability.verdict]} />} Against{' '}
      {limit.rule === undefined ? limit.own : <a href={`/rules/${encodeURIComponent(limit.rule)}`}>its limit</a>},{' '}
      {limit.highest === undefined ? 'at least' : 'at most'} {number(limit.highest ?? limit.lowest)} {unit}:{' '}
      {cpk === undefined || !capability
        ? 'the figures are all the same, so there is no spread to hold against it.'
        : `Cpk ${number(cpk, 3)}, ${capability.because}.`}
    </p>
  )
}

function Drawing({ of: c, chart }: { of: Chart; chart: Chart['chart'] }) {
  const limit = c.limit?.highest ?? c.limit?.lowest
  const all = [
    ...c.points.map((p) => p.value),
    ...(chart ? [chart.upper, chart.lower] : []),
    ...(limit === undefined ? [] : [limit]),
  ]
  const [low, high] = [Math.min(...all), Math.max(...all)]
  const pad = (high - low) * 0.08 || 1
  const x = (i: number): number => LEFT + (i / Math.max(1, c.points.length - 1)) * (WIDE - LEFT - 20)
  const y = (v: number): number => TOP + ((high + pad - v) / (high - low + 2 * pad)) * (TALL - TOP - FOOT)
  const asks = new Set(chart?.signals.map((s) => s.at))
  const words = `${c.title} over ${c.points.length} batches; ${asks.size} ask for a cause.`
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label={`Chart: ${c.title}`}>
      <svg class="trace" viewBox={`0 0 ${WIDE} ${TALL}`} width={WIDE} height={TALL} role="img" aria-label={words}>
        {[
          ...(chart
            ? [
                { v: chart.upper, cls: 'usual', label: number(chart.upper) },
                { v: chart.centre, cls: 'thread', label: number(chart.centre) },
                { v: chart.lower, cls: 'usual', label: number(chart.lower) },
              ]
            : [...new Set([low, high])].filter((v) => v !== limit).map((v) => ({ v, cls: 'faint', label: number(v) }))),
          ...(limit === undefined ? [] : [{ v: limit, cls: 'limit', label: `limit ${number(limit)}` }]),
        ].map((l) => (
          <g key={l.cls + String(l.v)}>
            <path class={l.cls} d={`M${LEFT} ${y(l.v)}H${WIDE - 20}`} />
            <text x={LEFT - 8} y={y(l.v) + 5} text-anchor="end">
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
        <text x={LEFT} y={TALL - 8}>
          {c.points[0]!.batch}
        </text>
        {c.points.length > 1 && (
          <text x={WIDE - 20} y={TALL - 8} text-anchor="end">
            {c.points.at(-1)!.batch}
          </text>
        )}
      </svg>
    </div>
  )
}
