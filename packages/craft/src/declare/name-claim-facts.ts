import { findMaterial } from '../materials/materials.ts'
import { figures } from '../rules.ts'
import type { Allergen } from './label-rules.ts'
import { isMechanicallySeparated } from './label-name.ts'
import type { HeldBy } from './name-claim-words.ts'

/** One thing that went in. */
export type ClaimItem = {
  readonly material: string
  readonly kg: number
  /** Its own name and those of its parts. */
  readonly texts: readonly string[]
}

/** What a name is held against. */
export type ClaimFacts = {
  readonly items: readonly ClaimItem[]
  readonly listText: string
  readonly allergens: readonly Allergen[]
  readonly cured: boolean
  readonly kind: string
  readonly smoked: boolean
  readonly readyToEat: boolean
  readonly heatTreated?: boolean | undefined
  readonly frozen: boolean
  /** Meat by species as declared, percent, where the place asks for it. */
  readonly declaredPct?: Readonly<Record<string, number>>
}

/** Something a name says: contradicted by what went in, borne out by it, or not to be shown by any list. */
export type NameClaim = {
  readonly says: string
  readonly standing: 'contradicted' | 'borne out' | 'unproved'
  readonly because: string
  readonly settle?: string
}

export type NameClaimsQuestion = { readonly place: string; readonly claims: readonly NameClaim[] }

const meats = ['pork', 'beef', 'veal', 'lamb', 'goat', 'chicken', 'turkey', 'duck', 'game']
export const materialOf = (i: ClaimItem) => findMaterial(i.material)
/** Words of an item that a name may take up: what the table calls it, and its own name and list. */
export const textOf = (i: ClaimItem): string => [materialOf(i)?.name ?? '', ...i.texts].join(', ').toLowerCase()
export const starts = (ids: readonly string[] | undefined, material: string): boolean =>
  ids?.some((id) => material.startsWith(id)) === true

/** Flesh that is named by its animal; bacon and salt pork are. */
export const isFlesh = (i: ClaimItem): boolean => {
  const m = materialOf(i)
  return m !== undefined && meats.includes(m.category) && !isMechanicallySeparated(m)
}

/** Any part of an animal but casings and gelatine: flesh, flesh off the bone by machine, fat, offal, rind, blood. */
export const isAnimalPart = (i: ClaimItem): boolean => {
  const m = materialOf(i)
  return m?.species !== undefined && [...meats, 'fat', 'offal', 'rind', 'blood'].includes(m.category)
}

/** What is of an animal and no meat of it. */
export const isBareFat = (i: ClaimItem): boolean => ['fat', 'rind', 'blood'].includes(materialOf(i)?.category ?? '')

export const isOf = (by: HeldBy, i: ClaimItem): boolean => {
  const m = materialOf(i)
  if (starts(by.notMaterials, i.material)) return false
  return (
    starts(by.materials, i.material) ||
    (m?.species !== undefined && by.species?.includes(m.species) === true) ||
    (m !== undefined && by.categories?.includes(m.category) === true) ||
    (by.anyMeat === true && isFlesh(i)) ||
    (by.additive === true && figures('labelling').additiveOf[i.material] !== undefined)
  )
}

/** What of a product is what `by` says: names of items, an allergen, words of the list. */
export function heldIn(by: HeldBy, facts: ClaimFacts): string[] {
  const items = facts.items.filter((i) => i.kg > 0 && isOf(by, i)).map((i) => materialOf(i)?.name ?? i.material)
  const carried = (by.allergens ?? []).filter((a) => facts.allergens.includes(a))
  const listed = (by.inList ?? []).flatMap((p) => new RegExp(p, 'iu').exec(facts.listText)?.[0] ?? [])
  const cured = by.cured === true && facts.cured ? ['nitrite or nitrate'] : []
  return [...new Set([...items, ...carried, ...listed, ...cured])]
}

export const contradicted = (says: string, because: string, settle: string): NameClaim => ({
  says,
  standing: 'contradicted',
  because,
  settle,
})
export const unproved = (says: string, because: string, settle: string): NameClaim => ({
  says,
  standing: 'unproved',
  because,
  settle,
})
export const borne = (says: string): NameClaim => ({ says, standing: 'borne out', because: 'what went in agrees' })
