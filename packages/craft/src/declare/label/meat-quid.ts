import { findMaterial } from '../../materials/materials.ts'
import { figures } from '../../rules.ts'
import { meatContent, meatSpecies, type MeatContentOutput } from '../meat-content.ts'
import { isMechanicallySeparated } from '../label-name.ts'
import { block } from './blocks.ts'
import type { LabelBlock, LabelInput } from './schema.ts'
import { compositionFor, type Stated } from './statement-of.ts'

type Species = (typeof meatSpecies)[number]

/** Less than this is the last bits of a sum. */
const EXCESS_KG = 1e-9

const isSpecies = (s: string | undefined): s is Species => (meatSpecies as readonly (string | undefined)[]).includes(s)

/** Species of a material that counts as meat or its fat; nothing for rind, offal, blood and all that is not of an animal. */
export function meatSpeciesOf(material: string): Species | undefined {
  const m = findMaterial(material)
  if (
    !m?.meatBlock ||
    isMechanicallySeparated(m) ||
    figures('labelling').notMeat.includes(m.id) ||
    m.category === 'rind' ||
    m.category === 'offal' ||
    m.category === 'blood'
  )
    return undefined
  return isSpecies(m.species) ? m.species : undefined
}

/** Whether a material is the lean part of a species, beside whose name the quantity stands. */
export const isMeat = (material: string): boolean =>
  meatSpeciesOf(material) !== undefined && findMaterial(material)?.category !== 'fat'

export type MeatQuid = {
  /** Percent to stand beside the name of a species: whole, or as reckoned where all together are over 100 and stand as g per 100 g. */
  readonly quid: Readonly<Record<string, number>>
  /** Fat and connective tissue over the limits of what counts as meat, kg, by species: to be named by themselves. */
  readonly excess?: Readonly<Record<string, { readonly fatKg: number; readonly connectiveKg: number }>>
  readonly content?: MeatContentOutput
  /** Materials whose fat, protein or collagen nobody gives, where the figure turns on it. */
  readonly unknown: readonly string[]
  /** That collagen is all they lack. */
  readonly collagenOnly?: boolean
}

/**
 * Meat of each species as percent of everything weighed in, added water that is removed left out.
 *
 * @source Australia New Zealand Food Standards Code, Standard 1.2.10, 1.2.10—4
 */
export function ingoingQuid(stated: readonly Stated[], totalKg: number, lossPct: number | undefined): MeatQuid {
  const waterKg = stated.reduce(
    (s, { item }) => s + (findMaterial(item.material)?.category === 'water' ? item.kg : 0),
    0,
  )
  const removedKg = Math.min(waterKg, (totalKg * (lossPct ?? 0)) / 100)
  const meats = stated.filter((s) => s.item.kg > 0 && isMeat(s.item.material))
  const kgOf = (species: string) =>
    meats.filter((s) => meatSpeciesOf(s.item.material) === species).reduce((s, m) => s + m.item.kg, 0)
  const species = [...new Set(meats.flatMap((s) => meatSpeciesOf(s.item.material) ?? []))]
  return {
    unknown: [],
    quid: Object.fromEntries(species.map((s) => [s, Math.floor((100 * kgOf(s)) / (totalKg - removedKg) + 1e-9)])),
  }
}

/** Whether two reckonings come to the same declaration. */
const sameDeclared = (a: MeatQuid, b: MeatQuid): boolean => {
  const flat = (q: MeatQuid) => [
    ...Object.entries(q.quid),
    ...Object.entries(q.excess ?? {}).flatMap(([s, e]) => [
      [`${s} fat`, e.fatKg] as const,
      [`${s} tissue`, e.connectiveKg] as const,
    ]),
  ]
  const other = new Map(flat(b))
  const own = flat(a)
  return own.length === other.size && own.every(([k, v]) => Math.abs((other.get(k) ?? Infinity) - v) < EXCESS_KG)
}

/**
 * Meat to declare by species. With a spread of fat the figure is the one the maker can stand behind: the lower end of its interval, rounded
 * down. Collagen nobody gives lies between none and all of the protein: where both ends come to the same declaration, that is it.
 */
export function meatQuid(stated: readonly Stated[], totalKg: number, lossPct: number | undefined): MeatQuid {
  const meats = stated.filter((s) => s.item.kg > 0 && meatSpeciesOf(s.item.material) !== undefined)
  const lacks = (s: Stated) => {
    const c = compositionFor(s)
    return c?.fatPct === undefined || c.proteinPct === undefined ? 'all' : c.collagenPct === undefined ? 'collagen' : ''
  }
  const open = meats.filter((s) => lacks(s) !== '')
  if (open.length === 0 || open.some((s) => lacks(s) === 'all')) return meatQuidAt(meats, totalKg, lossPct)
  const [most, least] = [1, 0].map((share) => meatQuidAt(meats, totalKg, lossPct, share))
  return sameDeclared(most!, least!) ? most! : { ...meatQuidAt(meats, totalKg, lossPct), collagenOnly: true }
}

/** The same with collagen nobody gives taken as a share of the protein, or left unknown. */
function meatQuidAt(
  meats: readonly Stated[],
  totalKg: number,
  lossPct: number | undefined,
  collagenShare?: number,
): MeatQuid {
  const compositionOf = (s: Stated) => {
    const c = compositionFor(s)
    return c?.proteinPct === undefined || c.collagenPct !== undefined || collagenShare === undefined
      ? c
      : { ...c, collagenPct: c.proteinPct * collagenShare }
  }
  const parts = meats.flatMap((s) => {
    const c = compositionOf(s)
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
      const c = compositionOf(s)
      return c?.fatPct === undefined || c.proteinPct === undefined || c.collagenPct === undefined
    })
    .map((s) => findMaterial(s.item.material)?.name ?? s.item.material)
  if (parts.length === 0 || unknown.length > 0) return { quid: {}, unknown: [...new Set(unknown)] }
  const content = meatContent({
    parts,
    totalKg,
    ...(lossPct === undefined || lossPct === 0 ? {} : { finishedKg: totalKg * (1 - lossPct / 100) }),
  })
  const basisKg = totalKg * (1 - (lossPct ?? 0) / 100)
  const bySpecies = [...new Set(parts.map((p) => p.species))].map((species) => {
    // Each species' share of its group's declarable meat by weight, of its excess fat by its fat, of its excess tissue by its collagen.
    const group = content.perSpecies.find((g) => g.species.includes(species))!
    const inGroup = parts.filter((p) => group.species.includes(p.species))
    const share = (of: (p: (typeof parts)[number]) => number): number => {
      const all = inGroup.reduce((s, p) => s + of(p), 0)
      return all === 0 ? 0 : inGroup.filter((p) => p.species === species).reduce((s, p) => s + of(p), 0) / all
    }
    return {
      species,
      pct: (group.lowPct ?? group.meatPct) * share((p) => p.kg),
      fatKg: (group.excessFatPct / 100) * basisKg * share((p) => p.kg * p.fatPct),
      connectiveKg: (group.excessConnectivePct / 100) * basisKg * share((p) => p.kg * p.collagenPct),
    }
  })
  const over = bySpecies.reduce((sum, s) => sum + s.pct, 0) > 100
  return {
    content,
    unknown: [],
    quid: Object.fromEntries(bySpecies.map((s) => [s.species, over ? s.pct : Math.floor(s.pct + 1e-9)])),
    excess: Object.fromEntries(
      bySpecies.flatMap(({ species, fatKg, connectiveKg }) =>
        fatKg > EXCESS_KG || connectiveKg > EXCESS_KG ? [[species, { fatKg, connectiveKg }]] : [],
      ),
    ),
  }
}

/** The measures of the product with its declared meat by what the suppliers say, of all that goes in, where that is known. */
export function withDeclared(input: LabelInput, { content }: MeatQuid): LabelInput {
  if (content === undefined) return input
  const { product, lossPct = 0 } = input
  // The lower of what the table and the lots give and what the suppliers say.
  const declaredMeatPct = Math.min(content.meatPct * (1 - lossPct / 100), product.measures?.['declaredMeatPct'] ?? 100)
  return { ...input, product: { ...product, measures: { ...product.measures, declaredMeatPct } } }
}

/** What stops a label whose meat content nobody can tell. */
export const meatBlocks = ({ unknown, collagenOnly }: MeatQuid): LabelBlock[] =>
  unknown.length === 0
    ? []
    : [
        block(
          'meat-content',
          `The meat content is not known: ${unknown.join(', ')} ${unknown.length > 1 ? 'have' : 'has'} no figure for ${collagenOnly ? 'collagen' : 'fat, protein or collagen'}`,
          `enter the ${collagenOnly ? 'collagen' : 'composition, with collagen,'} from the specification or an analysis of the lot`,
        ),
      ]
