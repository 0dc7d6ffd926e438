import { findMaterial } from '../../materials/materials.ts'
import { meatContent, meatSpecies, type MeatContentOutput } from '../meat-content.ts'
import { compositionFor, type Stated } from './statement-of.ts'

type Species = (typeof meatSpecies)[number]
const isSpecies = (s: string | undefined): s is Species => (meatSpecies as readonly (string | undefined)[]).includes(s)

/** Species of a material that counts as meat or its fat; nothing for rind, offal, blood and all that is not of an animal. */
export function meatSpeciesOf(material: string): Species | undefined {
  const m = findMaterial(material)
  if (!m?.meatBlock || m.category === 'rind' || m.category === 'offal' || m.category === 'blood') return undefined
  return isSpecies(m.species) ? m.species : undefined
}

/** Whether a material is the lean part of a species, beside whose name the quantity stands. */
export const isMeat = (material: string): boolean =>
  meatSpeciesOf(material) !== undefined && findMaterial(material)?.category !== 'fat'

export type MeatQuid = {
  readonly quid: Readonly<Record<string, number>>
  readonly content?: MeatContentOutput
  /** Materials whose fat, protein or collagen nobody gives. */
  readonly unknown: readonly string[]
}

/**
 * Meat to declare by species. With a spread of fat the figure is the one the maker can stand behind, for one species the lower end of the
 * interval.
 */
export function meatQuid(stated: readonly Stated[], totalKg: number, lossPct: number | undefined): MeatQuid {
  const meats = stated.filter((s) => s.item.kg > 0 && meatSpeciesOf(s.item.material) !== undefined)
  const parts = meats.flatMap((s) => {
    const c = compositionFor(s)
    // Collagen of pure fat counts for little, but it is not nothing, so it is asked for as well.
    if (c?.fatPct === undefined || c.proteinPct === undefined || c.collagenPct === undefined) return []
    const sd = s.item.fatSdPct
    return [
      {
        kg: s.item.kg,
        species: meatSpeciesOf(s.item.material)!,
        fatPct: c.fatPct,
        proteinPct: c.proteinPct,
        collagenPct: Math.min(c.collagenPct, c.proteinPct),
        ...(sd === undefined ? {} : { fatSdPct: sd }),
      },
    ]
  })
  const unknown = meats
    .filter((s) => {
      const c = compositionFor(s)
      return c?.fatPct === undefined || c.proteinPct === undefined || c.collagenPct === undefined
    })
    .map((s) => findMaterial(s.item.material)?.name ?? s.item.material)
  if (parts.length === 0 || unknown.length > 0) return { quid: {}, unknown: [...new Set(unknown)] }
  const content = meatContent({
    parts,
    totalKg,
    ...(lossPct === undefined || lossPct === 0 ? {} : { finishedKg: totalKg * (1 - lossPct / 100) }),
  })
  const bySpecies = [...new Set(parts.map((p) => p.species))].map((species) => {
    // Each species' share of its group's declarable meat, by weight.
    const group = content.perSpecies.find((g) => g.species.includes(species))!
    const inGroup = parts.filter((p) => group.species.includes(p.species))
    const own = inGroup.filter((p) => p.species === species)
    const share = own.reduce((s, p) => s + p.kg, 0) / inGroup.reduce((s, p) => s + p.kg, 0)
    return [species, group.meatPct * share] as const
  })
  const alone = bySpecies.length === 1 && content.standBehindPct !== undefined
  return {
    content,
    unknown: [],
    quid: Object.fromEntries(bySpecies.map(([s, pct]) => [s, alone ? content.standBehindPct! : Math.floor(pct)])),
  }
}
