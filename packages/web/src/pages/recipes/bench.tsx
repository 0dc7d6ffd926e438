import type { ComponentChildren } from 'preact'
import { signal } from '@preact/signals'
import { useMemo, useRef } from 'preact/hooks'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { refuse, type Form } from '../../state/form.ts'
import type { RecipeWork } from '@forcemeat/craft/recipe/work/work'
import { benchOf, type Worked } from '../../state/recipe-bench.ts'
import { workOf } from '../../state/recipe-work.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView, LotView } from '../../state/views.ts'
import { FormQuantity, FormText } from '../../ui/form.tsx'
import { Places, placesOf } from '../../ui/places.tsx'
import { Figures } from './figures.tsx'
import { Parts } from './parts.tsx'
import { Panels } from './panels/panels.tsx'
import { ReadFile } from './panels/files.tsx'
import { pricesOf, sellingPriceOf, type PricesListed } from './prices.ts'
import { Process } from './process.tsx'
import { Product } from './product.tsx'
import { Strip } from './strip.tsx'

type Props = {
  form: Form
  kept?: Recipe
  kitchen: KitchenView
  action: string
  onSave: (recipe: Recipe, note: string | undefined) => Promise<void>
  head?: ComponentChildren
  /** Fields of `head` that may not be empty. */
  requires?: readonly string[]
  /** Code and version the recipe has in the record, where it has. */
  code?: string
  version?: number
}

type Standing = { readonly recipe: Recipe; readonly worked: Worked; readonly work: RecipeWork }

/** The recipe bench: parts on the left, what they come to on the right, worked out anew with every key. */
export function Bench({ form, kept, kitchen, action, onSave, head, requires = [], code, version }: Props) {
  const lots = useResource<{ lots: readonly LotView[] }>('/api/lots?limit=1000').value.value?.lots
  const lists = useResource<PricesListed>('/api/prices').value.value
  const listed = lists?.prices
  const sells = useMemo(() => sellingPriceOf(lists?.sellingPrices ?? [], code), [lists, code])
  const prices = useMemo(() => pricesOf(lots, listed), [lots, listed])
  const places = placesOf(form, 'bench.places', kitchen)
  const bench = benchOf(form.values.value, kept, places, prices)
  const last = useRef<Standing | undefined>(undefined)
  const done =
    bench.recipe && bench.worked
      ? workOf(form.values.value, bench.recipe, bench.worked.computed, prices, sells?.pricePerKg)
      : undefined
  if (bench.recipe && bench.worked && done?.work)
    last.current = { recipe: bench.recipe, worked: bench.worked, work: done.work }
  const stands = last.current
  // What is only empty is not held against the maker before they try to save.
  const wrong = [...bench.faults, ...(done?.faults ?? [])].filter((f) => !/^is (empty|missing)/.test(f.message))
  const shown: Form = { ...form, faults: signal([...form.faults.value, ...wrong]) }
  const fields = new Set([
    ...Object.keys(form.values.value),
    'meat',
    'name',
    'recipe',
    ...bench.faults.map((f) => f.path).filter((p) => /\]\.(material|pct)$/.test(p)),
    ...(done?.faults ?? []).map((f) => f.path).filter((p) => p.startsWith('bench.')),
  ])
  const rest = shown.faults.value.filter((f) => !fields.has(f.path))
  const stale = bench.worked === undefined
  return (
    <form
      noValidate
      aria-label="Recipe bench"
      onSubmit={(e) => {
        e.preventDefault()
        const missing = requires
          .filter((name) => !form.values.value[name]?.trim())
          .map((path) => ({ path, message: 'is empty: fill it in' }))
        if (bench.recipe && missing.length === 0)
          void onSave(bench.recipe, form.values.value['bench.note']?.trim() || undefined)
        else refuse(form, [...missing, ...bench.faults])
      }}
    >
      <Strip worked={stands?.worked} stale={stale} />
      <div class="two bench">
        <div>
          {head}
          <FormText form={shown} name="name" label="Name of the recipe" required />
          <Product form={shown} />
          <Parts form={shown} worked={stands?.worked} />
          <Process form={shown} />
        </div>
        <div>
          <div class="row top">
            <FormQuantity form={shown} name="bench.meatKg" kind="mass" label="Weights for a meat block of" />
          </div>
          <Places form={form} name="bench.places" kitchen={kitchen} legend="Judged for" />
          {stands && <Figures worked={stands.worked} stale={stale} />}
        </div>
      </div>
      {stands ? (
        <Panels
          form={shown}
          {...stands}
          lots={lots ?? []}
          sells={sells}
          instruments={kitchen.instruments}
          code={code}
          version={version}
          stale={stale}
        />
      ) : (
        <ReadFile form={form} recipe={undefined} />
      )}
      {rest.length > 0 && (
        <div class="faults" role="alert" tabIndex={-1}>
          <ul>
            {rest.map((f) => (
              <li key={f.path + f.message}>
                <strong>{f.path} </strong>
                {f.message}
              </li>
            ))}
          </ul>
        </div>
      )}
      <FormText form={form} name="bench.note" label="What changed, for the record" />
      <p class="actions">
        <button type="submit" class="main" disabled={form.sending.value}>
          {form.sending.value ? 'Recording…' : action}
        </button>
        {!bench.recipe && (
          <span class="quiet">Nothing is saved while a field cannot be read. What you typed stays here.</span>
        )}
        <span role="status" class="done">
          {form.done.value}
        </span>
      </p>
    </form>
  )
}
