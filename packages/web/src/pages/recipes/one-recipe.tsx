import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { jurisdictions } from '@forcemeat/craft/recipe/schema'
import { go } from '../../router.ts'
import { workOut } from '../../state/recipe-bench.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { day, percent } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { RecipeCautions } from '../../ui/recipe-cautions.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import { placeName } from '../../ui/words.ts'
import { personName } from '../record/about.ts'
import type { RecipeView } from './edit.tsx'

/** One recipe: its newest version, where that may be sold, and every version. */
export function OneRecipe({ recipe, kitchen }: { recipe: string; kitchen: KitchenView }) {
  const found = useResource<RecipeView>(`/api/recipes/${encodeURIComponent(recipe)}`)
  return (
    <>
      <p>
        <a href="/recipes">All recipes</a>
      </p>
      <Shown of={found.value} what="the recipe">
        {(view) => <Told view={view} kitchen={kitchen} />}
      </Shown>
    </>
  )
}

function Told({ view, kitchen }: { view: RecipeView; kitchen: KitchenView }) {
  const newest = view.versions.find((v) => v.version === view.newest)!
  const places = jurisdictions.filter((j) => kitchen.kitchen?.jurisdictions.includes(j))
  const worked = useMemo(() => workOut(newest.body, 10, places, []), [newest, places.join(' ')])
  const base = `/recipes/${encodeURIComponent(view.recipe)}`
  return (
    <>
      <div class="head-line">
        <h1>{newest.body.name}</h1>
        <span class="actions">
          <a class="button main" href={`/batches/plan?recipe=${encodeURIComponent(view.recipe)}`}>
            Plan a batch of it
          </a>
          <a class="button" href={`${base}/edit`}>
            Work on it
          </a>
        </span>
      </div>
      <p class="where">
        {view.recipe}, version {newest.version}; {newest.body.kind}
        {newest.body.smoked ? ', smoked' : ''}
        {newest.body.readyToEat ? ', eaten as sold' : ''}
      </p>
      <RecipeCautions recipe={newest.body} />
      <ul class="entries">
        {worked.places.map((p) => (
          <li key={p.jurisdiction}>
            <VerdictMark verdict={p.verdict} /> <strong>{placeName(p.jurisdiction)}</strong> {p.says}
          </li>
        ))}
      </ul>
      <Sheet
        caption="Parts, percent of the meat block"
        rows={worked.computed.lines}
        rowKey={(l) => `${l.role} ${l.material} ${l.pctOfMeat}`}
        columns={[
          { head: 'Part', names: true, cell: (l) => materialName(l.material) },
          { head: 'Role', cell: (l) => (l.role === 'meat' ? 'meat block' : 'on top') },
          { head: '% of meat', num: true, cell: (l) => percent(l.pctOfMeat, 4) },
          { head: '% of mix', num: true, cell: (l) => percent(l.pctOfTotal, 4) },
        ]}
      />
      <h2>Versions</h2>
      {view.versions.length > 1 && <Choose view={view} />}
      <Sheet
        caption="Versions"
        rows={view.versions.toReversed()}
        rowKey={(v) => v.version}
        columns={[
          {
            head: 'Version',
            names: true,
            cell: (v) => <a href={`${base}/edit?version=${v.version}`}>version {v.version}</a>,
          },
          { head: 'Saved', keep: true, cell: (v) => day(v.at) },
          { head: 'By', cell: (v) => personName(kitchen, v.by) },
          { head: 'What changed', cell: (v) => v.note ?? '' },
          { head: 'Entry', num: true, cell: (v) => <a href={`/record/${v.seq}`}>{v.seq}</a> },
        ]}
      />
    </>
  )
}

function Choose({ view }: { view: RecipeView }) {
  const a = useMemo(() => signal(String(view.newest - 1)), [])
  const b = useMemo(() => signal(String(view.newest)), [])
  const options = view.versions.map((v) => ({ value: String(v.version), label: `version ${v.version}` }))
  return (
    <div class="row">
      <ChoiceField label="Compare" value={a.value} options={options} onInput={(v) => (a.value = v)} />
      <ChoiceField label="with" value={b.value} options={options} onInput={(v) => (b.value = v)} />
      <p>
        <button
          type="button"
          onClick={() => go(`/recipes/${encodeURIComponent(view.recipe)}/compare?a=${a.value}&b=${b.value}`)}
        >
          Compare versions
        </button>
      </p>
    </div>
  )
}
