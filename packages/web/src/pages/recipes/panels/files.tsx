import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { printRecipe } from '@forcemeat/craft/recipe/text/print'
import { Refused, sendBytes } from '../../../api.ts'
import type { Form } from '../../../state/form.ts'
import { putRecipe } from '../../../state/recipe-draft.ts'
import { Faults } from '../../../ui/notes.tsx'
import { Panel } from './panel.tsx'

type Read = { readonly format: string; readonly recipe?: Recipe; readonly parts?: Pick<Recipe, 'meat' | 'additions'> }
type State = { readonly error?: Refused; readonly said?: string }

const LARGEST = 1_000_000

/** A file read onto the bench; nothing is recorded until the maker saves, and a file with a fault changes nothing. */
export function ReadFile({ form, recipe }: { form: Form; recipe: Recipe | undefined }) {
  const state = useMemo(() => signal<State>({}), [])
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return
    if (file.size > LARGEST) {
      state.value = { said: `${file.name} is larger than a recipe ever is; allowed: up to 1 MB` }
      return
    }
    try {
      const read = await sendBytes<Read>('POST', '/api/recipes/read', file)
      if (read.recipe) putRecipe(form, read.recipe)
      else if (read.parts && recipe) putRecipe(form, { ...recipe, ...read.parts })
      else {
        state.value = { said: `${file.name} holds the parts alone: open the recipe they belong to first` }
        return
      }
      state.value = { said: `${file.name} is on the bench. Nothing is recorded until it is saved.` }
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      state.value = { error }
    }
  }
  return (
    <>
      <p class="field">
        <label for="recipe-file">Read a file onto the bench (text, CSV, XLSX or JSON)</label>
        <input
          id="recipe-file"
          type="file"
          accept=".txt,.csv,.xlsx,.json,text/plain,text/csv"
          onChange={(e) => {
            const input = e.currentTarget
            void take(input.files?.[0]).then(() => (input.value = ''))
          }}
        />
      </p>
      <div aria-live="polite">
        <Faults error={state.value.error} />
        {state.value.said && <p>{state.value.said}</p>}
      </div>
    </>
  )
}

const names = { text: 'Text', csv: 'CSV', xlsx: 'Spreadsheet', json: 'JSON' } as const

/** Out to a file and in from one. */
export function FilesPanel({
  form,
  recipe,
  code,
  version,
}: {
  form: Form
  recipe: Recipe
  code: string | undefined
  version: number | undefined
}) {
  return (
    <Panel title="Files" headline="text, CSV, spreadsheet">
      <ReadFile form={form} recipe={recipe} />
      {code && version && (
        <>
          <p>Version {version}, as the record has it:</p>
          <p class="actions">
            {Object.entries(names).map(([as, name]) => (
              <a
                class="button"
                key={as}
                download
                href={`/api/recipes/${encodeURIComponent(code)}/file?as=${as}&version=${version}`}
              >
                {name}
              </a>
            ))}
          </p>
        </>
      )}
      <details>
        <summary>What is on the bench now, as text</summary>
        <pre class="recipe-text" tabIndex={0} aria-label="The recipe as text">
          {printRecipe(recipe)}
        </pre>
      </details>
    </Panel>
  )
}
