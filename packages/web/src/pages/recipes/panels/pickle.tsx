import { InvalidInput } from '@forcemeat/craft/calculation'
import { amount } from '@forcemeat/craft/cure/amount'
import { ingoing } from '@forcemeat/craft/cure/ingoing'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Form } from '../../../state/form.ts'
import { readerOf, type Reader } from '../../../state/reader.ts'
import { FormChoice, FormQuantity } from '../../../ui/form.tsx'
import { mass, number } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { Working } from '../../../ui/working.tsx'
import { NumberField } from './number-field.tsx'

type Props = { form: Form; recipe: Recipe; meatKg: number; cures: readonly string[] }

/** What is typed of the pickle; undefined while its weight, or the pump of a pumped piece, is not. */
function pickleOf(r: Reader, route: 'pumped' | 'immersed') {
  const totalKg = r.quantity('bench.pickle.totalKg', 'mass')
  const gain = r.number('bench.pickle.gainPct')
  if (totalKg === undefined || totalKg <= 0) return undefined
  if (gain === undefined || gain <= 0) return route === 'pumped' ? undefined : { totalKg }
  return route === 'pumped' ? { totalKg, pumpPct: gain } : { totalKg, pickUpPct: gain }
}

/** The outcome of a calculation, or the faults it named. */
function tried<T>(work: () => T): T | string {
  try {
    return work()
  } catch (error) {
    if (error instanceof InvalidInput) return error.faults.map((f) => `${f.path} ${f.message}`).join('; ')
    throw error
  }
}

/** The pickle of a pumped or immersed piece: what its cure brings into the meat, and how much gives the nitrite meant. */
export function Pickle({ form, recipe, meatKg, cures }: Props) {
  const route = recipe.route === 'pumped' || recipe.route === 'immersed' ? recipe.route : undefined
  if (!route || cures.length === 0) return null
  const r = readerOf(form.values.value)
  const chosen = cures.find((c) => c === form.values.value['bench.pickle.agent']) ?? cures[0]!
  const composition = findMaterial(chosen)!.agent!
  const pickle = pickleOf(r, route)
  const cureKg = r.quantity('bench.pickle.cureKg', 'mass', { unit: 'g' })
  const target = r.number('bench.pickle.targetPpm')
  const brings =
    pickle && cureKg !== undefined && cureKg > 0
      ? tried(() =>
          ingoing({
            route,
            basisKg: meatKg,
            agents: [{ name: materialName(chosen), kg: cureKg, composition }],
            pickle,
          }),
        )
      : undefined
  const asked =
    pickle && target !== undefined && target > 0
      ? tried(() => amount({ route, basisKg: meatKg, targetNitritePpm: target, agent: { composition }, pickle }))
      : undefined
  return (
    <>
      <h3>The pickle</h3>
      <p class="hint">
        For {mass(meatKg)} of green meat. Figures of the raw mix beside count the recipe's parts as they are; of a
        pickle only what the meat takes up counts.
      </p>
      <div class="row top">
        {cures.length > 1 && (
          <FormChoice
            form={form}
            name="bench.pickle.agent"
            label="Cure in the pickle"
            options={cures.map((c) => ({ value: c, label: materialName(c) }))}
          />
        )}
        <FormQuantity
          form={form}
          name="bench.pickle.totalKg"
          kind="mass"
          label="Whole pickle weighs"
          hint="Water, salt, cure and all."
        />
        <NumberField
          form={form}
          name="bench.pickle.gainPct"
          label={route === 'pumped' ? 'Pump' : 'Pick-up'}
          unit="%"
          above={0}
          max={200}
          hint={route === 'pumped' ? 'Percent of the green weight.' : 'Empty: left until meat and pickle are even.'}
        />
        <FormQuantity form={form} name="bench.pickle.cureKg" kind="mass" unit="g" label="Cure in the whole pickle" />
        <NumberField form={form} name="bench.pickle.targetPpm" label="Nitrite meant" unit="ppm" above={0} max={10000} />
      </div>
      {typeof brings === 'string' && <p class="fault">{brings}</p>}
      {brings !== undefined && typeof brings !== 'string' && (
        <Working
          figure={`brings ${number(brings.nitritePpm, 4)} ppm nitrite and ${number(brings.nitratePpm, 4)} ppm nitrate into the meat`}
          steps={brings.working}
        />
      )}
      {typeof asked === 'string' && <p class="fault">{asked}</p>}
      {asked !== undefined && typeof asked !== 'string' && (
        <Working
          figure={`${number(target, 4)} ppm takes ${mass(asked.agentKg, 4)} of ${materialName(chosen)} in the whole pickle`}
          steps={asked.working}
        />
      )}
    </>
  )
}
