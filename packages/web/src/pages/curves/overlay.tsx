import type { OverlaidBatch } from '@forcemeat/server/curves/overlay'
import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import type { CurveSeries, PlotPicture } from '../../plot/model.ts'
import { useResource } from '../../state/resource.ts'
import { system } from '../../state/who.ts'
import { BLANK, day, number, temperature } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'

/** Cores of several batches on one axis of minutes, this one drawn strongest. */
function pictureOf(batches: readonly OverlaidBatch[], batch: string, title: string): PlotPicture {
  const us = system.value === 'us'
  const shown = [...batches].toSorted((a, b) => Number(a.batch === batch) - Number(b.batch === batch))
  const minutes = [...new Set(shown.flatMap((b) => b.core.map(([m]) => m)))].toSorted((a, b) => a - b)
  const series = shown.map((b): CurveSeries => {
    let i = 0
    return {
      name: b.batch,
      kind: b.batch === batch ? 'core' : 'before',
      values: minutes.map((m) => {
        while (i < b.core.length - 1 && b.core[i + 1]![0] <= m) i++
        const [from, to] = [b.core[i]!, b.core[i + 1]]
        if (m < from[0] || (!to && m > from[0])) return null
        const c = to ? from[1] + ((to[1] - from[1]) * (m - from[0])) / (to[0] - from[0]) : from[1]
        return us ? c * 1.8 + 32 : c
      }),
    }
  })
  return { title, temperatureUnit: us ? '°F' : '°C', minutes, series, limits: [], windows: [] }
}

type Measure = { readonly name: string; readonly of: (b: OverlaidBatch) => number | undefined; readonly unit: string }

const measuresOf = (batches: readonly OverlaidBatch[]): Measure[] => {
  const stages = [...new Set(batches.flatMap((b) => b.chill.map((c) => c.shown)))]
  return [
    { name: 'Come-up', unit: 'min', of: (b) => b.comeUpMinutes },
    ...stages.map((s): Measure => ({
      name: `Chill, ${s}`,
      unit: 'min',
      of: (b) => b.chill.find((c) => c.shown === s)?.minutes,
    })),
  ]
}

const middle = (sorted: readonly number[]): number => {
  const half = sorted.length / 2
  return sorted.length % 2 === 1 ? sorted[Math.floor(half)]! : (sorted[half - 1]! + sorted[half]!) / 2
}

/** Lowest, middle and highest of the batches, and where this one stands. */
function Spread({ batches, batch }: { batches: readonly OverlaidBatch[]; batch: string }) {
  const rows = measuresOf(batches).map((m) => {
    const values = batches.flatMap((b) => m.of(b) ?? []).toSorted((a, b) => a - b)
    const own = batches.find((b) => b.batch === batch)
    return { ...m, values, own: own && m.of(own) }
  })
  const whole = (x: number | undefined): string => (x === undefined ? BLANK : `${Math.round(x)} min`)
  return (
    <Sheet
      caption={`Spread over the last ${batches.length} batches`}
      rows={rows.filter((r) => r.values.length > 0)}
      rowKey={(r) => r.name}
      columns={[
        { head: `Over ${batches.length} batches`, names: true, cell: (r) => r.name },
        { head: 'This one', num: true, cell: (r) => whole(r.own) },
        { head: 'Shortest', num: true, cell: (r) => whole(r.values[0]) },
        { head: 'Middle', num: true, cell: (r) => whole(middle(r.values)) },
        { head: 'Longest', num: true, cell: (r) => whole(r.values.at(-1)) },
        { head: 'Batches', num: true, cell: (r) => r.values.length },
      ]}
    />
  )
}

/** The last batches of the same recipe over one another, to see a house or a chiller drift. */
export function Overlay({ recipe, batch }: { recipe: string; batch: string }) {
  const found = useResource<{ batches: readonly OverlaidBatch[] }>(
    `/api/recipes/${encodeURIComponent(recipe)}/curves`,
  ).value
  const us = system.value
  const batches = found.value?.batches
  const picture = useMemo(
    () =>
      batches && batches.length > 1
        ? pictureOf(batches, batch, `Cores of the last ${batches.length} batches of ${recipe}`)
        : undefined,
    [batches, batch, us],
  )
  return (
    <section>
      <h2>Beside the last batches of this recipe</h2>
      <Shown of={found} what="the batches">
        {({ batches: all }) =>
          picture === undefined ? (
            <p class="quiet">There is no other batch of this recipe with a cook log yet.</p>
          ) : (
            <>
              <CurvePlot {...picture} height={320} />
              <Spread batches={all} batch={batch} />
              <details>
                <summary>Batch by batch</summary>
                <Sheet
                  caption="Cooks batch by batch"
                  rows={all}
                  rowKey={(b) => b.batch}
                  columns={[
                    {
                      head: 'Batch',
                      names: true,
                      cell: (b) => <a href={`/curves/${encodeURIComponent(b.batch)}/${b.curve}`}>{b.batch}</a>,
                    },
                    { head: 'Made', cell: (b) => day(b.on) },
                    ...measuresOf(all).map((m) => ({
                      head: `${m.name}, ${m.unit}`,
                      num: true,
                      cell: (b: OverlaidBatch) => {
                        const x = m.of(b)
                        return x === undefined ? BLANK : Math.round(x)
                      },
                    })),
                    { head: 'Peak', num: true, cell: (b: OverlaidBatch) => temperature(b.peakC) },
                    {
                      head: 'Log',
                      num: true,
                      cell: (b: OverlaidBatch) =>
                        b.logReduction === undefined ? BLANK : b.logReduction > 20 ? '> 20' : number(b.logReduction, 3),
                    },
                  ]}
                />
              </details>
            </>
          )
        }
      </Shown>
    </section>
  )
}
