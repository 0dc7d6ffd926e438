import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { BlendOutput } from '@forcemeat/craft/blend/schema'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { post, Refused } from '../../api.ts'
import { blendRequest, type LineInput } from '../../state/batch-plan.ts'
import type { Form } from '../../state/form.ts'
import { readerOf } from '../../state/reader.ts'
import type { LotView } from '../../state/views.ts'
import { FormText } from '../../ui/form.tsx'
import { percent, pricePerMass } from '../../ui/figures.ts'
import { Faults } from '../../ui/notes.tsx'
import { Tick } from '../../ui/tick.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import { putLines, readLines } from './plan-form.tsx'

type State = { busy: boolean; out?: BlendOutput; notes: readonly string[]; error?: Refused; none?: boolean }

/** Ask for the cheapest weights of the lots in stock that hold the recipe's limits. */
export function Propose({
  form,
  recipe,
  meatKg,
  lots,
}: {
  form: Form
  recipe: Recipe
  meatKg: number | undefined
  lots: readonly LotView[]
}) {
  const state = useMemo(() => signal<State>({ busy: false, notes: [] }), [])
  const ask = async (): Promise<void> => {
    if (meatKg === undefined || meatKg <= 0) return
    const confidence = readerOf(form.values.value).number('confidence')
    const { input, notes, offered } = blendRequest(
      recipe,
      meatKg,
      lots,
      form.values.value['heldShares'] === 'yes',
      confidence,
    )
    if (offered === 0) {
      state.value = { busy: false, notes, none: true }
      return
    }
    state.value = { busy: true, notes }
    try {
      const out = await post<BlendOutput>('/api/calc/blend.solve', input)
      state.value = { busy: false, out, notes }
      if (out.status === 'optimal') take(form, out, lots, recipe)
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      // The calculation counts its materials; the maker knows them by lot.
      const faults = error.faults.map((f) => ({
        ...f,
        path: f.path.replace(/materials\[(\d+)\]\.?/, (_, i: string) => `${input.materials[Number(i)]?.id ?? ''} `),
      }))
      state.value = { busy: false, error: new Refused(error.status, faults), notes }
    }
  }
  const { busy, out, notes, error, none } = state.value
  return (
    <details class="propose">
      <summary>Let the blend choose weights from the lots in stock</summary>
      <p class="hint">The cheapest weights that hold the recipe's limits. They stay yours to change.</p>
      <Tick form={form} name="heldShares" label="Keep each meat at its share of the recipe" />
      <FormText
        form={form}
        name="confidence"
        label="Hold the fat limits with a probability of"
        numeric
        unit="%"
        hint="Empty holds them on average; 95 keeps a margin for the spread of the trims."
      />
      <button type="button" disabled={busy} onClick={() => void ask()}>
        {busy ? 'Working it out…' : 'Propose weights'}
      </button>
      <div aria-live="polite">
        <Faults error={error} />
        {none && <p class="fault">No lot of the recipe's meats is in stock with a known composition.</p>}
        {out && <Answer out={out} />}
        {notes.map((n) => (
          <p class="hint" key={n}>
            {n}
          </p>
        ))}
      </div>
    </details>
  )
}

/** Meat lines as proposed; the other lines stay as they are. */
function take(form: Form, out: BlendOutput, lots: readonly LotView[], recipe: Recipe): void {
  const meats = new Set(recipe.meat.map((m) => m.material))
  const rest = readLines(readerOf(form.values.value), form.values.value).filter((l) => !meats.has(l.material))
  const taken = out.lines.flatMap(({ id, kg }): LineInput[] => {
    const lot = lots.find((l) => l.lot === id)
    return lot && kg > 0.00005 ? [{ material: lot.material, lot: id, kg: Number(kg.toFixed(4)) }] : []
  })
  putLines(form, [...taken, ...rest])
}

function Answer({ out }: { out: BlendOutput }) {
  if (out.status === 'optimal')
    return (
      <>
        <p>
          <VerdictMark verdict="pass" label="Every limit holds" /> {out.because}
          {out.costPerKg !== undefined && <>: {pricePerMass(out.costPerKg)}</>}
          {out.composition?.fatPct !== undefined && <>, fat {percent(out.composition.fatPct)}</>}
          {out.fatSdPct !== undefined && <> ± {percent(out.fatSdPct, 2)}</>}.
        </p>
        {out.confidence && (
          <p class="hint">
            The margin for the spread is {percent(out.confidence.marginPct, 2)}; it costs{' '}
            {pricePerMass(out.confidence.costPerKg)}.
          </p>
        )}
      </>
    )
  return (
    <>
      <p>
        <VerdictMark verdict="fail" label="Nothing fits" /> {out.because}
      </p>
      {out.conflict && (
        <ul>
          {out.conflict.map((c) => (
            <li key={c.text}>{c.text}</li>
          ))}
        </ul>
      )}
      {out.relax?.alone.map((r) => (
        <p class="hint" key={r.text}>
          Would free it: {r.text}
        </p>
      ))}
    </>
  )
}
