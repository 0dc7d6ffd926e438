import type { ComponentChildren } from 'preact'
import { signal } from '@preact/signals'
import { useMemo, useRef } from 'preact/hooks'
import { materials } from '@forcemeat/craft/materials/materials'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { refuse, type Form } from '../../state/form.ts'
import { benchOf, type Price, type Worked } from '../../state/recipe-bench.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView, LotView } from '../../state/views.ts'
import { FormQuantity, FormText } from '../../ui/form.tsx'
import { Places, placesOf } from '../../ui/places.tsx'
import { Figures } from './figures.tsx'
import { Parts } from './parts.tsx'
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
}

/** Newest price of each material in stock; water from the tap is taken at none. */
export const pricesOf = (lots: readonly LotView[] | undefined): Price[] => {
  const newest = new Map<string, Price>(
    materials.filter((m) => m.category === 'water').map((m) => [m.id, { material: m.id, costPerKg: 0 }]),
  )
  for (const l of (lots ?? []).toSorted((a, b) => (a.on < b.on ? -1 : 1)))
    if (l.costPerKg !== undefined) newest.set(l.material, { material: l.material, costPerKg: l.costPerKg })
  return [...newest.values()]
}

/** The recipe bench: parts on the left, what they come to on the right, worked out anew with every key. */
export function Bench({ form, kept, kitchen, action, onSave, head, requires = [] }: Props) {
  const lots = useResource<{ lots: readonly LotView[] }>('/api/lots?limit=1000').value.value?.lots
  const prices = useMemo(() => pricesOf(lots), [lots])
  const places = placesOf(form, 'bench.places', kitchen)
  const bench = benchOf(form.values.value, kept, places, prices)
  const last = useRef<Worked | undefined>(undefined)
  if (bench.worked) last.current = bench.worked
  // What is only empty is not held against the maker before they try to save.
  const wrong = bench.faults.filter((f) => !/^is (empty|missing)/.test(f.message))
  const shown: Form = { ...form, faults: signal([...form.faults.value, ...wrong]) }
  const fields = new Set([
    ...Object.keys(form.values.value),
    'meat',
    'name',
    'recipe',
    ...bench.faults.map((f) => f.path).filter((p) => /\]\.(material|pct)$/.test(p)),
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
          .map((path) => ({ path, message: 'is empty; allowed: a text' }))
        if (bench.recipe && missing.length === 0)
          void onSave(bench.recipe, form.values.value['bench.note']?.trim() || undefined)
        else refuse(form, [...missing, ...bench.faults])
      }}
    >
      <Strip worked={last.current} stale={stale} />
      <div class="two bench">
        <div>
          {head}
          <FormText form={shown} name="name" label="Name of the recipe" required />
          <Product form={shown} />
          <Parts form={shown} worked={last.current} />
          <Process form={shown} />
        </div>
        <div>
          <div class="row top">
            <FormQuantity form={shown} name="bench.meatKg" kind="mass" label="Weights for a meat block of" />
          </div>
          <Places form={form} name="bench.places" kitchen={kitchen} legend="Judged for" />
          {last.current && <Figures worked={last.current} stale={stale} />}
        </div>
      </div>
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
