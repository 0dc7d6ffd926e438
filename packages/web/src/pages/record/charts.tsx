import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { useResource } from '../../state/resource.ts'
import { mayManage } from '../../state/session.ts'
import type { KitchenView, RecipeListed } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { day, number, temperature } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import { Drawing } from './chart-drawing.tsx'
import { boundWords, inScreenUnits, type Chart } from './chart-figures.ts'
import { RecipeLimits } from './recipe-limits.tsx'

/** Control charts of a recipe over its batches. */
export function Charts() {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes')
  const kitchen = useResource<KitchenView>('/api/kitchen').value.value?.kitchen
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
          {(c) => <AllCharts charts={c.charts} coldC={c.coldC} />}
        </Shown>
      )}
      {recipe && kitchen && mayManage.value && (
        <RecipeLimits key={`${recipe} ${kitchen.seq ?? 0}`} kitchen={kitchen} recipe={recipe} />
      )}
    </>
  )
}

function AllCharts({ charts, coldC }: { charts: readonly Chart[]; coldC: number }) {
  const none = charts.filter((c) => c.points.length === 0)
  const some = charts.filter((c) => c.points.length > 0)
  return (
    <>
      {some.map((one) => (
        <OneChart key={one.name} of={inScreenUnits(one)} />
      ))}
      {some.length === 0 && <p class="empty">No batch of this recipe has a figure to chart yet.</p>}
      {none.length > 0 && (
        <>
          <h2>No batch has these figures yet</h2>
          <ul>
            {none.map((c) => (
              <li key={c.name}>{c.title}</li>
            ))}
          </ul>
        </>
      )}
      <p class="hint">Cold is {temperature(coldC)} at the core here: a mark to compare batches by, not a limit.</p>
    </>
  )
}

function OneChart({ of: c }: { of: Chart }) {
  return (
    <section aria-label={c.title}>
      <h2>{c.title}</h2>
      <Drawing of={c} />
      {c.chart === undefined ? (
        <p class="quiet">
          The usual range is drawn from five batches on.
          {c.limit && ' Whether it keeps within its limit cannot be told from so few.'}
        </p>
      ) : (
        <p>
          Centre {number(c.chart.centre)} {c.unit}; usual from {number(c.chart.lower)} to {number(c.chart.upper)}{' '}
          {c.unit}. {c.chart.caution && <span class="quiet">{c.chart.caution}</span>}
        </p>
      )}
      {c.aim !== undefined && (
        <p class="quiet">
          The recipe aims at {number(c.aim)} {c.unit}: an aim, not a limit.
        </p>
      )}
      <Capability of={c} />
      {c.chart && <Signals of={c} signals={c.chart.signals} />}
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
    </section>
  )
}

/** Points in sight before the rest is folded away. */
const IN_SIGHT = 5

type Signal = NonNullable<Chart['chart']>['signals'][number]

/** The points that ask for a cause, the newest first. */
function Signals({ of: c, signals }: { of: Chart; signals: readonly Signal[] }) {
  const rows = (some: readonly Signal[]) => (
    <ul>
      {some.map((s) => (
        <li key={`${s.at} ${s.rule}`}>
          <a href={`/batches/${encodeURIComponent(c.points[s.at]!.batch)}`}>{c.points[s.at]!.batch}</a>: {s.because}
        </li>
      ))}
    </ul>
  )
  const newest = signals.toSorted((a, b) => b.at - a.at)
  if (newest.length === 0) return null
  return (
    <>
      {rows(newest.slice(0, IN_SIGHT))}
      {newest.length > IN_SIGHT && (
        <details>
          <summary>{newest.length - IN_SIGHT} more that ask for a cause</summary>
          {rows(newest.slice(IN_SIGHT))}
        </details>
      )}
    </>
  )
}

const said = {
  capable: { verdict: 'pass', label: 'Keeps within it' },
  'not-capable': { verdict: 'fail', label: 'Will go beyond it' },
  'cannot-tell': { verdict: 'cannot-tell', label: 'Cannot tell' },
} as const

/** How the usual spread stands to the limit; where none is recorded, what would let it be told. */
function Capability({ of: { limit, unit, chart, settle } }: { of: Chart }) {
  if (!limit)
    return (
      <>
        <p>
          <VerdictMark verdict="cannot-tell" /> No limit is recorded for this figure: its capability cannot be told.
        </p>
        {settle && (
          <p class="settle">
            <strong>Would settle it:</strong> {settle}.
          </p>
        )}
      </>
    )
  if (!chart) return null
  const { cpk, capability } = chart
  return (
    <p>
      {capability && <VerdictMark {...said[capability.verdict]} />} Against{' '}
      {limit.rule === undefined ? limit.own : <a href={`/rules/${encodeURIComponent(limit.rule)}`}>its limit</a>},{' '}
      {boundWords(limit, unit)}
      {limit.unread && ', which nobody has read in its source'}:{' '}
      {cpk === undefined || !capability
        ? 'the figures are all the same, so there is no spread to hold against it.'
        : `Cpk ${number(cpk, 3)}, ${capability.because}.`}
    </p>
  )
}
