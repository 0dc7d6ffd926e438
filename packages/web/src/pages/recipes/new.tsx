import { go } from '../../router.ts'
import { submit, useForm, type Form } from '../../state/form.ts'
import { blankRecipe } from '../../state/recipe-draft.ts'
import { benchTexts } from '../../state/recipe-work.ts'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { KitchenView } from '../../state/views.ts'
import { FormText } from '../../ui/form.tsx'
import { Bench } from './bench.tsx'

/** A recipe that is not in the record yet. */
export function NewRecipe({ kitchen }: { kitchen: KitchenView }) {
  const form = useForm('recipe-new', { ...blankRecipe, ...benchTexts })
  const save = (recipe: Recipe, note: string | undefined): Promise<void> =>
    submit(form, {
      read: (r) => {
        const code = r.text('recipe', { required: true })
        return code
          ? { kind: 'recipe.save', body: { recipe: code, version: 1, body: recipe, ...(note ? { note } : {}) } }
          : undefined
      },
      after: () => go(`/recipes/${encodeURIComponent(code)}`),
    })
  const code = (form.values.value['recipe'] ?? '').trim()
  return (
    <>
      <p>
        <a href="/recipes">All recipes</a>
      </p>
      <h1>New recipe</h1>
      <Bench
        form={form}
        kitchen={kitchen}
        action="Save as version 1"
        onSave={save}
        head={<CodeField form={form} />}
        requires={['recipe']}
      />
    </>
  )
}

function CodeField({ form }: { form: Form }) {
  return (
    <FormText
      form={form}
      name="recipe"
      label="Recipe code"
      required
      hint="Short, for sheets and labels: letters, digits, dots, dashes."
    />
  )
}
