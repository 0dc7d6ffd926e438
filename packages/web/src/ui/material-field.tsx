import type { ComponentChildren } from 'preact'
import { useId } from 'preact/hooks'
import { findMaterial, materials } from '@forcemeat/craft/materials/materials'
import type { Material } from '@forcemeat/craft/materials/schema'
import { Field } from './field.tsx'

const names = new Map(materials.map((m) => [m.name.toLowerCase(), m]))

/** Name of a material by id; the id where the table does not have it. */
export const materialName = (id: string): string => findMaterial(id)?.name ?? id

/** A sentence of the record with the ids of materials in it said as names. Ids of one plain word are words already. */
export const withNames = (sentence: string): string =>
  sentence.replace(/[a-z0-9]+(?:[-.][a-z0-9]+)+/g, (id) => findMaterial(id)?.name ?? id)

/** The material a typed text means: its name or its id, whatever the case. */
export const materialTyped = (typed: string): Material | undefined =>
  names.get(typed.trim().toLowerCase()) ?? findMaterial(typed.trim())

type Props = {
  label: string
  value: string
  onInput: (typed: string) => void
  /** Which materials are offered; any of the table may be typed. */
  offer?: (m: Material) => boolean
  hint?: ComponentChildren
  fault?: string | undefined
  hideLabel?: boolean
}

/** A material by name, searched as it is typed. */
export function MaterialField({ label, value, onInput, offer, hint, fault, hideLabel }: Props) {
  const listId = useId()
  const offered = offer ? materials.filter(offer) : materials
  return (
    <Field label={label} hint={hint} fault={fault} {...(hideLabel ? { hideLabel } : {})}>
      {({ id, describedBy, invalid }) => (
        <span class="entry entry-wide">
          <input
            id={id}
            type="text"
            list={listId}
            value={value}
            autoComplete="off"
            placeholder="type to search"
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            aria-invalid={invalid}
            onInput={(e) => onInput(e.currentTarget.value)}
          />
          <datalist id={listId}>
            {offered.map((m) => (
              <option key={m.id} value={m.name} />
            ))}
          </datalist>
        </span>
      )}
    </Field>
  )
}
