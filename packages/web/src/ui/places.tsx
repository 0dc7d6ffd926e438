import { jurisdictions, type Jurisdiction } from '@forcemeat/craft/recipe/schema'
import type { Form } from '../state/form.ts'
import type { KitchenView } from '../state/views.ts'
import { placeName } from './words.ts'

/** Places chosen in a form's field; those of the kitchen until one is ticked. */
export function placesOf(form: Form, name: string, kitchen: KitchenView): Jurisdiction[] {
  const ticked = form.values.value[name]
  return jurisdictions.filter((j) =>
    ticked === undefined ? kitchen.kitchen?.jurisdictions.includes(j) : ticked.split(' ').includes(j),
  )
}

/** The places whose law is asked, one box each. */
export function Places({
  form,
  name,
  kitchen,
  legend,
}: {
  form: Form
  name: string
  kitchen: KitchenView
  legend: string
}) {
  const places = placesOf(form, name, kitchen)
  const choose = (place: Jurisdiction, on: boolean): void =>
    form.set(name, jurisdictions.filter((k) => (k === place ? on : places.includes(k))).join(' '))
  return (
    <fieldset>
      <legend>{legend}</legend>
      {jurisdictions.map((j) => (
        <label class="tick" key={j}>
          <input type="checkbox" checked={places.includes(j)} onInput={(e) => choose(j, e.currentTarget.checked)} />
          {placeName(j)}
        </label>
      ))}
    </fieldset>
  )
}
