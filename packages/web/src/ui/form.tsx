import type { ComponentChildren } from 'preact'
import type { Form } from '../state/form.ts'
import { defaultUnit, readQuantity, type Kind } from '../state/reader.ts'
import { system } from '../state/who.ts'
import { mass, temperature } from './figures.ts'
import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { ChoiceField, TextField } from './field.tsx'

type Common = {
  form: Form
  name: string
  label: string
  hint?: ComponentChildren
  required?: boolean
  hideLabel?: boolean
  of?: string
}

export const faultAt = (form: Form, name: string): string | undefined =>
  form.faults.value.find((f) => f.path === name)?.message

/** A line of text, or a date, of a form. */
export function FormText({
  form,
  name,
  ...rest
}: Common & { type?: 'text' | 'date' | 'search'; placeholder?: string; numeric?: boolean; unit?: string }) {
  return (
    <TextField
      {...rest}
      value={form.values.value[name] ?? ''}
      onInput={(v) => form.set(name, v)}
      fault={faultAt(form, name)}
    />
  )
}

const isBare = (typed: string): boolean => !/[a-z°%‰"']/i.test(typed)

/** What a quantity typed with a unit of the other system comes to in that of this screen; the figure itself stays as it was typed. */
export function inScreenUnit(typed: string, kind: Kind, allowNegative = false): string | undefined {
  if (kind !== 'mass' && kind !== 'temperature') return undefined
  const unit = /([a-z°]+)\s*$/i.exec(typed)?.[1]?.toLowerCase() ?? ''
  const others = system.value === 'us' ? ['kg', 'g', 'mg', 't', '°c'] : ['lb', 'lbs', 'oz', '°f']
  if (!others.includes(unit)) return undefined
  const read = readQuantity(typed, kind, undefined, allowNegative)
  if (!read.ok) return undefined
  return `= ${kind === 'mass' ? mass(read.value) : temperature(read.value)}`
}

/** A quantity typed with or without its unit; an unreadable text is named at once on leaving the field. */
export function FormQuantity({
  form,
  name,
  kind,
  unit,
  allowNegative,
  ...rest
}: Common & { kind: Kind; unit?: string; allowNegative?: boolean }) {
  const left = useMemo(() => signal(''), [])
  const typed = form.values.value[name] ?? ''
  const shownUnit = unit ?? defaultUnit(kind)
  const check = (): void => {
    if (typed.trim() === '') return
    const read = readQuantity(typed, kind, shownUnit, allowNegative)
    left.value = read.ok ? '' : read.message
    // A bare number takes the unit it was typed under, so that a later change of units cannot turn it into another amount.
    if (read.ok && !unit && kind !== 'percent' && isBare(typed)) form.set(name, `${typed.trim()} ${shownUnit}`)
  }
  const elsewhere = inScreenUnit(typed, kind, allowNegative)
  return (
    <TextField
      {...rest}
      {...(elsewhere
        ? {
            hint: rest.hint ? (
              <>
                {elsewhere}. {rest.hint}
              </>
            ) : (
              elsewhere
            ),
          }
        : {})}
      numeric
      unit={isBare(typed) ? shownUnit : ''}
      value={typed}
      onInput={(v) => {
        left.value = ''
        form.set(name, v)
      }}
      onLeave={check}
      fault={faultAt(form, name) ?? (left.value || undefined)}
    />
  )
}

/** One of a few. */
export function FormChoice({
  form,
  name,
  options,
  ...rest
}: Common & { options: readonly { value: string; label: string }[] }) {
  return (
    <ChoiceField
      {...rest}
      value={form.values.value[name] ?? ''}
      options={options}
      onInput={(v) => form.set(name, v)}
      fault={faultAt(form, name)}
    />
  )
}

/** The form itself: faults that belong to no field on top, the one thing to do below. */
export function EntryForm({
  form,
  fields,
  action,
  actionOf,
  quiet,
  onSubmit,
  children,
  label,
}: {
  form: Form
  fields: readonly string[]
  action: string
  actionOf?: string
  quiet?: boolean
  onSubmit: () => void
  children: ComponentChildren
  label: string
}) {
  const rest = form.faults.value.filter((f) => !fields.includes(f.path))
  return (
    <form
      noValidate
      aria-label={label}
      onSubmit={(e) => {
        e.preventDefault()
        onSubmit()
      }}
    >
      {rest.length > 0 && (
        <div class="faults" role="alert" tabIndex={-1}>
          <ul>
            {rest.map((f) => (
              <li key={f.path + f.message}>
                {f.path && <strong>{f.path} </strong>}
                {f.message}
              </li>
            ))}
          </ul>
        </div>
      )}
      {children}
      <p class="actions">
        <button type="submit" class={quiet ? undefined : 'main'} disabled={form.sending.value}>
          {form.sending.value ? 'Recording…' : action}
          {actionOf && <span class="visually-hidden"> {actionOf}</span>}
        </button>
        <span role="status" class="done" tabIndex={-1}>
          {form.done.value}
        </span>
      </p>
    </form>
  )
}
