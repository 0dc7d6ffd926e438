import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { RecipeWork } from '@forcemeat/craft/recipe/work/work'
import type { Form } from '../../../state/form.ts'
import type { Worked } from '../../../state/recipe-bench.ts'
import type { InstrumentView, LotView } from '../../../state/views.ts'
import type { Selling } from '../prices.ts'
import { BlendPanel } from './blend.tsx'
import { CasingPanel } from './casing.tsx'
import { CostPanel } from './cost.tsx'
import { CurePanel } from './cure.tsx'
import { FermentDryPanel } from './ferment-dry.tsx'
import { FilesPanel } from './files.tsx'
import { IcePanel } from './ice.tsx'
import { SizePanel } from './size.tsx'
import { SpicePanel } from './spice.tsx'

type Props = {
  form: Form
  recipe: Recipe
  worked: Worked
  work: RecipeWork
  lots: readonly LotView[]
  /** Price the recipe sells at today, where one is in force. */
  sells: Selling | undefined
  instruments: readonly InstrumentView[]
  code: string | undefined
  version: number | undefined
  stale: boolean
}

/** All that is settled before the casing is tied, a panel each; the headlines follow every figure typed. */
export function Panels({ form, recipe, worked, work, lots, sells, instruments, code, version, stale }: Props) {
  const { meatKg } = worked.computed.totals
  return (
    <section aria-label="On the bench" class={stale ? 'panels stale' : 'panels'}>
      <h2>On the bench</h2>
      <SizePanel form={form} recipe={recipe} lots={lots} meatKg={meatKg} />
      <BlendPanel form={form} recipe={recipe} meatKg={meatKg} lots={lots} />
      <CurePanel form={form} recipe={recipe} worked={worked} instruments={instruments} />
      <SpicePanel form={form} recipe={recipe} code={code} meatKg={meatKg} instruments={instruments} />
      <IcePanel form={form} ice={work.ice} />
      <CasingPanel form={form} casing={work.casing} />
      <FermentDryPanel recipe={recipe} worked={worked} stale={stale} />
      <CostPanel form={form} recipe={recipe} cost={work.cost} meatKg={meatKg} lots={lots} sells={sells} />
      <FilesPanel form={form} recipe={recipe} code={code} version={version} />
    </section>
  )
}
