import { InvalidInput } from '../../calculation.ts'
import type { Finding } from '../../finding.ts'
import { netWeight } from '../net-weight.ts'
import { netWeightInput } from '../net-weight-schema.ts'
import type { LabelInput, LabelOutput } from './schema.ts'

export type PackWeights = {
  readonly weighed?: NonNullable<LabelOutput['weighed']>
  readonly findings: readonly Finding[]
  readonly notes: readonly string[]
}

/** A measure as the record holds it, as far as a pack weight goes. */
export type RecordedMeasure = {
  readonly step: string
  readonly what: string
  readonly value?: number | undefined
  readonly unit?: string | undefined
  readonly piece?: string | undefined
}

/** Grams in a unit pack weights are recorded in (international yard and pound, 1959). */
const gramsIn: Readonly<Record<string, number>> = { g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 }

/**
 * Net weights of packs among the measures of a batch: those of packing, in a unit of weight, of no marked piece. The batch is as large as its
 * packs are said to be, where that is not fewer than were weighed.
 *
 * @returns undefined where fewer than two are recorded
 */
export function recordedPackWeights(
  measures: readonly RecordedMeasure[],
  packs: readonly { readonly count: number }[],
  scaleErrorG?: number,
): LabelInput['packWeights'] {
  const weightsG = measures.flatMap((m) => {
    const grams = gramsIn[m.unit ?? '']
    const isPack = m.step === 'pack' && m.what === 'weight' && m.piece === undefined
    return isPack && m.value !== undefined && grams !== undefined && m.value >= 0 ? [m.value * grams] : []
  })
  if (weightsG.length < 2) return undefined
  const batchSize = packs.reduce((s, p) => s + p.count, 0)
  return {
    weightsG,
    ...(batchSize >= weightsG.length ? { batchSize } : {}),
    ...(scaleErrorG === undefined ? {} : { scaleErrorG }),
  }
}

/**
 * Recorded weights of the packs of a batch, held against the net quantity printed on them by the rules of the place.
 *
 * @throws InvalidInput naming the weight or the tare that cannot be
 */
export function packWeightsOf({ place, pack, packWeights, packedOn, batch }: LabelInput): PackWeights {
  if (pack.netG === undefined) return { findings: [], notes: [] }
  if (packWeights === undefined)
    return {
      findings: [],
      notes:
        batch === undefined
          ? []
          : [
              'no pack weights of this batch are recorded: weigh packs drawn at random at packing, and the tare with them',
            ],
    }
  const read = netWeightInput.safeParse({ nominalG: pack.netG, jurisdictions: [place], on: packedOn, ...packWeights })
  if (!read.success)
    throw new InvalidInput(
      read.error.issues.map((i) => ({ path: `packWeights.${i.path.map(String).join('.')}`, message: i.message })),
    )
  const o = netWeight(read.data)
  const target = place === 'US' ? o.targetUs : o.cautiousTarget
  return {
    weighed: {
      n: o.n,
      averageG: o.averageG,
      sdG: o.sdG,
      ...(target === undefined ? {} : { targetFillG: target.fillG }),
    },
    findings: o.findings,
    notes:
      target === undefined
        ? []
        : [`least mean fill with the spread found: ${target.fillG.toFixed(1)} g (${target.boundBy})`],
  }
}
