import { strengthOf } from '@forcemeat/craft/cure/agent'
import { preblend } from '@forcemeat/craft/cure/preblend'
import type { Scale } from '@forcemeat/craft/cure/scale-error'
import { weighing } from '@forcemeat/craft/cure/weighing'
import { InvalidInput } from '@forcemeat/craft/calculation'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { scalesOf } from '../../../state/batch-plan.ts'
import type { Form } from '../../../state/form.ts'
import { readerOf } from '../../../state/reader.ts'
import type { Worked } from '../../../state/recipe-bench.ts'
import type { InstrumentView } from '../../../state/views.ts'
import { FormChoice } from '../../../ui/form.tsx'
import { mass, number } from '../../../ui/figures.ts'
import { VerdictMark } from '../../../ui/verdict.tsx'
import { Working } from '../../../ui/working.tsx'
import { NumberField } from './number-field.tsx'
import { Told } from './panel.tsx'

type Props = { form: Form; recipe: Recipe; worked: Worked; instruments: readonly InstrumentView[] }

/** The scale the cure is weighed on: one of the kitchen's, or one typed. */
function scaleOf(form: Form, instruments: readonly InstrumentView[]): Scale | undefined {
  const values = form.values.value
  const reader = readerOf(values)
  const typed = reader.quantity('bench.cure.readabilityG', 'mass', { unit: 'g', as: 'g' })
  const tolerance = reader.quantity('bench.cure.toleranceG', 'mass', { unit: 'g', as: 'g' })
  if (typed !== undefined && typed > 0)
    return { readabilityG: typed, ...(tolerance === undefined || tolerance <= 0 ? {} : { toleranceG: tolerance }) }
  const scales = scalesOf(instruments)
  const finest = scales.toSorted((a, b) => a.readabilityG - b.readabilityG)[0]
  const one = scales.find((s) => s.id === values['bench.cure.scale']) ?? finest
  return one && { readabilityG: one.readabilityG, ...(one.toleranceG ? { toleranceG: one.toleranceG } : {}) }
}

/** Whether the scale fits the dose; if not, the smallest batch that would, a finer scale, or a blend of cure in salt. */
export function ScaleDecides({ form, recipe, worked, instruments }: Props) {
  const scales = instruments.filter((i) => i.type === 'scale' && !i.retired)
  return (
    <>
      <h3>The scale decides</h3>
      <div class="row top">
        <FormChoice
          form={form}
          name="bench.cure.scale"
          label="Weighed on"
          options={[
            { value: '', label: 'the finest scale here' },
            ...scales.map((s) => ({ value: s.instrument, label: `${s.name}, reads ${number(s.readabilityG)} g` })),
          ]}
        />
        <NumberField
          form={form}
          name="bench.cure.readabilityG"
          label="Or a scale that reads"
          unit="g"
          above={0}
          max={100000}
        />
        <NumberField form={form} name="bench.cure.toleranceG" label="and is right within" unit="g" max={100000} />
      </div>
      <Held recipe={recipe} worked={worked} scale={scaleOf(form, instruments)} form={form} />
    </>
  )
}

function Held({
  recipe,
  worked,
  scale,
  form,
}: {
  recipe: Recipe
  worked: Worked
  scale: Scale | undefined
  form: Form
}) {
  const { totals, lines, cure } = worked.computed
  const line = lines.find((l) => strengthOf(findMaterial(l.material)?.agent ?? {}).nitrite > 0 && l.kg > 0)
  const agent = line && findMaterial(line.material)?.agent
  const target = recipe.nitriteTarget
  if (!line || !agent) return <p class="hint">No cure of the recipe brings nitrite.</p>
  if (!target)
    return (
      <p>
        <VerdictMark verdict="cannot-tell" /> The recipe states no band of ingoing nitrite: say it above, and the scale
        is held to it.
      </p>
    )
  if (!scale) return <p class="hint">No scale in the kitchen: type what one reads.</p>
  const held = weighing({ agentKg: line.kg, composition: agent, basisKg: totals.meatKg, scale, target })
  return (
    <>
      <p>
        <VerdictMark
          verdict={held.verdict === 'fit' ? 'pass' : 'fail'}
          label={held.verdict === 'fit' ? 'Scale fits' : 'Scale too coarse'}
        />{' '}
        {line.name}, {mass(line.kg)}: nitrite between {number(held.lowPpm, 4)} and {number(held.highPpm, 4)} ppm, 95
        times in 100.
      </p>
      <Told
        rows={[
          ['Band of the recipe', `${number(target.lowPpm)} to ${number(target.highPpm)} ppm`],
          [
            'Smallest batch this scale fits',
            held.smallestFitBasisKg === null ? 'none' : `${mass(held.smallestFitBasisKg)} of meat`,
          ],
        ]}
      />
      {held.verdict === 'unfit' && (
        <ul>
          {held.advice.slice(1).map((a) => (
            <li key={a}>{a}</li>
          ))}
        </ul>
      )}
      <Working figure="Working" steps={held.working} />
      <Blended
        form={form}
        line={line}
        agent={agent}
        scale={scale}
        target={target}
        meatKg={totals.meatKg}
        saltKg={cure.addedSaltKg}
      />
    </>
  )
}

/** Cure diluted in the salt of several batches. */
function Blended({
  form,
  line,
  agent,
  scale,
  target,
  meatKg,
  saltKg,
}: {
  form: Form
  line: { kg: number }
  agent: NonNullable<NonNullable<ReturnType<typeof findMaterial>>['agent']>
  scale: Scale
  target: { lowPpm: number; highPpm: number }
  meatKg: number
  saltKg: number
}) {
  const batches = readerOf(form.values.value).number('bench.cure.batches')
  const made = ((): ReturnType<typeof preblend> | string | undefined => {
    if (batches === undefined) return undefined
    if (!Number.isInteger(batches) || batches < 1 || batches > 1000) return 'is not a whole number from 1 to 1000'
    try {
      return preblend({
        basisKg: meatKg,
        // What the line gives as it stands.
        targetNitritePpm: weighing({ agentKg: line.kg, composition: agent, basisKg: meatKg, scale, target }).nitritePpm,
        agent: { composition: agent },
        totalSaltKg: saltKg,
        batches,
        blendScale: scale,
        batchScale: scale,
        target,
      })
    } catch (error) {
      if (error instanceof InvalidInput) return error.faults.map((f) => f.message).join('; ')
      throw error
    }
  })()
  return (
    <>
      <h3>Or cure in the salt of several batches</h3>
      <NumberField form={form} name="bench.cure.batches" label="Batches in one blend" min={1} max={1000} whole />
      {typeof made === 'string' && <p class="fault">{made}</p>}
      {made && typeof made !== 'string' && (
        <>
          <p>
            <VerdictMark
              verdict={made.verdict === 'fit' ? 'pass' : 'fail'}
              label={made.verdict === 'fit' ? 'Fits' : 'Does not fit'}
            />{' '}
            {mass(made.agentKg)} of cure and {mass(made.saltKg)} of salt make {mass(made.blendKg)}; each batch takes{' '}
            {mass(made.perBatchKg)} and no other salt. Nitrite {number(made.lowPpm, 4)} to {number(made.highPpm, 4)}{' '}
            ppm.
          </p>
          <ul>
            {made.advice.map((a) => (
              <li key={a}>{a}</li>
            ))}
          </ul>
          <Working figure="Working" steps={made.working} />
        </>
      )}
    </>
  )
}
