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
