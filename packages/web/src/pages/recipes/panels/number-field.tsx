import { faultAt } from '../../../ui/form.tsx'
import { TextField } from '../../../ui/field.tsx'
import type { Form } from '../../../state/form.ts'
import { readPlain } from '../../../state/reader.ts'

type Props = {
  form: Form
  name: string
  label: string
  unit?: string
  hint?: string
  min?: number
  /** Above this, not at it. */
  above?: number
  max: number
  whole?: boolean
}

/** What is wrong with a figure as typed; undefined where it is empty or fits. */
function wrong(typed: string, { min, above, max, whole, unit }: Props): string | undefined {
  if (typed.trim() === '') return undefined
  const read = readPlain(unit ? typed.replace(new RegExp(`\\s*${unit.replace('/', '\\/')}\\s*$`), '') : typed)
  if (!read.ok) return read.message
  const low = above === undefined ? `at least ${min ?? 0}` : `more than ${above}`
  const said = `allowed: a ${whole ? 'whole ' : ''}number${unit ? ` in ${unit}` : ''}, ${low} and at most ${max}`
  const fits = (above === undefined ? read.value >= (min ?? 0) : read.value > above) && read.value <= max
  return fits && (!whole || Number.isInteger(read.value)) ? undefined : `is ${read.value}; ${said}`
}

/** A plain figure of a panel, with what is wrong with it said at the field as it is typed. */
export function NumberField(props: Props) {
  const { form, name, label, unit, hint } = props
  const typed = form.values.value[name] ?? ''
  return (
    <TextField
      label={label}
      numeric
      value={typed}
      onInput={(v) => form.set(name, v)}
      fault={faultAt(form, name) ?? wrong(typed, props)}
      {...(unit ? { unit } : {})}
      {...(hint ? { hint } : {})}
    />
  )
}
