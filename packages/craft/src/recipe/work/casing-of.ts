import { z } from 'zod'
import { massG, quantity } from '../../schema.ts'
import { casing, casingInput, casingOutput } from '../../stuff/casing.ts'
import type { RecipeComputed } from '../compute-schema.ts'
import type { Recipe } from '../schema.ts'

export const stuffConditions = z.strictObject({
  kind: casingInput.shape.casing.shape.kind,
  pieceM: casingInput.shape.casing.shape.pieceM,
  /** Net weight a pack must hold when finished, and links in it: the fill weight follows from the loss. */
  packNetG: massG().optional(),
  linksPerPack: quantity('links', { min: 1, max: 1000 }).optional(),
})
export type StuffConditions = z.infer<typeof stuffConditions>

export const casingOfOutput = z.union([
  z.strictObject({
    known: z.literal(true),
    ...casingOutput.shape,
    /** Whole packs of whole links, where a pack is given. */
    packs: z.number().optional(),
    packFinishedG: z.number().optional(),
    because: z.string(),
  }),
  z.strictObject({ known: z.literal(false), because: z.string() }),
])
export type CasingOf = z.infer<typeof casingOfOutput>

const shown = (x: number): string => String(Number(x.toPrecision(4)))

/** Casing, links and packs of a recipe at its size; with a net weight, each link is filled so that the pack still meets it after its loss. */
export function casingOf(recipe: Recipe, { totals }: Pick<RecipeComputed, 'totals'>, at: StuffConditions): CasingOf {
  const { calibreMm, kgPerM, linkG } = recipe.casing ?? {}
  if (calibreMm === undefined) return { known: false, because: 'the recipe states no calibre' }
  const { packNetG, linksPerPack = 1 } = at
  const finishedLinkG = packNetG === undefined ? undefined : packNetG / linksPerPack
  const lossPct = totals.lossPct ?? (finishedLinkG === undefined ? undefined : 0)
  const out = casing({
    mixKg: totals.totalKg,
    casing: {
      calibreMm,
      ...(kgPerM === undefined ? {} : { kgPerM }),
      ...(at.pieceM === undefined ? {} : { pieceM: at.pieceM }),
      ...(at.kind === undefined ? {} : { kind: at.kind }),
    },
    ...(finishedLinkG === undefined ? (linkG === undefined ? {} : { linkG }) : { finishedLinkG }),
    ...(lossPct === undefined ? {} : { lossPct }),
  })
  const fills =
    finishedLinkG === undefined
      ? ''
      : `; fill each link to ${shown(out.fillG!)} g, so that ${shown(linksPerPack)} of them weigh ${shown(packNetG!)} g after ${shown(lossPct!)} % loss`
  return {
    known: true,
    ...out,
    ...(finishedLinkG === undefined
      ? {}
      : { packs: Math.floor(out.links / linksPerPack), packFinishedG: out.finishedG! * linksPerPack }),
    because: `${shown(out.metres)} m of casing${out.links > 0 ? ` for ${out.links} links` : ''}${fills}`,
  }
}
