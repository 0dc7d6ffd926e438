import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import { madeInputSchema, madeOf, squareBlend, squareInputSchema } from '@forcemeat/craft/blend/by-hand'
import type { z } from 'zod'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import { rowsOf } from '../../../state/recipe-draft.ts'
import { FormQuantity } from '../../../ui/form.tsx'
import { mass, percent } from '../../../ui/figures.ts'
import { MaterialField, materialTyped } from '../../../ui/material-field.tsx'
import { Working } from '../../../ui/working.tsx'
import { Panel, Told } from './panel.tsx'

/** Blending without the solver: two trims to one fat, and what weights at hand make. */
export function ByHand({ form }: { form: Form }) {
  return (
    <>
      <Square form={form} />
      <Made form={form} />
    </>
  )
}

/** What a schema has against a value, in one line. */
const against = (schema: z.ZodType, value: unknown): string => {
  try {
    parseOrThrow(schema, value)
    return ''
  } catch (error) {
    if (error instanceof InvalidInput) return error.faults.map((f) => `${f.path} ${f.message}`).join('; ')
    throw error
  }
}

function Square({ form }: { form: Form }) {
  const r = readerOf(form.values.value)
  const fat = (name: string) => r.quantity(`bench.square.${name}`, 'percent')
  const [first, second, targetFatPct] = [fat('first'), fat('second'), fat('target')]
  const batchKg = r.quantity('bench.square.batchKg', 'mass')
  const asked = { batchKg, targetFatPct, first: { fatPct: first }, second: { fatPct: second } }
  const ready = [first, second, targetFatPct, batchKg].every((x) => x !== undefined)
  const parsed = ready ? squareInputSchema.safeParse(asked) : undefined
  const out = parsed?.success ? squareBlend(parsed.data) : undefined
  return (
    <Panel title="Two trims by the square">
      <div class="row top">
        <FormQuantity form={form} name="bench.square.first" kind="percent" label="Fat of the first" />
        <FormQuantity form={form} name="bench.square.second" kind="percent" label="Fat of the second" />
        <FormQuantity form={form} name="bench.square.target" kind="percent" label="Fat wanted" />
        <FormQuantity form={form} name="bench.square.batchKg" kind="mass" label="Of both together" />
      </div>
      {ready && !parsed?.success && <p class="fault">{against(squareInputSchema, asked)}</p>}
      {out && (
        <>
          <p>
            {out.firstKg === undefined
              ? out.because
              : `${mass(out.firstKg)} of the first and ${mass(out.secondKg)} of the second`}
            .
          </p>
          <Working figure="Working" steps={out.working} />
        </>
      )}
    </Panel>
  )
}

function Made({ form }: { form: Form }) {
  const values = form.values.value
  const rows = rowsOf(values, 'bench.made') || 2
  const r = readerOf(values)
  const parts = Array.from({ length: rows }, (_, i) => {
    const material = materialTyped(values[`bench.made[${i}].material`] ?? '')
    const kg = r.quantity(`bench.made[${i}].kg`, 'mass')
    if (!material || kg === undefined) return []
    const { waterPct, proteinPct, fatPct, carbohydratePct, ashPct, saltPct, collagenPct } = material.composition
    const known = { waterPct, proteinPct, fatPct, carbohydratePct, ashPct, saltPct, collagenPct }
    const composition = Object.fromEntries(Object.entries(known).filter(([, v]) => v !== undefined))
    return [
      {
        id: material.name,
        kg,
        composition,
        ...(material.fatSdPct === undefined ? {} : { fatSdPct: material.fatSdPct }),
      },
    ]
  }).flat()
  const parsed = parts.length > 0 ? madeInputSchema.safeParse({ parts }) : undefined
  const out = parsed?.success ? madeOf(parsed.data) : undefined
  return (
    <Panel title="I have these weights: what did I make?">
      {Array.from({ length: rows }, (_, i) => (
        <div class="row top" key={i}>
          <MaterialField
            label={`Weighed part ${i + 1}`}
            value={values[`bench.made[${i}].material`] ?? ''}
            onInput={(v) => form.set(`bench.made[${i}].material`, v)}
          />
          <FormQuantity form={form} name={`bench.made[${i}].kg`} kind="mass" label={`Weight of part ${i + 1}`} />
        </div>
      ))}
      <button type="button" disabled={rows >= 40} onClick={() => form.set('bench.made.rows', String(rows + 1))}>
        Add a weighed part
      </button>
      {parts.length > 0 && !parsed?.success && <p class="fault">{against(madeInputSchema, { parts })}</p>}
      {out && (
        <>
          <Told
            rows={[
              ['All together', mass(out.totalKg)],
              [
                'Fat',
                `${percent(out.composition.fatPct)}${out.fatSdPct === undefined ? '' : ` ± ${percent(out.fatSdPct, 2)}`}`,
              ],
              ['Protein', percent(out.composition.proteinPct)],
              ['Water', percent(out.composition.waterPct)],
              ['Added water', percent(out.addedWaterPct)],
            ]}
          />
          {out.unknown
            .filter((u) => ['fatPct', 'proteinPct', 'waterPct'].includes(u.component))
            .map((u) => (
              <p class="hint" key={u.component}>
                {u.component.replace(/Pct$/, '')} is not known of {u.materials.join(', ')}.
              </p>
            ))}
        </>
      )}
    </Panel>
  )
}
