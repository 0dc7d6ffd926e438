import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { premix, premixInput, type Premix } from '@forcemeat/craft/season/premix'
import { scalesOf } from '../../../state/batch-plan.ts'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import type { InstrumentView } from '../../../state/views.ts'
import { mass, number } from '../../../ui/figures.ts'
import { NumberField } from './number-field.tsx'
import { Panel } from './panel.tsx'
import { Sheet } from '../../../ui/sheet.tsx'
import { paper } from '../../../ui/paper.ts'

type Props = {
  form: Form
  recipe: Recipe
  code: string | undefined
  meatKg: number
  instruments: readonly InstrumentView[]
}

/** One bag of seasoning and one of cure in salt for several batches. */
export function PremixForm({ form, recipe, code, meatKg, instruments }: Props) {
  const r = readerOf(form.values.value)
  const batches = r.number('bench.premix.batches')
  const scales = scalesOf(instruments)
  const made = ((): Premix | string | undefined => {
    if (r.faults.length > 0) return r.faults.map((f) => f.message).join('; ')
    if (batches === undefined) return undefined
    if (scales.length === 0) return 'No scale in the kitchen: add one under Instruments.'
    try {
      return premix(parseOrThrow(premixInput, { recipe, meatKg, batches, scales }))
    } catch (error) {
      if (error instanceof InvalidInput) return error.faults.map((f) => f.message).join('; ')
      throw error
    }
  })()
  return (
    <Panel title="Pre-mix for several batches">
      <NumberField
        form={form}
        name="bench.premix.batches"
        label={`Batches of ${mass(meatKg)} of meat`}
        min={1}
        max={1000}
        whole
      />
      {typeof made === 'string' && <p class="fault">{made}</p>}
      {made && typeof made !== 'string' && <Told mix={made} />}
      {made && typeof made !== 'string' && code && (
        <p>
          <a
            class="button"
            href={paper(`pre-mix/${encodeURIComponent(code)}`, {
              batches: String(made.batches),
              meatKg: String(meatKg),
            })}
            target="_blank"
            rel="noreferrer"
          >
            Sheet of the newest saved version, as PDF
          </a>
        </p>
      )}
    </Panel>
  )
}

function Told({ mix }: { mix: Premix }) {
  const { spice, cure, apart } = mix
  return (
    <>
      {spice.lines.length > 0 && (
        <>
          <Sheet
            caption="Seasoning pre-mix"
            rows={spice.lines}
            rowKey={(l) => l.material}
            columns={[
              { head: 'Seasoning', names: true, cell: (l) => l.name },
              { head: 'All batches', num: true, cell: (l) => mass(l.together.kg) },
              { head: 'Scale', cell: (l) => (l.together.fit ? l.together.scale : 'too coarse') },
              {
                head: 'One batch alone',
                num: true,
                cell: (l) => `${mass(l.alone.kg)}${l.alone.fit ? '' : ', too little'}`,
              },
            ]}
          />
          <p>
            Each batch takes {mass(spice.perBatch.kg)} of it
            {spice.perBatch.fit ? '' : ', which is too little for the scales here'}.
          </p>
        </>
      )}
      {cure.made ? (
        <p>
          Cure in salt, in a drum of its own: {mass(cure.sheet.agentKg)} of {cure.name} and {mass(cure.sheet.saltKg)} of
          salt; each batch takes {mass(cure.sheet.perBatchKg)}. Nitrite {number(cure.sheet.lowPpm, 4)} to{' '}
          {number(cure.sheet.highPpm, 4)} ppm.
        </p>
      ) : (
        <p class="hint">No cure blend: {cure.because}.</p>
      )}
      {apart.length > 0 && (
        <ul>
          {apart.map((a) => (
            <li key={a.material}>
              {a.name} stays apart, {mass(a.alone.kg)} a batch: {a.because}.
            </li>
          ))}
        </ul>
      )}
      {mix.advice.map((a) => (
        <p class="hint" key={a}>
          {a}
        </p>
      ))}
      {mix.cautions.map((c) => (
        <p class="caution" key={c}>
          {c}
        </p>
      ))}
    </>
  )
}
