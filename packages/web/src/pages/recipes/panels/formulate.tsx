import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import { formulateInput, type Formulated } from '@forcemeat/craft/recipe/formulate-schema'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Form } from '../../../state/form.ts'
import { compact, readerOf } from '../../../state/reader.ts'
import { putRecipe } from '../../../state/recipe-draft.ts'
import { solving } from '../../../state/solver.ts'
import type { LotView } from '../../../state/views.ts'
import { FormQuantity } from '../../../ui/form.tsx'
import { percent, pricePerMass } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { Sheet } from '../../../ui/sheet.tsx'
import { Tick } from '../../../ui/tick.tsx'
import { VerdictMark } from '../../../ui/verdict.tsx'
import { pricesOf } from '../prices.ts'
import { Clash } from './blend-answer.tsx'
import { NumberField } from './number-field.tsx'
import { Panel } from './panel.tsx'

const targets = [
  ['fat', 'maxPct', 'Fat at most'],
  ['fat', 'minPct', 'Fat at least'],
  ['protein', 'minPct', 'Protein at least'],
  ['addedWater', 'maxPct', 'Added water at most'],
  ['meat', 'minPct', 'Meat at least'],
] as const

type Props = { form: Form; recipe: Recipe; meatKg: number; lots: readonly LotView[] }
type Asked = { readonly out?: Formulated; readonly fault?: string }

function ask({ form, recipe, meatKg, lots }: Props): Asked {
  const values = form.values.value
  const r = readerOf(values)
  const limits = new Map<string, Record<string, unknown>>()
  for (const [of, side] of targets) {
    const value = r.quantity(`bench.end.${of}.${side}`, 'percent')
    if (value !== undefined) limits.set(of, { ...limits.get(of), of, [side]: value })
  }
  const allow = [...new Set([...recipe.meat, ...recipe.additions].map((p) => p.material))]
    .filter((m) => values[`bench.end.allow.${m}`] === 'yes')
    .map((material) => ({ material }))
  const maxCostPerKg = r.number('bench.end.cost')
  if (r.faults.length > 0) return { fault: r.faults.map((f) => f.message).join('; ') }
  if (limits.size === 0 || allow.length === 0) return {}
  try {
    const input = parseOrThrow(formulateInput, {
      recipe,
      meatKg,
      prices: pricesOf(lots),
      targets: [...limits.values()],
      allow,
      ...compact({ maxCostPerKg }),
    })
    return { out: solving.value!.formulateRecipe(input) }
  } catch (error) {
    if (error instanceof InvalidInput) return { fault: error.faults.map((f) => `${f.path} ${f.message}`).join('; ') }
    throw error
  }
}

/** From the finished product back to the recipe: what may change, changes. */
export function Formulate(props: Props) {
  const { form, recipe } = props
  const { out, fault } = ask(props)
  const parts = [...new Set([...recipe.meat, ...recipe.additions].map((p) => p.material))]
  return (
    <Panel title="From the finished product back">
      <p class="hint">Of the finished product, after the loss the recipe states; the meat of the raw mix.</p>
      <div class="row top">
        {targets.map(([of, side, label]) => (
          <FormQuantity
            key={of + side}
            form={form}
            name={`bench.end.${of}.${side}`}
            kind="percent"
            label={label}
            allowNegative={of === 'addedWater'}
          />
        ))}
        <NumberField form={form} name="bench.end.cost" label="Raw cost per kg at most" max={1e6} />
      </div>
      <fieldset>
        <legend>May change</legend>
        {parts.map((m) => (
          <Tick key={m} form={form} name={`bench.end.allow.${m}`} label={materialName(m)} />
        ))}
      </fieldset>
      {fault && <p class="fault">{fault}</p>}
      {out && out.status !== 'optimal' && <Clash out={out} />}
      {out?.recipe && (
        <>
          <p>
            <VerdictMark verdict="pass" label="Every target holds" /> {out.because}: raw {pricePerMass(out.costPerKg)}.
          </p>
          <Sheet
            caption="What changes"
            rows={out.changes}
            rowKey={(c) => c.material}
            columns={[
              { head: 'Part', names: true, cell: (c) => materialName(c.material) },
              { head: 'Now', num: true, cell: (c) => percent(c.beforePct, 4) },
              { head: 'Then', num: true, cell: (c) => percent(c.afterPct, 4) },
            ]}
          />
          <button type="button" onClick={() => putRecipe(form, out.recipe!)}>
            Put it in the recipe
          </button>
        </>
      )}
    </Panel>
  )
}
