import { nitriteCaution } from '@forcemeat/craft/cure/caution'
import { strengthOf } from '@forcemeat/craft/cure/agent'
import { findMaterial, materials } from '@forcemeat/craft/materials/materials'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { withTotalSalt } from '@forcemeat/craft/recipe/work/total-salt'
import { swapCure } from '@forcemeat/craft/recipe/work/swap-cure'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import type { Worked } from '../../../state/recipe-bench.ts'
import { putRecipe } from '../../../state/recipe-draft.ts'
import type { InstrumentView } from '../../../state/views.ts'
import { FormChoice, FormQuantity } from '../../../ui/form.tsx'
import { editable, mass, number, percent } from '../../../ui/figures.ts'
import { materialName } from '../../../ui/material-field.tsx'
import { VerdictMark } from '../../../ui/verdict.tsx'
import { Working } from '../../../ui/working.tsx'
import { Panel } from './panel.tsx'
import { Pickle } from './pickle.tsx'
import { ScaleDecides } from './scale-decides.tsx'

const carries = (id: string): boolean => {
  const agent = findMaterial(id)?.agent
  if (!agent) return false
  const { nitrite, nitrate } = strengthOf(agent)
  return nitrite > 0 || nitrate > 0
}
const cures = materials.filter((m) => carries(m.id)).map((m) => ({ value: m.id, label: m.name }))

type Props = { form: Form; recipe: Recipe; worked: Worked; instruments: readonly InstrumentView[] }

/** The cure of the recipe: exchanged, its salt taken out, its dose held against the scale. */
export function CurePanel({ form, recipe, worked, instruments }: Props) {
  const { cure } = worked.computed
  const inIt = recipe.additions.filter((a) => carries(a.material))
  return (
    <Panel
      title="Cure bench"
      headline={
        inIt.length === 0
          ? 'no cure in the recipe'
          : cure.known
            ? `${number(cure.nitritePpm, 4)} ppm nitrite in; ${mass(cure.saltFromCureKg)} of the salt comes with the cure`
            : cure.because
      }
    >
      <TotalSalt form={form} recipe={recipe} worked={worked} />
      {inIt.length > 0 && (
        <>
          <p class="caution">{nitriteCaution}</p>
          <Pickle
            form={form}
            recipe={recipe}
            meatKg={worked.computed.totals.meatKg}
            cures={inIt.map((a) => a.material)}
          />
          <Swap form={form} recipe={recipe} worked={worked} from={inIt.map((a) => a.material)} />
          <ScaleDecides form={form} recipe={recipe} worked={worked} instruments={instruments} />
        </>
      )}
    </Panel>
  )
}

/** All salt the maker wants, and one click that takes what the cure carries out of the plain salt. */
function TotalSalt({ form, recipe, worked }: Pick<Props, 'form' | 'recipe' | 'worked'>) {
  const name = 'bench.cure.totalSaltPct'
  const wanted = readerOf(form.values.value).quantity(name, 'percent')
  const out =
    wanted === undefined || wanted <= 100
      ? withTotalSalt({ recipe, ...(wanted === undefined ? {} : { totalSaltPct: wanted }) })
      : undefined
  const take = (): void => {
    if (!out?.recipe) return
    putRecipe(form, out.recipe)
    form.set(name, `${editable(Number(out.totalSaltPct.toPrecision(6)))} %`)
  }
  return (
    <>
      <h3>Salt with the cure</h3>
      <div class="row top">
        <FormQuantity
          form={form}
          name={name}
          kind="percent"
          label="All salt of the meat, cure and all"
          hint={`Now ${percent(worked.computed.cure.addedSaltPctOfMeat, 4)}. Empty: the plain salt as it stands is meant to be all.`}
        />
        <p>
          <button type="button" disabled={!out?.possible} onClick={take}>
            Take the cure's salt out of the plain salt
          </button>
        </p>
      </div>
      {out && <p class={out.possible ? 'hint' : 'fault'}>{out.because}.</p>}
    </>
  )
}

/** Another cure at the same nitrite, or why not. */
function Swap({ form, recipe, worked, from }: Pick<Props, 'form' | 'recipe' | 'worked'> & { from: readonly string[] }) {
  const values = form.values.value
  const out = from.find((f) => f === values['bench.cure.from']) ?? from[0]!
  const to = values['bench.cure.to'] ?? ''
  const swapped =
    to && to !== out ? swapCure({ recipe, meatKg: worked.computed.totals.meatKg, from: out, to }) : undefined
  return (
    <>
      <h3>Another cure in its place</h3>
      <div class="row top">
        {from.length > 1 && (
          <FormChoice
            form={form}
            name="bench.cure.from"
            label="Take out"
            options={from.map((f) => ({ value: f, label: materialName(f) }))}
          />
        )}
        <FormChoice
          form={form}
          name="bench.cure.to"
          label="Put in"
          options={[{ value: '', label: 'keep what is there' }, ...cures.filter((c) => c.value !== out)]}
        />
      </div>
      {swapped && (
        <>
          <p>
            <VerdictMark
              verdict={swapped.possible ? 'pass' : 'fail'}
              label={swapped.possible ? 'Can be exchanged' : 'Cannot be exchanged'}
            />{' '}
            {swapped.because}.
          </p>
          <Working figure="Working" steps={swapped.working} />
          {swapped.recipe && (
            <button type="button" onClick={() => putRecipe(form, swapped.recipe!)}>
              Exchange it in the recipe
            </button>
          )}
        </>
      )}
    </>
  )
}
