import { InvalidInput } from '../../calculation.ts'
import type { NutritionOutput } from '../nutrition-schema.ts'
import { block } from './blocks.ts'
import type { LabelBlock, LabelInput, LabelOutput } from './schema.ts'

/** Points by which what a batch lost may differ from the loss its figures use before somebody has to say why. Common practice, no source. */
const LOSS_POINTS = 3

export type OwnLoss = { readonly lossPct: number; readonly of: 'pieces' | 'packs' }
type Other = NonNullable<LabelOutput['nutritionOwn']>[number]

const kg = (n: number): string => `${Number(n.toFixed(3))} kg`
const pct = (n: number): string => `${Number(n.toFixed(1))} %`

/** What the record tells of the loss of a batch, beside the loss its figures use: of its weighed pieces, and of all that was packed. */
export function ownLosses({ made }: LabelInput): OwnLoss[] {
  if (!made) return []
  const packed = 100 * (1 - (made.packedKg + (made.reworkKg ?? 0)) / made.inKg)
  return [
    ...(made.piecesLossPct === undefined ? [] : [{ lossPct: made.piecesLossPct, of: 'pieces' as const }]),
    { lossPct: packed, of: 'packs' as const },
  ]
}

/** The table of the label held against the one by the batch's own loss: what prints otherwise, and what lies outside the tolerance of what is printed. */
function compared(table: NutritionOutput, own: NutritionOutput, { lossPct, of }: OwnLoss): Other {
  const value = (r: NutritionOutput['panel'][number]) => (table.basis === 'per serving' ? r.perServing : r.per100g)
  const printed = (r: NutritionOutput['panel'][number]) =>
    table.basis === 'per serving' ? r.declaredPerServing : r.declaredPer100g
  return {
    lossPct,
    of,
    rows: table.panel.flatMap((r, i) => {
      const other = own.panel[i]!
      const now = value(other)
      if (!r.mandatory || printed(r) === undefined) return []
      const { low, high } = r.tolerance ?? {}
      const outside =
        now !== undefined && ((low !== undefined && now < low - 1e-9) || (high !== undefined && now > high + 1e-9))
      return [
        {
          key: r.key,
          label: r.label,
          unit: r.unit,
          printed: printed(r)!,
          ...(printed(other) === undefined ? {} : { own: printed(other)! }),
          ...(low === undefined ? {} : { low }),
          ...(high === undefined ? {} : { high }),
          outside,
        },
      ]
    }),
  }
}

/**
 * The nutrition table by what the batch itself lost, beside that of the label, for every loss the record tells. `tableFor` makes one for a loss.
 * A loss that cannot have been, more than went in or more fat than all that left, makes none.
 */
export function tablesByOwnLoss(
  input: LabelInput,
  table: NutritionOutput | undefined,
  tableFor: (lossPct: number) => NutritionOutput | undefined,
): Other[] {
  if (!table) return []
  return ownLosses(input).flatMap((own) => {
    if (own.lossPct < 0 || own.lossPct > 95 || Math.abs(own.lossPct - (input.lossPct ?? 0)) < 1e-9) return []
    try {
      const made = tableFor(own.lossPct)
      return made ? [compared(table, made, own)] : []
    } catch (error) {
      if (error instanceof InvalidInput) return []
      throw error
    }
  })
}

const rowsSaid = (rows: Other['rows']): string =>
  rows.map((r) => `${r.label} ${r.own ?? '?'} for ${r.printed} ${r.unit}`).join(', ')

/** What two tables say of each other, in words. */
function saidOf(other: Other | undefined): string {
  if (!other) return ''
  const outside = other.rows.filter((r) => r.outside)
  const otherwise = other.rows.filter((r) => r.own !== r.printed)
  const untold = other.rows.every((r) => r.low === undefined && r.high === undefined)
  if (other.rows.length === 0)
    return '. No value of the nutrition table is known well enough to be reckoned by its own loss'
  if (otherwise.length === 0) return '. By its own loss the nutrition table prints the same'
  if (untold)
    return `. By its own loss the nutrition table prints ${rowsSaid(otherwise)}; no tolerance of this place is held`
  return outside.length === 0
    ? `. By its own loss the nutrition table prints ${rowsSaid(otherwise)}; each lies within the tolerance of what is printed, as far as memory holds it`
    : `. By its own loss the nutrition table prints ${rowsSaid(otherwise)}; outside the tolerance of what is printed, as far as memory holds it: ${outside.map((r) => r.label).join(', ')}`
}

/** A loss the record tells otherwise than the figures of the label do; of weighed pieces also where a value of the table leaves its tolerance. */
export function lossBlocks(input: LabelInput, others: readonly Other[]): LabelBlock[] {
  const { batch, made, lossPct = 0 } = input
  if (!made) return []
  const used =
    made.lossOf === 'pieces'
      ? `the ${pct(lossPct)} its weighed pieces lost`
      : made.lossOf === 'recipe'
        ? `the ${pct(lossPct)} of the recipe`
        : 'no loss, as the recipe gives none'
  return ownLosses(input).flatMap((own) => {
    const other = others.find((o) => o.of === own.of)
    const far = Math.abs(own.lossPct - lossPct) > LOSS_POINTS
    // What was packed may lack more than was lost; only weighed pieces say it within the three points.
    const out = own.of === 'pieces' && other?.rows.some((r) => r.outside) === true
    if (!far && !out) return []
    const rework = made.reworkKg ? ` and ${kg(made.reworkKg)} taken as rework` : ''
    const what =
      own.of === 'pieces'
        ? `Its weighed pieces lost ${pct(own.lossPct)}`
        : `Weighed in ${kg(made.inKg)}, packed ${kg(made.packedKg)}${rework}: ${Number(own.lossPct.toFixed(1))} % less`
    return [
      block(
        own.of === 'pieces' ? `loss-pieces:${batch ?? ''}` : `loss:${batch ?? ''}`,
        `${what}. The figures of this label (nutrition, quantity of ingredients) use ${used}${saidOf(other)}`,
        own.of === 'pieces'
          ? 'save the recipe with the loss it has, or say why the figures hold'
          : 'say what the difference is (not all packed yet, trim, samples) and that the figures hold, or save the recipe with the loss it has',
        'person',
      ),
    ]
  })
}
