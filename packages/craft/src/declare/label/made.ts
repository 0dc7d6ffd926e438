import { block } from './blocks.ts'
import type { LabelBlock, LabelInput } from './schema.ts'

/** Points by which what a batch lost may differ from the loss its figures use before somebody has to say why. Common practice, no source. */
const LOSS_POINTS = 3

const kg = (n: number): string => `${Number(n.toFixed(3))} kg`

/** A loss the record tells otherwise than the figures of the label do. */
function lossBlock({ batch, made, lossPct = 0 }: LabelInput): LabelBlock[] {
  if (!made) return []
  const outKg = made.packedKg + (made.reworkKg ?? 0)
  const own = 100 * (1 - outKg / made.inKg)
  if (Math.abs(own - lossPct) <= LOSS_POINTS) return []
  const rework = made.reworkKg ? ` and ${kg(made.reworkKg)} taken as rework` : ''
  const used =
    made.lossOf === 'pieces'
      ? `the ${Number(lossPct.toFixed(1))} % its weighed pieces lost`
      : made.lossOf === 'recipe'
        ? `the ${Number(lossPct.toFixed(1))} % of the recipe`
        : 'no loss, as the recipe gives none'
  return [
    block(
      `loss:${batch ?? ''}`,
      `Weighed in ${kg(made.inKg)}, packed ${kg(made.packedKg)}${rework}: ${Number(own.toFixed(1))} % less. The figures of this label (nutrition, quantity of ingredients) use ${used}`,
      'say what the difference is (not all packed yet, trim, samples) and that the figures hold, or save the recipe with the loss it has',
      'person',
    ),
  ]
}

/** Half of the last place a weight was recorded to; a whole number of kilograms is taken as read to the tenth. */
function readingHalf(totalKg: number): number {
  const places = /\.(\d+)$/.exec(String(totalKg))?.[1]?.length ?? 0
  return 0.5 * 10 ** -Math.max(1, places)
}

/** Mean weights of recorded packings under the net weight printed on them. A packing may carry another label: one that reaches it is looked for. */
function packBlocks({ packings, pack: { netG } }: LabelInput): LabelBlock[] {
  if (netG === undefined || !packings || packings.length === 0) return []
  const means = packings.map(({ pack, count, totalKg }) => ({
    pack,
    count,
    totalKg,
    meanG: (1000 * totalKg) / count,
    highG: (1000 * (totalKg + readingHalf(totalKg))) / count,
  }))
  const under = means.filter((m) => m.meanG < netG - 1e-9)
  if (under.length === 0) return []
  const said = under.map((m) => `${m.pack}: ${kg(m.totalKg)} in ${m.count} packs, ${m.meanG.toFixed(1)} g each`)
  const reached = means.some((m) => m.highG >= netG - 1e-9)
  const what = `The packs recorded weigh less on average than the ${netG} g printed: ${said.join('; ')}`
  return reached
    ? under.map((m) =>
        block(
          `pack-mean:${m.pack}`,
          m.highG >= netG
            ? `${what}; the weight was recorded too coarsely to tell`
            : `${what}; another packing reaches it`,
          'weigh packs drawn at random; or say that the packing carries another label, or why it holds',
          'person',
        ),
      )
    : [block('pack-mean', what, 'print the weight that is in the packs, or correct the entry of the packing')]
}

/** Allergens a lot of rework was recorded with and the label does not name. */
const reworkBlocks = ({ reworkAllergens }: LabelInput, named: readonly string[]): LabelBlock[] =>
  (reworkAllergens ?? []).flatMap(({ lot, allergens }) =>
    allergens
      .filter((a) => !named.includes(a))
      .map((a) =>
        block(
          `rework-allergen:${lot}:${a}`,
          `The rework ${lot} is recorded with ${a}, which stands nowhere on this label`,
          'enter the statement of the material that brings it, or correct the entry of the rework',
        ),
      ),
  )

/** What the record of the batch as it was made says against its label. `named`: allergens the label declares or says it may contain. */
export const madeBlocks = (input: LabelInput, named: readonly string[]): LabelBlock[] => [
  ...lossBlock(input),
  ...packBlocks(input),
  ...reworkBlocks(input, named),
]
