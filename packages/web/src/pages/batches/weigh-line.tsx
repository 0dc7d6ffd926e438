import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { SheetLine } from '../../state/batch-plan.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact, massUnitFor, type Reader } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { InstrumentView, LotView, PlanLine } from '../../state/views.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { mass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { LotField } from './lot-field.tsx'

/** A weight this much off its target is a slip of the unit or of the hand until a note says otherwise; common practice, no source. */
const FAR_PCT = 25

type Props = {
  batch: string
  on: string
  line: PlanLine
  instruments: readonly InstrumentView[]
  /** What the sheet says of the line, and the weight recorded of it before, kg. */
  sheet: SheetLine | undefined
  beforeKg: number
  again: boolean
}

/** One weighing; it counts as done only when the server has said so. */
export function WeighLine({ again, ...rest }: Props) {
  const open = useMemo(() => signal(false), [])
  if (again && !open.value)
    return (
      <button type="button" class="plain" onClick={() => (open.value = true)}>
        Weigh more of {materialName(rest.line.material)}
      </button>
    )
  return <Entry {...rest} onDone={() => (open.value = false)} />
}

/**
 * The weight typed, in kg; refused where the scale cannot carry it, or where it is far from the target, or a cure that takes the batch out
 * of its nitrite band, and nobody says why.
 */
function weightOf(
  r: Reader,
  { line, sheet, beforeKg }: Pick<Props, 'line' | 'sheet' | 'beforeKg'>,
  scale: InstrumentView | undefined,
): number | undefined {
  const kg = r.quantity('kg', 'mass', { required: true, unit: massUnitFor(line.targetKg) })
  if (kg === undefined) return undefined
  if (scale?.capacityG !== undefined && kg * 1000 > scale.capacityG)
    return r.fault(
      'kg',
      `is ${mass(kg)}, more than ${scale.name} carries; allowed: at most ${mass(scale.capacityG / 1000)}`,
    )
  const grams = (beforeKg + kg) * 1000
  if (sheet?.lowG !== undefined && sheet.highG !== undefined && !r.text('note')) {
    if (grams > sheet.highG || grams < sheet.lowG)
      return r.fault(
        'kg',
        `${beforeKg > 0 ? `makes ${mass(grams / 1000, 4)} in all` : `is ${mass(kg, 4)}`}, which takes the batch out of its nitrite band: do not put it in the mix; allowed: ${mass(sheet.lowG / 1000, 4)} to ${mass(sheet.highG / 1000, 4)} in all, or a note that says why`,
      )
  }
  const far = line.targetKg > 0 && Math.abs(kg - line.targetKg) > (line.targetKg * FAR_PCT) / 100
  if (far && !r.text('note'))
    return r.fault(
      'kg',
      `is ${mass(kg)}, far from the target of ${mass(line.targetKg)}; allowed: a weight within ${FAR_PCT} % of it, or a note that says why`,
    )
  return kg
}

function Entry({
  batch,
  on,
  line,
  sheet,
  beforeKg,
  instruments,
  onDone,
}: Omit<Props, 'again'> & { onDone: () => void }) {
  const name = materialName(line.material)
  const form = useForm(`weigh-${batch}-${line.line}`, { lot: line.lot ?? '', instrument: line.scale ?? '' })
  const lots = useResource<{ lots: readonly LotView[] }>(
    `/api/lots?limit=1000&left=1&material=${encodeURIComponent(line.material)}`,
  ).value.value?.lots
  const scales = instruments.filter((i) => i.type === 'scale' && !i.retired)
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => ({
        kind: 'batch.weigh',
        body: {
          batch,
          line: line.line,
          kg: weightOf(
            r,
            { line, sheet, beforeKg },
            scales.find((s) => s.instrument === v['instrument']),
          ),
          ...compact({ lot: v['lot'] || undefined, instrument: v['instrument'] || undefined, note: r.text('note') }),
        },
      }),
      done: 'Recorded.',
      after: onDone,
    })
  return (
    <EntryForm
      form={form}
      fields={['kg', 'lot', 'instrument', 'note']}
      label={`Weigh ${name}`}
      action="Record"
      actionOf={name}
      quiet
      onSubmit={() => void send()}
    >
      <div class="row top weigh-fields">
        <FormQuantity
          form={form}
          name="kg"
          kind="mass"
          unit={massUnitFor(line.targetKg)}
          label="Weight"
          of={name}
          required
        />
        <FormChoice
          form={form}
          name="instrument"
          label="Scale"
          of={name}
          options={[{ value: '', label: 'no scale' }, ...scales.map((s) => ({ value: s.instrument, label: s.name }))]}
        />
        {lots && (
          <LotField form={form} name="lot" material={line.material} lots={lots} on={on} kg={0} shownLabel="Lot" />
        )}
        <FormText form={form} name="note" label="Note" of={name} />
      </div>
    </EntryForm>
  )
}
