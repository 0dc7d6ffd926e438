import { useId } from 'preact/hooks'
import { lotFault, usableOn } from '../../state/batch-plan.ts'
import type { Form } from '../../state/form.ts'
import type { LotView } from '../../state/views.ts'
import { Field } from '../../ui/field.tsx'
import { day, mass } from '../../ui/figures.ts'
import { faultAt, FormChoice } from '../../ui/form.tsx'
import { materialName } from '../../ui/material-field.tsx'

/** More lots than this are typed and searched rather than read down. */
const MOST_LISTED = 12

/** The date comes second: a narrow field cuts what is last. */
const labelOf = (l: LotView): string =>
  `${l.lot}${l.useBy === undefined ? '' : `, use by ${day(l.useBy)}`}, ${mass(l.balanceKg)} left`

type Props = {
  form: Form
  name: string
  material: string
  lots: readonly LotView[]
  /** Day the batch is made. */
  on: string
  kg: number
  /** Shown as a label of its own, where no row says it. */
  shownLabel?: string
}

/** The lot of a line: those good on the day, the first by date first; a lot chosen that is not says why at once. */
export function LotField({ form, name, material, lots, on, kg, shownLabel }: Props) {
  const id = useId()
  const chosen = form.values.value[name] ?? ''
  const labelled = shownLabel
    ? { label: shownLabel, of: materialName(material) }
    : { label: `Lot of ${materialName(material)}`, hideLabel: true }
  const own = lots.filter((l) => l.material === material)
  const good = usableOn(own, on).toSorted((a, b) => ((a.useBy ?? '9999') < (b.useBy ?? '9999') ? -1 : 1))
  const wrong = lotFault(lots, { material, ...(chosen ? { lot: chosen } : {}) }, on)
  const fault = faultAt(form, name) ?? wrong
  const held = own.find((l) => l.lot === chosen)
  const short = held !== undefined && kg > held.balanceKg + 1e-9
  const listed = held && !good.includes(held) ? [held, ...good] : good
  if (listed.length <= MOST_LISTED)
    return (
      <div class="lot-field">
        <FormChoice
          form={form}
          name={name}
          {...labelled}
          options={[
            { value: '', label: own.length ? 'no lot' : 'no lot in stock' },
            ...(chosen && !held ? [{ value: chosen, label: chosen }] : []),
            ...listed.map((l) => ({ value: l.lot, label: labelOf(l) })),
          ]}
        />
        {wrong && !faultAt(form, name) && <p class="fault">The lot {wrong}.</p>}
        {short && !wrong && <p class="hint">Holds less than the line takes: a second line, or another lot.</p>}
      </div>
    )
  return (
    <Field
      {...labelled}
      fault={fault}
      hint={short ? 'Holds less than the line takes: a second line, or another lot.' : undefined}
    >
      {({ id: field, describedBy, invalid }) => (
        <span class="entry entry-wide">
          <input
            id={field}
            type="text"
            list={`${id}-lots`}
            value={chosen}
            autoComplete="off"
            placeholder={`one of ${good.length} lots`}
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            aria-invalid={invalid}
            onInput={(e) => form.set(name, e.currentTarget.value.trim())}
          />
          <datalist id={`${id}-lots`}>
            {good.map((l) => (
              <option key={l.lot} value={l.lot}>
                {labelOf(l)}
              </option>
            ))}
          </datalist>
        </span>
      )}
    </Field>
  )
}
