import type { Material } from '../materials/schema.ts'
import { figures } from '../rules.ts'
import { itemName, materialOfItem, type LabelItem, type labelRoles } from './label-item.ts'
import type { PlaceWords } from './label-rules.ts'

export type Role = (typeof labelRoles)[number]

export const wordsFor = (words: PlaceWords, place: string): string =>
  place === 'US' ? (words.US ?? words.default) : words.default

const meats: readonly Material['category'][] = [
  'pork',
  'beef',
  'veal',
  'lamb',
  'goat',
  'chicken',
  'turkey',
  'duck',
  'game',
]

/** First words of a table name: "Mustard seed, ground" is mustard seed, "Maize (corn) starch" maize starch. */
const bare = (name: string): string =>
  name
    .replaceAll(/\s*\([^)]*\)/g, '')
    .split(',')[0]!
    .trim()
    .replace(/^[A-Z](?![A-Z])/, (c) => c.toLowerCase())

/** Meat taken off the bone by machine, which no place counts as meat. */
export const isMechanicallySeparated = (m: Material): boolean => /mechanically separated/i.test(m.name)

/** What an item is to the list, from what is said of it or from its material. */
export function roleOf(item: LabelItem): Role {
  if (item.role) return item.role
  const m = materialOfItem(item)
  if (!m) return item.additive ? 'additive' : 'ingredient'
  if (item.additive || figures('labelling').additiveOf[m.id] !== undefined) return 'additive'
  if (m.category === 'fat') return m.meatBlock ? 'fat' : 'ingredient'
  if (meats.includes(m.category)) return 'meat'
  const same = ['rind', 'water', 'spice', 'herb', 'smoke', 'culture'] as const
  return same.find((r) => r === m.category) ?? 'ingredient'
}

/** Name of an item for the label of a place: its own, or its material's, meat by its species. */
export function labelName(item: LabelItem, place: string): string {
  if (item.name !== undefined) return item.name
  const m = materialOfItem(item)
  if (!m) return itemName(item)
  const named = figures('labelling').names[m.id]
  if (named) return wordsFor(named, place)
  const species = item.species ?? m.species
  const base = bare(m.name)
  // No meat by definition, and named as what it is (Regulation (EU) 1169/2011, Annex VII B 17 and 18; 9 CFR 319.5, from memory).
  if (isMechanicallySeparated(m)) return `mechanically separated ${species?.replace('-', ' ') ?? base}`
  if (species === undefined || species === 'other') return base
  const animal = species.replace('-', ' ')
  if (meats.includes(m.category)) return animal
  if (m.category === 'fat') return /lard|suet|tallow/i.test(base) ? base : `${animal} fat`
  if (m.category === 'rind') return `${animal} rind`
  if (m.category === 'blood') return `${animal} blood`
  return base
}
