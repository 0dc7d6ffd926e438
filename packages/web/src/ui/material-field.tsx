import type { ComponentChildren } from 'preact'
import { findMaterial, materials } from '@forcemeat/craft/materials/materials'
import type { Material } from '@forcemeat/craft/materials/schema'
import { Field } from './field.tsx'

const names = new Map(materials.map((m) => [m.name.toLowerCase(), m]))

/** Name of a material by id; the id where the table does not have it. */
export const materialName = (id: string): string => findMaterial(id)?.name ?? id

/** Ids of one plain word are said as names, too, where they stand in a list with others: half of a list is not named in another way. */
const listsNamed = (sentence: string): string =>
  sentence.replace(/[a-z0-9.-]*[a-z0-9](?:, [a-z0-9][a-z0-9.-]*[a-z0-9])+/g, (list) => {
    const found = list.split(', ').map((id) => findMaterial(id)?.name)
    if (found.includes(undefined)) return list
    return found.join(found.some((name) => name?.includes(',')) ? '; ' : ', ')
  })

/** A sentence of the record with the ids of materials in it said as names. Ids of one plain word are words already. */
export const withNames = (sentence: string): string =>
  listsNamed(sentence).replace(/[a-z0-9]+(?:[-.][a-z0-9]+)+/g, (id) => findMaterial(id)?.name ?? id)

/** The material a typed text means: its name or its id, whatever the case. */
export const materialTyped = (typed: string): Material | undefined =>
  names.get(typed.trim().toLowerCase()) ?? findMaterial(typed.trim())

/** What the search offers: meat and fat, everything else, or the whole table. Anything of the table may be typed. */
export type Offer = 'meat' | 'additions' | 'all'

const offers: Readonly<Record<Offer, (m: Material) => boolean>> = {
  meat: (m) => m.meatBlock,
  additions: (m) => !m.meatBlock,
  all: () => true,
}

const lists = (
  <>
    {Object.entries(offers).map(([offer, holds]) => (
      <datalist key={offer} id={`materials-${offer}`}>
        {materials.filter(holds).map((m) => (
          <option key={m.id} value={m.name} />
        ))}
      </datalist>
    ))}
  </>
)

/** The lists all material fields of the page search in: made once, never drawn anew. */
export const MaterialLists = () => lists

type Props = {
  label: string
  value: string
  onInput: (typed: string) => void
  offer?: Offer
  hint?: ComponentChildren
  fault?: string | undefined
  hideLabel?: boolean
}

/** A material by name, searched as it is typed. */
export function MaterialField({ label, value, onInput, offer = 'all', hint, fault, hideLabel }: Props) {
  return (
    <Field label={label} hint={hint} fault={fault} {...(hideLabel ? { hideLabel } : {})}>
      {({ id, describedBy, invalid }) => (
        <span class="entry entry-wide">
          <input
            id={id}
            type="text"
            list={`materials-${offer}`}
            value={value}
            autoComplete="off"
            placeholder="type to search"
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            aria-invalid={invalid}
            onInput={(e) => onInput(e.currentTarget.value)}
          />
        </span>
      )}
    </Field>
  )
}
