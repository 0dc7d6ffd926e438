import { z } from 'zod'
import { batchCost, batchCostInput, batchCostOutput } from '../../cost/batch.ts'
import { money } from '../../schema.ts'
import type { RecipeComputed } from '../compute-schema.ts'
import type { Recipe } from '../schema.ts'
import type { CasingOf, StuffConditions } from './casing-of.ts'

const asked = batchCostInput.shape
export const costConditions = z.strictObject({
  labour: asked.labour,
  other: asked.other,
  overhead: asked.overhead,
  stuffingLossPct: asked.stuffingLossPct,
  trimLossPct: asked.trimLossPct,
  /** Price of a metre of casing; the metres come from the casing of the recipe. */
  casingPerM: money().optional(),
  packCostEach: money().optional(),
  packPriceEach: asked.pricePerKg,
  pricePerKg: asked.pricePerKg,
  movePct: asked.movePct,
})
export type CostConditions = z.infer<typeof costConditions>

export const costOfOutput = z.union([
  z.strictObject({ known: z.literal(true), ...batchCostOutput.shape }),
  z.strictObject({ known: z.literal(false), because: z.string(), unpriced: z.array(z.string()) }),
])
export type CostOf = z.infer<typeof costOfOutput>

/** The whole cost of a recipe at its size. A part without a price makes it unknown: a sum that leaves one out would look right. */
export function costOf(
  recipe: Recipe,
  { lines, cost }: Pick<RecipeComputed, 'lines' | 'cost'>,
  casing: CasingOf | undefined,
  { packNetG }: StuffConditions,
  at: CostConditions,
): CostOf {
  if (cost.unpriced.length > 0) return { known: false, because: 'parts have no price', unpriced: cost.unpriced }
  const { casingPerM, packCostEach, packPriceEach, other = [], ...rest } = at
  const sized = casing?.known === true ? casing : undefined
  const skins = casingPerM !== undefined && sized ? [{ name: 'Casing', cost: casingPerM * sized.metres }] : []
  const linkG = sized?.fillG ?? recipe.casing?.linkG
  return {
    known: true,
    ...batchCost({
      materials: lines.flatMap((l) => (l.kg > 0 ? [{ name: l.name, kg: l.kg, costPerKg: l.costPerKg! }] : [])),
      ...rest,
      ...(other.length + skins.length > 0 ? { other: [...other, ...skins] } : {}),
      ...(recipe.cook?.lossPct === undefined ? {} : { cookLossPct: recipe.cook.lossPct }),
      ...(recipe.dry === undefined ? {} : { dryLossPct: recipe.dry.lossPct }),
      ...(linkG === undefined ? {} : { linkG }),
      ...(packNetG === undefined
        ? {}
        : {
            pack: {
              netG: packNetG,
              ...(packCostEach === undefined ? {} : { costEach: packCostEach }),
              ...(packPriceEach === undefined ? {} : { priceEach: packPriceEach }),
            },
          }),
    }),
  }
}
