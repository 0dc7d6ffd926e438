import { recipeKinds } from '@forcemeat/craft/recipe/schema'
import { standards } from '@forcemeat/rulebook/recipe/rules'
import type { Form } from '../../state/form.ts'
import { FormChoice } from '../../ui/form.tsx'
import { Tick } from '../../ui/tick.tsx'

/** What kind of product it is: the facts rules are scoped by. */
export function Product({ form }: { form: Form }) {
  const chosen = (form.values.value['standards'] ?? '').split(' ').filter(Boolean)
  const choose = (id: string, on: boolean): void =>
    form.set('standards', (on ? [...chosen, id] : chosen.filter((c) => c !== id)).join(' '))
  return (
    <>
      <div class="row top">
        <FormChoice form={form} name="kind" label="Kind" options={recipeKinds.map((k) => ({ value: k, label: k }))} />
        <FormChoice
          form={form}
          name="route"
          label="How the cure goes in"
          options={[
            { value: 'comminuted', label: 'mixed into ground meat' },
            { value: 'pumped', label: 'pumped' },
            { value: 'immersed', label: 'immersed' },
            { value: 'dry-rubbed', label: 'dry rubbed' },
          ]}
        />
      </div>
      <p>
        <Tick form={form} name="smoked" label="Smoked" />
        <Tick form={form} name="readyToEat" label="Eaten as sold, not cooked by the eater" />
      </p>
      <details>
        <summary>
          Standards it is sold under{chosen.length > 0 ? `: ${chosen.map((c) => standards[c] ?? c).join(', ')}` : ''}
        </summary>
        <ul class="entries ticks">
          {Object.entries(standards).map(([id, name]) => (
            <li key={id}>
              <label class="tick">
                <input
                  type="checkbox"
                  checked={chosen.includes(id)}
                  onInput={(e) => choose(id, e.currentTarget.checked)}
                />
                {name} <span class="where">{id.split('.')[0]?.toUpperCase()}</span>
              </label>
            </li>
          ))}
        </ul>
      </details>
    </>
  )
}
