import { useMemo } from 'preact/hooks'
import { go } from '../../router.ts'
import type { Form } from '../../state/form.ts'
import type { RecipeListed } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { recipeTexts } from './cook-form.ts'

const species = [
  { value: 'meat', label: 'no poultry in it' },
  { value: 'chicken', label: 'chicken' },
  { value: 'turkey', label: 'turkey' },
  { value: 'other-poultry', label: 'other or mixed poultry' },
]

/** Recipes of the record that can be cooked; choosing one fills the fields from it. */
export function RecipeChoice({
  form,
  recipes,
  chosen,
}: {
  form: Form
  recipes: readonly RecipeListed[]
  chosen: string
}) {
  const cooked = useMemo(() => recipes.filter((r) => r.body.kind === 'cooked' || r.body.casing), [recipes])
  return (
    <ChoiceField
      label="Recipe"
      value={chosen}
      options={[
        { value: '', label: 'none, as typed' },
        ...cooked.map((r) => ({ value: r.recipe, label: r.body.name })),
      ]}
      onInput={(code) => {
        const found = cooked.find((r) => r.recipe === code)
        if (found) form.replace({ ...form.values.value, ...recipeTexts(found.body) })
        go(code ? `/curves/plan?recipe=${encodeURIComponent(code)}` : '/curves/plan', { replace: true })
      }}
    />
  )
}

/** The piece: casing, mix, start; how it hangs; what the rules turn on. */
export function PieceFields({ form, startHint }: { form: Form; startHint?: string }) {
  const cured = form.values.value['product.cured'] === 'cured'
  return (
    <>
      <div class="stage-row">
        <FormQuantity form={form} name="piece.diameter" kind="length" unit="mm" label="Diameter" />
        <FormQuantity form={form} name="piece.length" kind="length" unit="mm" label="Length" hint="Empty: long." />
        <FormQuantity
          form={form}
          name="piece.start"
          kind="temperature"
          label="Core at the start"
          allowNegative
          {...(startHint ? { hint: startHint } : {})}
        />
        <FormQuantity form={form} name="target.core" kind="temperature" label="Core to reach" />
      </div>
      <details>
        <summary>Mix, casing and house</summary>
        <div class="stage-row">
          <FormText form={form} name="piece.water" label="Water" numeric unit="%" />
          <FormText form={form} name="piece.protein" label="Protein" numeric unit="%" />
          <FormText form={form} name="piece.fat" label="Fat" numeric unit="%" />
          <FormText form={form} name="piece.ash" label="Ash and salt" numeric unit="%" />
        </div>
        <div class="stage-row">
          <FormChoice
            form={form}
            name="piece.surface"
            label="Surface"
            options={[
              { value: 'drying', label: 'wet, then drying' },
              { value: 'wet', label: 'wet throughout' },
              { value: 'moisture-proof', label: 'casing that keeps all water' },
            ]}
          />
          <FormText
            form={form}
            name="piece.filmFactor"
            label="Crowding"
            numeric
            unit="×"
            hint="1: pieces hang free. Under 1: close together, a loaded house."
          />
        </div>
        <div class="stage-row">
          <FormChoice form={form} name="product.species" label="Meat" options={species} />
          <FormChoice
            form={form}
            name="product.cured"
            label="Cure"
            options={[
              { value: 'cured', label: 'cured' },
              { value: 'none', label: 'no cure' },
            ]}
          />
          {cured && (
            <>
              <FormText form={form} name="product.nitrite" label="Ingoing nitrite" numeric unit="mg/kg" />
              <FormText form={form} name="product.erythorbate" label="Erythorbate" numeric unit="mg/kg" />
              <FormText form={form} name="product.salt" label="Salt" numeric unit="%" />
            </>
          )}
        </div>
      </details>
    </>
  )
}
