import { InvalidInput } from '@forcemeat/craft/calculation'
import type { BlendOutput } from '@forcemeat/craft/blend/schema'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { withMeatShares } from '@forcemeat/craft/recipe/work/meat-shares'
import { useEffect } from 'preact/hooks'
import { blendRequest } from '../../../state/batch-plan.ts'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import { putRecipe } from '../../../state/recipe-draft.ts'
import { solverFault, solving, wantSolver } from '../../../state/solver.ts'
import type { LotView } from '../../../state/views.ts'
import { FormQuantity } from '../../../ui/form.tsx'
import { mass, percent, pricePerMass } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { Sheet } from '../../../ui/sheet.tsx'
import { Tick } from '../../../ui/tick.tsx'
import { BlendAnswer } from './blend-answer.tsx'
import { ByHand } from './by-hand.tsx'
import { Formulate } from './formulate.tsx'
import { NumberField } from './number-field.tsx'
import { Panel } from './panel.tsx'
import { Shared } from './shared.tsx'

type Props = { form: Form; recipe: Recipe; meatKg: number; lots: readonly LotView[] }

type Solved = { readonly out?: BlendOutput; readonly fault?: string; readonly notes: readonly string[] }

/** The blend as asked on the form; whatever cannot be asked is said. */
function solve({ form, recipe, meatKg, lots }: Props): Solved {
  const values = form.values.value
  const reader = readerOf(values)
  const confidence = reader.number('bench.blend.confidence')
  const tolerance = reader.number('bench.blend.tolerancePct')
  const { input, notes, offered } = blendRequest(recipe, meatKg, lots, values['bench.blend.held'] === 'yes', confidence)
  if (offered === 0) return { notes, fault: 'No lot of the recipe’s meats is in stock with a known composition.' }
  const materials = input.materials.map((m) => {
    const box = reader.quantity(`bench.blend.box.${m.id}`, 'mass')
    return box === undefined || box <= 0 ? m : { ...m, wholeUnitsKg: box }
  })
  if (reader.faults.length > 0) return { notes, fault: reader.faults.map((f) => f.message).join('; ') }
  if (confidence !== undefined && !(confidence >= 50 && confidence < 100))
    return { notes, fault: `A probability of ${confidence} % is asked; allowed: 50 to below 100 %.` }
  if (tolerance !== undefined && !(tolerance >= 0 && tolerance <= 50))
    return { notes, fault: `A batch ${tolerance} % off its weight is asked; allowed: 0 to 50 %.` }
  try {
    const asked = { ...input, materials, ...(tolerance === undefined ? {} : { batchTolerancePct: tolerance }) }
    return { notes, out: solving.value!.solveBlend(asked) }
  } catch (error) {
    if (error instanceof InvalidInput)
      return { notes, fault: error.faults.map((f) => `${f.path} ${f.message}`).join('; ') }
    throw error
  }
}

const headline = ({ out, fault }: Solved): string => {
  if (fault) return fault
  if (!out) return ''
  return out.status === 'optimal'
    ? `meat at ${pricePerMass(out.costPerKg)} of mix from the lots in stock, fat ${percent(out.composition?.fatPct)}`
    : 'nothing in stock holds every limit'
}

/** The cheapest weights of the lots in stock under the recipe's limits, what limits cost, and what clashes. */
export function BlendPanel(props: Props) {
  const { form, recipe, lots } = props
  useEffect(wantSolver, [])
  const solved: Solved = solving.value ? solve(props) : { notes: [] }
  const meats = new Set(recipe.meat.map((m) => m.material))
  const offered = lots.filter((l) => meats.has(l.material) && l.balanceKg > 0)
  const { out } = solved
  const take = (): void => {
    const weighed = out!.lines.flatMap((l) => {
      const lot = lots.find((x) => x.lot === l.id)
      return lot ? [{ material: lot.material, kg: l.kg }] : []
    })
    putRecipe(form, withMeatShares({ recipe, meat: weighed }).recipe)
  }
  return (
    <Panel
      title="Blend bench"
      headline={solverFault.value || (solving.value ? headline(solved) : 'fetching the solver…')}
    >
      <p class="hint">
        Limits are those of the recipe, above; each meat keeps to its own least and most where it has them.
      </p>
      <div class="row top">
        <NumberField
          form={form}
          name="bench.blend.confidence"
          label="Hold the fat limits with a probability of"
          unit="%"
          hint="Empty: on average."
          min={50}
          max={99.9999}
        />
        <NumberField
          form={form}
          name="bench.blend.tolerancePct"
          label="The batch may come out off by"
          unit="%"
          hint="For whole boxes."
          max={50}
        />
      </div>
      <Tick form={form} name="bench.blend.held" label="Keep each meat at its share of the recipe" />
      {offered.length > 0 && (
        <Sheet
          caption="Lots in stock"
          rows={offered}
          rowKey={(l) => l.lot}
          columns={[
            { head: 'Lot', names: true, keep: true, cell: (l) => l.lot },
            { head: 'Meat', cell: (l) => materialName(l.material) },
            { head: 'Left', num: true, cell: (l) => mass(l.balanceKg) },
            {
              head: 'Fat',
              num: true,
              cell: (l) =>
                `${percent(l.fatPct ?? findMaterial(l.material)?.composition.fatPct)}${l.fatSdPct === undefined ? '' : ` ± ${percent(l.fatSdPct, 2)}`}`,
            },
            { head: 'Price', num: true, cell: (l) => pricePerMass(l.costPerKg) },
            {
              head: 'Only whole boxes of',
              cell: (l) => (
                <FormQuantity
                  form={form}
                  name={`bench.blend.box.${l.lot}`}
                  kind="mass"
                  label={`Box of ${l.lot}`}
                  hideLabel
                />
              ),
            },
          ]}
        />
      )}
      {solved.fault && <p class="fault">{solved.fault}</p>}
      {out && <BlendAnswer out={out} lots={lots} />}
      {out?.status === 'optimal' && (
        <button type="button" onClick={take}>
          Put these shares into the recipe
        </button>
      )}
      {solved.notes.map((n) => (
        <p class="hint" key={n}>
          {n}
        </p>
      ))}
      {solving.value && (
        <>
          <Formulate {...props} />
          <Shared {...props} />
        </>
      )}
      <ByHand form={form} />
    </Panel>
  )
}
