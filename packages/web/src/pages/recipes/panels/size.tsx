import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import { recipeScaleInput, scaleRecipe, type RecipeScaled } from '@forcemeat/craft/recipe/scale'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import type { LotView } from '../../../state/views.ts'
import { FormChoice, FormQuantity } from '../../../ui/form.tsx'
import { editable, mass, number } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { Working } from '../../../ui/working.tsx'
import { NumberField } from './number-field.tsx'
import { Panel, Told } from './panel.tsx'

const ways = [
  { value: 'meatKg', label: 'the meat block' },
  { value: 'mixKg', label: 'the whole mix' },
  { value: 'finishedKg', label: 'the finished weight' },
  { value: 'links', label: 'a number of links' },
  { value: 'stock', label: 'what is in stock' },
] as const

type Asked = { readonly out?: RecipeScaled; readonly fault?: string }

function ask(form: Form, recipe: Recipe, lots: readonly LotView[]): Asked {
  const values = form.values.value
  const way = values['bench.size.way'] ?? 'meatKg'
  const r = readerOf(values)
  const to = ((): unknown => {
    if (way === 'stock') return { stock: lots.map((l) => ({ material: l.material, kg: Math.max(0, l.balanceKg) })) }
    if (way === 'links') {
      const links = r.number('bench.size.links')
      return links === undefined ? undefined : { links }
    }
    const kg = r.quantity('bench.size.kg', 'mass')
    return kg === undefined ? undefined : { [way]: kg }
  })()
  if (r.faults.length > 0) return { fault: r.faults.map((f) => f.message).join('; ') }
  if (to === undefined || (way === 'stock' && lots.length === 0)) return {}
  try {
    return { out: scaleRecipe(parseOrThrow(recipeScaleInput, { recipe, to })) }
  } catch (error) {
    if (error instanceof InvalidInput) return { fault: error.faults.map((f) => f.message).join('; ') }
    throw error
  }
}

/** The recipe to a size: meat, mix, finished weight, links, or as far as the stock goes. */
export function SizePanel({
  form,
  recipe,
  lots,
  meatKg,
}: {
  form: Form
  recipe: Recipe
  lots: readonly LotView[]
  meatKg: number
}) {
  const way = form.values.value['bench.size.way'] ?? 'meatKg'
  const { out, fault } = ask(form, recipe, lots)
  return (
    <Panel title="Size" headline={`now for ${mass(meatKg)} of meat`}>
      <div class="row top">
        <FormChoice form={form} name="bench.size.way" label="Make it to" options={ways} />
        {way === 'links' && <NumberField form={form} name="bench.size.links" label="Links" min={1} max={10000000} />}
        {way !== 'links' && way !== 'stock' && (
          <FormQuantity form={form} name="bench.size.kg" kind="mass" label="Weight wanted" />
        )}
      </div>
      {fault && <p class="fault">{fault}</p>}
      {out && (
        <>
          <Told
            rows={[
              ['Meat block', mass(out.meatKg)],
              ['Whole mix', mass(out.mixKg)],
              ['Finished', mass(out.finishedKg)],
              ['Links', number(out.links)],
            ]}
          />
          {out.limitedBy && <p>{materialName(out.limitedBy)} runs out first.</p>}
          {out.notListed && out.notListed.length > 0 && (
            <p class="hint">Not in stock, and not counted: {out.notListed.map(materialName).join(', ')}.</p>
          )}
          <Working figure="Working" steps={out.working} />
          <button
            type="button"
            onClick={() => form.set('bench.meatKg', `${editable(Number(out.meatKg.toPrecision(6)))} kg`)}
          >
            Work at this size
          </button>
        </>
      )}
    </Panel>
  )
}
