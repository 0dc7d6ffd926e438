import { z } from 'zod'
import { acid } from '../../ferment/acid.ts'
import { acidInput, acidOutput } from '../../ferment/acid-schema.ts'
import type { Part } from '../lines.ts'
import { kgOf } from '../identity.ts'
import type { Recipe } from '../schema.ts'
import { sugarsOf } from './sugars.ts'

export const acidOfOutput = z.union([
  z.strictObject({
    known: z.literal(true),
    /** What the model was asked, from the recipe's own parts. */
    asked: acidInput,
    sugars: z.array(
      z.strictObject({
        material: z.string(),
        name: z.string(),
        kind: z.enum(['dextrose', 'sucrose', 'lactose']),
        pct: z.number(),
      }),
    ),
    ...acidOutput.shape,
  }),
  z.strictObject({ known: z.literal(false), because: z.string(), settle: z.string() }),
])
export type AcidOf = z.infer<typeof acidOfOutput>

const unknown = (because: string, settle: string): AcidOf => ({ known: false, because, settle })

/** Figures of a recipe carry float noise; the model needs none of it. */
const figure = (x: number): number => Number(x.toFixed(6))

/**
 * The end pH a recipe's own sugars, acidulant and lean can bring about. Lean is what the meat holds beside its fat, percent of the mix.
 * Without the pH of the mix, or without sugar and acidulant, nothing is said.
 */
export function acidOf(recipe: Recipe, parts: readonly Part[]): AcidOf | undefined {
  const { ferment } = recipe
  if (ferment === undefined)
    return recipe.kind === 'fermented'
      ? unknown(
          'the recipe does not say at which pH its fermentation is ended',
          'the pH to reach, and the pH of the mix',
        )
      : undefined
  const totalKg = kgOf(parts, () => true)
  const { sugars, unknown: unread } = sugarsOf(parts, totalKg)
  if (unread.length > 0)
    return unknown(`the sugar of ${unread.join(', ')} is not known`, 'its sugar, from a specification')
  const gdlPct = (100 * kgOf(parts, (p) => p.material.id === 'glucono-delta-lactone')) / totalKg
  if (sugars.length === 0 && gdlPct === 0)
    return unknown(
      'the recipe holds neither sugar nor acidulant: what a culture finds in the meat alone is not known',
      'the sugar or glucono-delta-lactone that goes in',
    )
  if (ferment.startPh === undefined)
    return unknown('the pH of the mix is not known', 'the pH of the mix as stuffed, with a meter calibrated that day')
  let fatFreeKg = 0
  for (const p of parts) {
    if (p.role !== 'meat' || p.kg === 0) continue
    if (p.composition.fatPct === undefined)
      return unknown(`the fat of ${p.material.name} is not known`, 'its fat, from an analysis or a specification')
    fatFreeKg += p.kg * (1 - p.composition.fatPct / 100)
  }
  const of = (kind: string) => figure(sugars.reduce((s, x) => (x.kind === kind ? s + x.pct : s), 0))
  const asked = acidInput.safeParse({
    startPh: ferment.startPh,
    targetPh: ferment.targetPh,
    dextrosePct: of('dextrose'),
    sucrosePct: of('sucrose'),
    lactosePct: of('lactose'),
    gdlPct: figure(gdlPct),
    leanPct: figure((100 * fatFreeKg) / totalKg),
    culture: ferment.culture !== undefined || parts.some((p) => p.kg > 0 && p.material.category === 'culture'),
  })
  if (!asked.success) {
    const { path, message } = asked.error.issues[0]!
    return unknown(`${path.join('.')} ${message}`, 'figures within what the model was made for, or a trial batch')
  }
  return { known: true, asked: asked.data, sugars, ...acid(asked.data) }
}
