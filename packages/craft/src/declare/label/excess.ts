import { findMaterial } from '../../materials/materials.ts'
import type { LabelItem } from '../label-item.ts'
import { isMeat, meatSpeciesOf, type MeatQuid } from './meat-quid.ts'

/**
 * The items of a list with the fat and connective tissue that do not count as meat taken out of the meat and named by themselves. Fat
 * weighed in by itself stands in the list as it is; only what goes beyond it is taken out of the lean parts.
 *
 * @source Regulation (EU) 1169/2011, Annex VII, part B, point 17: the list names excess fat and connective tissue beside the meat
 */
export function nameExcess(items: readonly LabelItem[], excess: NonNullable<MeatQuid['excess']>): LabelItem[] {
  const speciesOf = (i: LabelItem) => (i.material === undefined ? undefined : meatSpeciesOf(i.material))
  const lean = (i: LabelItem) => i.material !== undefined && isMeat(i.material)
  const named = Object.entries(excess).flatMap(([species, { fatKg, connectiveKg }]) => {
    const own = items.filter((i) => speciesOf(i) === species)
    const alone = own.filter((i) => findMaterial(i.material!)?.category === 'fat').reduce((s, i) => s + i.kg, 0)
    const leanKg = own.filter(lean).reduce((s, i) => s + i.kg, 0)
    const moreFat = Math.min(Math.max(0, fatKg - alone), leanKg)
    return [{ species, leanKg, fatKg: moreFat, connectiveKg: Math.min(connectiveKg, leanKg - moreFat) }]
  })
  const keep = (i: LabelItem): number => {
    const n = named.find((x) => x.species === speciesOf(i))
    return n === undefined || !lean(i) || n.leanKg === 0 ? 1 : 1 - (n.fatKg + n.connectiveKg) / n.leanKg
  }
  const part = (species: string, what: string, kg: number): LabelItem[] =>
    kg <= 1e-9
      ? []
      : [
          {
            kg,
            name: `${species.replace('-', ' ')} ${what}`,
            role: 'fat',
            allergens: [],
            allergenSource: 'part of the meat it is taken out of',
          },
        ]
  return [
    ...items.map((i) => ({ ...i, kg: i.kg * keep(i) })),
    ...named.flatMap((n) => [
      ...part(n.species, 'fat', n.fatKg),
      ...part(n.species, 'connective tissue', n.connectiveKg),
    ]),
  ]
}
