import type { RecipeLine } from '@forcemeat/craft/recipe/compute-schema'
import type { Form } from '../../state/form.ts'
import type { Worked } from '../../state/recipe-bench.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import { FormQuantity, faultAt } from '../../ui/form.tsx'
import { mass, money } from '../../ui/figures.ts'
import { MaterialField, materialTyped } from '../../ui/material-field.tsx'
import { CureCaution } from '../../ui/cure-caution.tsx'

type Props = { form: Form; worked: Worked | undefined }

/** The parts: percent of the meat block as typed, and beside it the weight and cost for the batch. */
export function Parts({ form, worked }: Props) {
  return (
    <>
      <PartList form={form} worked={worked} list="meat" head="Meat block" one="Meat" add="Add meat or fat" />
      {faultAt(form, 'meat') && (
        <p class="fault" role="status">
          Meat block {faultAt(form, 'meat')}
        </p>
      )}
      <PartList
        form={form}
        worked={worked}
        list="additions"
        head="On top of the meat"
        one="Addition"
        add="Add an addition"
      />
    </>
  )
}

function PartList({
  form,
  worked,
  list,
  head,
  one,
  add,
}: Props & { list: 'meat' | 'additions'; head: string; one: string; add: string }) {
  const rows = rowsOf(form.values.value, list)
  const role = list === 'meat' ? 'meat' : 'addition'
  const lines = worked?.computed.lines.filter((l) => l.role === role) ?? []
  return (
    <section aria-label={head}>
      <div class="part-row part-head" aria-hidden="true">
        <h2>{head}</h2>
        <span class="num">% of meat</span>
        <span class="num">weight</span>
        <span class="num">cost</span>
        <span />
      </div>
      {Array.from({ length: rows }, (_, i) => (
        <PartRow key={i} form={form} list={list} row={i} name={`${one} ${i + 1}`} line={lineOf(form, list, i, lines)} />
      ))}
      <button type="button" disabled={rows >= 60} onClick={() => form.set(`${list}.rows`, String(rows + 1))}>
        {add}
      </button>
    </section>
  )
}

/** The worked-out line of a row: the same material, counting rows of the same material in their order. */
function lineOf(form: Form, list: string, row: number, lines: readonly RecipeLine[]): RecipeLine | undefined {
  const id = (i: number): string | undefined => materialTyped(form.values.value[rowName(list, i, 'material')] ?? '')?.id
  const mine = id(row)
  if (mine === undefined) return undefined
  const before = Array.from({ length: row }, (_, i) => id(i)).filter((m) => m === mine).length
  return lines.filter((l) => l.material === mine)[before]
}

function PartRow({
  form,
  list,
  row,
  name,
  line,
}: {
  form: Form
  list: 'meat' | 'additions'
  row: number
  name: string
  line: RecipeLine | undefined
}) {
  const at = rowName(list, row, 'material')
  const typed = form.values.value[at] ?? ''
  const material = materialTyped(typed)
  return (
    <>
      <div class="part-row">
        <MaterialField
          hideLabel
          label={name}
          value={typed}
          onInput={(v) => form.set(at, v)}
          offer={list}
          fault={faultAt(form, at)}
        />
        <FormQuantity
          form={form}
          name={rowName(list, row, 'pct')}
          kind="percent"
          label={`${name}, % of meat`}
          hideLabel
        />
        <output class="num" aria-label={`${name}, weight`}>
          {mass(line?.kg)}
        </output>
        <output class="num" aria-label={`${name}, cost`}>
          {money(line?.cost)}
        </output>
        <button
          type="button"
          class="plain"
          aria-label={`Remove ${name.toLowerCase()}`}
          onClick={() => removeRow(form, list, row)}
        >
          Remove
        </button>
      </div>
      {material && <CureCaution material={material.id} />}
    </>
  )
}

/** Take a row out and move those below it up. */
export function removeRow(form: Form, list: string, row: number): void {
  const values = form.values.value
  const rows = rowsOf(values, list)
  const own = new RegExp(`^${list}\\[(\\d+)\\]\\.(.+)$`)
  const next: Record<string, string> = {}
  for (const [key, value] of Object.entries(values)) {
    const hit = own.exec(key)
    if (!hit) next[key] = value
    else if (Number(hit[1]) < row) next[key] = value
    else if (Number(hit[1]) > row) next[rowName(list, Number(hit[1]) - 1, hit[2]!)] = value
  }
  form.replace({ ...next, [`${list}.rows`]: String(Math.max(0, rows - 1)) })
}
