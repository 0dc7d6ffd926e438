import type { Fault } from '@forcemeat/craft/calculation'
import { ChoiceField, Field, TextField } from '../../ui/field.tsx'
import { fieldName } from '../../ui/words.ts'
import { unitIn } from '../record/body-units.ts'
import { nameOf, type PlainField, type Texts } from './plain-form.ts'

type Props = {
  fields: readonly PlainField[]
  texts: Texts
  faults: readonly Fault[]
  set: (name: string, text: string) => void
}

/** The fault at a field, or somewhere within what it holds. */
const faultOf = (faults: readonly Fault[], name: string): string | undefined => {
  const own = faults.find((f) => f.path === name || f.path.startsWith(`${name}.`) || f.path.startsWith(`${name}[`))
  return own && (own.path === name ? own.message : `${own.path.slice(name.length)} ${own.message}`)
}

/** One field for each figure and choice of an input, lists as JSON. */
export function PlainFields({ fields, texts, faults, set }: Props) {
  return (
    <div class="columns">
      {fields.map((f) => (
        <One key={nameOf(f)} field={f} text={texts[nameOf(f)] ?? ''} fault={faultOf(faults, nameOf(f))} set={set} />
      ))}
    </div>
  )
}

function One({
  field: f,
  text,
  fault,
  set,
}: {
  field: PlainField
  text: string
  fault: string | undefined
  set: Props['set']
}) {
  const name = nameOf(f)
  const said = fieldName(name)
  const label = `${said.charAt(0).toUpperCase()}${said.slice(1)}${f.needed ? '' : ', if known'}`
  const onInput = (v: string): void => set(name, v)
  const words = f.kind === 'yes-no' ? ['yes', 'no'] : f.choices
  if (words.length > 0)
    return (
      <ChoiceField
        label={label}
        value={text}
        options={[
          ...(f.needed && text !== '' ? [] : [{ value: '', label: 'not said' }]),
          ...words.map((w) => ({ value: w, label: w.replaceAll('-', ' ') })),
        ]}
        onInput={onInput}
        fault={fault}
      />
    )
  if (f.kind === 'json' || text.includes('\n'))
    return (
      <div style={{ gridColumn: '1 / -1' }}>
        <Field label={f.kind === 'json' ? `${label}, as JSON` : label} fault={fault}>
          {({ id, describedBy, invalid }) => (
            <textarea
              id={id}
              class="code"
              rows={Math.min(10, Math.max(2, text.split('\n').length))}
              spellcheck={false}
              value={text}
              {...(describedBy ? { 'aria-describedby': describedBy } : {})}
              aria-invalid={invalid}
              onInput={(e) => onInput(e.currentTarget.value)}
            />
          )}
        </Field>
      </div>
    )
  const unit = f.kind === 'number' ? unitIn(name) : ''
  return (
    <TextField
      label={label}
      value={text}
      onInput={onInput}
      numeric={f.kind === 'number'}
      {...(unit ? { unit } : {})}
      {...(f.hint ? { hint: f.hint } : {})}
      required={f.needed}
      fault={fault}
    />
  )
}
