import { block } from './blocks.ts'
import type { LabelBlock, LabelInput } from './schema.ts'

const kg = (n: number): string => `${Number(n.toFixed(3))} kg`

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

/** Packings recorded with an earlier date than the label would say. */
const useByBlocks = ({ packings }: LabelInput, date: string | undefined): LabelBlock[] =>
  (packings ?? [])
    .filter((p) => p.useBy !== undefined && date !== undefined && date > p.useBy)
    .map((p) =>
      block(
        `use-by:${p.pack}`,
        `Packing ${p.pack} is recorded with the date ${p.useBy}; this label would say ${date}, which is later`,
        'shorten the shelf life, or correct the entry of the packing',
      ),
    )

/**
 * What the record of the batch as it was made says against its label. `named`: allergens the label declares or says it may contain; `date`:
 * the day of its date mark.
 */
export const madeBlocks = (input: LabelInput, named: readonly string[], date?: string): LabelBlock[] => [
  ...useByBlocks(input, date),
  ...packBlocks(input),
  ...reworkBlocks(input, named),
]
