import { useMemo } from 'preact/hooks'
import { jurisdictions, type Recipe } from '@forcemeat/craft/recipe/schema'
import { compareFindings } from '@forcemeat/rulebook/recipe/compare-findings'
import { workOut, type Worked } from '../../state/recipe-bench.ts'
import { useResource } from '../../state/resource.ts'
import type { Finding, KitchenView, LotView } from '../../state/views.ts'
import { mass, number, percent, pricePerMass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { placeName, spoken } from '../../ui/words.ts'
import { leavesOf } from '../record/leaves.ts'
import { VerdictMark } from '../../ui/verdict.tsx'
import type { RecipeView } from './edit.tsx'
import { pricesOf } from './prices.ts'

type Row = { what: string; a: string; b: string }

const verdicts = { pass: 'meets', fail: 'fails', 'cannot-tell': 'cannot tell' } as const

/** Two versions side by side: what was written, and what it came to. Rows that differ say so. */
export function CompareVersions({
  recipe,
  a,
  b,
  kitchen,
}: {
  recipe: string
  a: string | null
  b: string | null
  kitchen: KitchenView
}) {
  const found = useResource<RecipeView>(`/api/recipes/${encodeURIComponent(recipe)}`)
  const lots = useResource<{ lots: readonly LotView[] }>('/api/lots?limit=1000').value.value?.lots
  const prices = useMemo(() => pricesOf(lots), [lots])
  const places = jurisdictions.filter((j) => kitchen.kitchen?.jurisdictions.includes(j))
  return (
    <>
      <p>
        <a href={`/recipes/${encodeURIComponent(recipe)}`}>Versions of this recipe</a>
      </p>
      <Shown of={found.value} what="the recipe">
        {(view) => {
          const [one, two] = [a, b].map((n) => view.versions.find((v) => v.version === Number(n))?.body)
          if (!one || !two) return <h1>Recipe {recipe} does not have both versions</h1>
          const came = [one, two].map((r) => workOut(r, 10, places, prices)) as [Worked, Worked]
          return (
            <>
              <h1>
                Version {a} beside version {b}
              </h1>
              <Side
                caption="What it comes to"
                a={a}
                b={b}
                rows={figures(came[0]).map((r, i) => ({ ...r, b: figures(came[1])[i]!.a }))}
              />
              <Turned a={a} b={b} before={came[0].findings} after={came[1].findings} />
              <Side caption="What is written" a={a} b={b} rows={written(one, two)} />
            </>
          )
        }}
      </Shown>
    </>
  )
}

const figures = ({ computed: c, places, findings }: Worked): Row[] => [
  { what: 'Fat', a: percent(c.composition.fatPct), b: '' },
  { what: 'Protein', a: percent(c.composition.proteinPct), b: '' },
  { what: 'Water', a: percent(c.composition.waterPct), b: '' },
  { what: 'Collagen', a: percent(c.composition.collagenPct), b: '' },
  { what: 'Added water', a: percent(c.addedWaterPct), b: '' },
  { what: 'Salt of the mix', a: percent(c.cure.addedSaltPctOfTotal), b: '' },
  { what: 'Ingoing nitrite, ppm', a: number(c.cure.nitritePpm), b: '' },
  { what: 'Ingoing nitrate, ppm', a: number(c.cure.nitratePpm), b: '' },
  { what: 'Seasoning of the mix', a: percent(c.spicePct), b: '' },
  { what: 'Whole mix from 10 kg of meat', a: mass(c.totals.totalKg), b: '' },
  { what: 'Finished', a: mass(c.totals.finishedKg), b: '' },
  { what: 'Cost, raw', a: pricePerMass(c.cost.perKgRaw), b: '' },
  { what: 'Cost, finished', a: pricePerMass(c.cost.perKgFinished), b: '' },
  ...places.map((p) => ({ what: placeName(p.jurisdiction), a: verdicts[p.verdict], b: '' })),
  { what: 'Findings that fail', a: String(findings.filter((f) => f.verdict === 'fail').length), b: '' },
]

const said = (f: Finding | undefined) => (f ? <VerdictMark verdict={f.verdict} /> : 'not asked')

/** Findings that turned, or moved without turning. */
function Turned({
  a,
  b,
  before,
  after,
}: {
  a: string | null
  b: string | null
  before: readonly Finding[]
  after: readonly Finding[]
}) {
  const rows = compareFindings(before, after)
  if (rows.length === 0) return <p class="hint">Every finding stands as it did.</p>
  return (
    <>
      <h2>Findings that changed</h2>
      <Sheet
        caption="Findings that changed"
        rows={rows}
        rowKey={(r) => r.rule + r.jurisdiction}
        columns={[
          { head: 'Rule', names: true, cell: (r) => <a href={`/rules/${encodeURIComponent(r.rule)}`}>{r.title}</a> },
          { head: 'Place', cell: (r) => r.jurisdiction },
          { head: `Version ${a}`, cell: (r) => said(r.before) },
          { head: `Version ${b}`, cell: (r) => said(r.after) },
          { head: 'Now', cell: (r) => r.after?.because ?? 'no longer asked' },
        ]}
      />
    </>
  )
}

function written(one: Recipe, two: Recipe): Row[] {
  const [a, b] = [new Map(texts(one)), new Map(texts(two))]
  return [...new Set([...a.keys(), ...b.keys()])].map((what) => ({
    what,
    a: a.get(what) ?? '–',
    b: b.get(what) ?? '–',
  }))
}

/** Parts under their material's name, so that a part that only moved does not show as changed. */
function texts({ meat, additions, ...rest }: Recipe): [string, string][] {
  return [
    ...[...meat, ...additions].map((p): [string, string] => [materialName(p.material), percent(p.pct, 5)]),
    ...leavesOf(rest).map(([path, v]): [string, string] => [
      spoken(path),
      typeof v === 'number' ? number(v, 6) : String(v),
    ]),
  ]
}

function Side({ caption, a, b, rows }: { caption: string; a: string | null; b: string | null; rows: readonly Row[] }) {
  return (
    <>
      <h2>{caption}</h2>
      <Sheet
        caption={caption}
        rows={rows}
        rowKey={(r) => r.what}
        columns={[
          { head: 'What', names: true, cell: (r) => r.what },
          { head: `Version ${a}`, cell: (r) => r.a },
          { head: `Version ${b}`, cell: (r) => (r.a === r.b ? r.b : <strong>{r.b}</strong>) },
          { head: 'Changed', cell: (r) => (r.a === r.b ? '' : 'changed') },
        ]}
      />
    </>
  )
}
