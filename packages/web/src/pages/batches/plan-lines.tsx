import type { PlanWorked, SheetLine } from '../../state/batch-plan.ts'
import type { Form } from '../../state/form.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import type { InstrumentView, LotView } from '../../state/views.ts'
import { FormChoice, FormQuantity } from '../../ui/form.tsx'
import { materialName } from '../../ui/material-field.tsx'
import { CureCaution } from '../../ui/cure-caution.tsx'
import { LotField } from './lot-field.tsx'
import { ScaleFit } from './scale-fit.tsx'
import { removeRow } from '../recipes/parts.tsx'

type Props = {
  form: Form
  lots: readonly LotView[]
  instruments: readonly InstrumentView[]
  worked: PlanWorked | undefined
  /** Day the batch is made. */
  on: string
}

/** The weigh sheet as it will be: each line's lot, target, scale, and whether that scale is fit for it. */
export function PlanLines({ form, lots, instruments, worked, on }: Props) {
  const rows = rowsOf(form.values.value, 'lines')
  if (rows === 0) return <p class="empty">No lines yet: give the weight of the meat block and lay them out.</p>
  return (
    <section aria-label="Weigh sheet">
      <h2>Weigh sheet</h2>
      {Array.from({ length: rows }, (_, i) => (
        <PlanLine
          key={i}
          form={form}
          row={i}
          lots={lots}
          on={on}
          instruments={instruments}
          sheet={worked?.sheetFor[i]}
        />
      ))}
    </section>
  )
}

type LineProps = {
  form: Form
  row: number
  lots: readonly LotView[]
  on: string
  instruments: readonly InstrumentView[]
  sheet: SheetLine | undefined
}

function PlanLine({ form, row, lots, on, instruments, sheet }: LineProps) {
  const id = form.values.value[rowName('lines', row, 'material')] ?? ''
  const name = materialName(id)
  const scales = instruments.filter((i) => i.type === 'scale' && !i.retired)
  const suggested = scales.find((s) => s.instrument === sheet?.scale)
  return (
    <div class="plan-line">
      <strong class="plan-name">{name}</strong>
      <LotField
        form={form}
        name={rowName('lines', row, 'lot')}
        material={id}
        lots={lots}
        on={on}
        kg={sheet?.targetKg ?? 0}
      />
      <FormQuantity form={form} name={rowName('lines', row, 'kg')} kind="mass" label={`Weight of ${name}`} hideLabel />
      <FormChoice
        form={form}
        name={rowName('lines', row, 'scale')}
        label={`Scale for ${name}`}
        hideLabel
        options={[
          { value: '', label: suggested ? `${suggested.name} (suggested)` : 'no scale' },
          ...scales.map((s) => ({ value: s.instrument, label: s.name })),
        ]}
      />
      <button type="button" class="plain" aria-label={`Remove ${name}`} onClick={() => removeRow(form, 'lines', row)}>
        Remove
      </button>
      <div class="plan-fit">{sheet && <ScaleFit line={sheet} />}</div>
      <div class="plan-fit">
        <CureCaution material={id} />
      </div>
    </div>
  )
}
