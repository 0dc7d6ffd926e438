import type { ComponentChildren } from 'preact'
import { useId } from 'preact/hooks'

type FieldProps = {
  label: string
  /** What the label is of, read out but not shown where the eye sees it anyway. */
  of?: string | undefined
  hint?: ComponentChildren
  fault?: string | undefined
  /** The label is read out but not shown, where a table's head says it already. */
  hideLabel?: boolean
  children: (ids: { id: string; describedBy: string | undefined; invalid: boolean }) => ComponentChildren
}

/** A labelled field with its hint and its fault beneath, tied together for a screen reader. */
export function Field({ label, of, hint, fault, hideLabel, children }: FieldProps) {
  const id = useId()
  const hintId = hint ? `${id}-hint` : undefined
  const faultId = fault ? `${id}-fault` : undefined
  const describedBy = [hintId, faultId].filter(Boolean).join(' ') || undefined
  return (
    <div class={fault ? 'field field-wrong' : 'field'}>
      <label for={id} class={hideLabel ? 'visually-hidden' : undefined}>
        {label}
        {of && <span class="visually-hidden"> of {of}</span>}
      </label>
      {children({ id, describedBy, invalid: fault !== undefined })}
      {hint && (
        <p class="hint" id={hintId}>
          {hint}
        </p>
      )}
      {fault && (
        <p class="fault" id={faultId}>
          {fault}
        </p>
      )}
    </div>
  )
}

type TextProps = {
  label: string
  of?: string | undefined
  value: string
  onInput: (value: string) => void
  onLeave?: () => void
  hint?: ComponentChildren
  fault?: string | undefined
  /** Digits pad on a tablet. */
  numeric?: boolean
  unit?: string
  required?: boolean
  hideLabel?: boolean
  placeholder?: string
  type?: 'text' | 'date' | 'password' | 'search'
}

/** A line of text, or a figure with its unit behind it. */
export function TextField({
  label,
  of,
  value,
  onInput,
  onLeave,
  hint,
  fault,
  numeric,
  unit,
  required,
  hideLabel,
  placeholder,
  type = 'text',
}: TextProps) {
  return (
    <Field label={label} of={of} hint={hint} fault={fault} {...(hideLabel ? { hideLabel } : {})}>
      {({ id, describedBy, invalid }) => (
        <span class={numeric ? 'entry entry-number' : 'entry'}>
          <input
            id={id}
            // The compiler wants one word here, the linter none; the others take the same attributes.
            // oxlint-disable-next-line typescript/no-unnecessary-type-assertion
            type={type as 'text'}
            value={value}
            inputMode={numeric ? 'decimal' : 'text'}
            autoComplete="off"
            required={required ?? false}
            placeholder={placeholder ?? ''}
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            aria-invalid={invalid}
            onInput={(e) => onInput(e.currentTarget.value)}
            onBlur={() => onLeave?.()}
          />
          {unit && <span class="unit">{unit}</span>}
        </span>
      )}
    </Field>
  )
}

type ChoiceProps<T extends string> = {
  label: string
  of?: string | undefined
  value: T
  options: readonly { readonly value: T; readonly label: string }[]
  onInput: (value: T) => void
  hideLabel?: boolean
  hint?: ComponentChildren
  fault?: string | undefined
}

export function ChoiceField<T extends string>({
  label,
  of,
  value,
  options,
  onInput,
  hint,
  fault,
  hideLabel,
}: ChoiceProps<T>) {
  return (
    <Field label={label} of={of} hint={hint} fault={fault} {...(hideLabel ? { hideLabel } : {})}>
      {({ id, describedBy, invalid }) => (
        <select
          id={id}
          value={value}
          {...(describedBy ? { 'aria-describedby': describedBy } : {})}
          aria-invalid={invalid}
          onInput={(e) => onInput(e.currentTarget.value as T)}
        >
          {options.map((o) => (
            <option key={o.value} value={o.value}>
              {o.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
