import { z } from 'zod'
import { findMaterial } from '../materials/materials.ts'
import { allergens as allAllergens, type Material } from '../materials/schema.ts'
import { figures } from '../rules.ts'
import { list, massKgOrNone, oneOf, pct, quantity, text } from '../schema.ts'
import { allergensIn } from './allergen-words.ts'
import type { Allergen } from './label-rules.ts'
import { languageNames } from './label/languages.ts'
import { unreadLanguage } from './label/words/other-languages.ts'

const allergenList = () => list(oneOf(allAllergens), { max: 15 })

const additiveName = z.strictObject({ class: text(60).optional(), name: text(80), number: text(12).optional() })

const subPart = z.strictObject({
  name: text(120),
  material: text(60).optional(),
  pct: pct().optional(),
  additive: additiveName.optional(),
  allergens: allergenList().optional(),
})

export const labelRoles = [
  'meat',
  'fat',
  'rind',
  'water',
  'additive',
  'spice',
  'herb',
  'flavouring',
  'smoke',
  'culture',
  'ingredient',
] as const

/** An ingredient as it goes into the bowl. */
export const labelItem = z
  .strictObject({
    kg: massKgOrNone(),
    /** Id of a material of the table. */
    material: text(60).optional(),
    /** Name for the label; the material's own where it is absent. */
    name: text(120).optional(),
    role: oneOf(labelRoles).optional(),
    species: text(40).optional(),
    additive: additiveName.optional(),
    /** Allergens it carries; an empty list says it carries none. */
    allergens: allergenList().optional(),
    /** Document the allergen statement comes from. With it the statement may take off what one of its kind can be without. */
    allergenSource: text(200).optional(),
    /** Own list of a compound ingredient, most first. */
    parts: list(subPart, { min: 1, max: 60 }).optional(),
    /** Allergens it may carry by cross-contact, by its supplier's word. */
    mayContain: allergenList().optional(),
    /** Quantity to declare beside the name, percent. */
    quidPct: quantity('% by mass', { min: 0, max: 1000 }).optional(),
  })
  .superRefine((i, ctx) => {
    if (i.material === undefined && i.name === undefined)
      ctx.addIssue({ code: 'custom', message: 'has neither material nor name; allowed: one of the two, or both' })
    if (i.material !== undefined && i.name === undefined && !findMaterial(i.material))
      ctx.addIssue({
        code: 'custom',
        path: ['material'],
        message: `is "${i.material.slice(0, 40)}", which the table does not hold; allowed: an id of the materials table, or a name beside it`,
      })
  })
export type LabelItem = z.infer<typeof labelItem>

export const materialOfItem = (item: { material?: string | undefined }): Material | undefined =>
  item.material === undefined ? undefined : findMaterial(item.material)

export const itemName = (item: LabelItem): string =>
  item.name ?? materialOfItem(item)?.name ?? item.material ?? 'an ingredient'

/** True where a material is made of several things, so that only its supplier can say what is in it. */
export function isCompound(material: Material): boolean {
  const { categories, materials } = figures('labelling').compound
  return categories.includes(material.category) || materials.includes(material.id)
}

/** A statement that leaves out what the words of the thing, its list or the table name. */
export type Denied = { readonly allergen: Allergen; readonly by: 'its name' | 'its list' | 'the table' }

export type CarriedAllergens = {
  readonly allergens: readonly Allergen[]
  /** Why nobody can say that these are all; absent where they are. */
  readonly unknown?: string
  readonly denied: readonly Denied[]
}

type Carrier = Pick<LabelItem, 'material' | 'name' | 'allergens' | 'allergenSource' | 'parts'>

/** Gluten of a wheat comes with the wheat, whoever names only one of the two. */
const withGluten = (found: readonly Allergen[]): readonly Allergen[] =>
  found.includes('wheat') && !found.includes('gluten-cereal') ? [...found, 'gluten-cereal'] : found

/** What the table says a thing carries; a statement with its document may take off what the rulebook says one of its kind can lack. */
function fromTable({ material: id, allergens: stated, allergenSource }: Carrier): readonly Allergen[] {
  const material = materialOfItem({ material: id })
  if (!material) return []
  if (stated === undefined || allergenSource === undefined) return material.allergens
  const may = figures('labelling').mayBeWithout[material.id] ?? []
  return material.allergens.filter((a) => stated.includes(a) || !may.includes(a))
}

const readHere = Object.values(languageNames).join(', ')

/** Why the words of a thing cannot be read for allergens: none of it may be passed as free of any. */
function unreadable({ name = '' }: Carrier): string | undefined {
  const language = unreadLanguage(name)
  return language === undefined
    ? undefined
    : `"${name}" looks to be in ${language}, and allergens are read in ${readHere}: write it in one of these, or enter the allergens of each part`
}

/**
 * Allergens of a thing by its own statement, its material, its words and its parts. A statement adds; what the words or the table name
 * stays, and a statement that leaves it out is told of.
 */
export function allergensOf(item: Carrier): CarriedAllergens {
  const material = materialOfItem(item)
  const stated = item.allergens
  const table = fromTable(item)
  const named = allergensIn(item.name ?? '')
  const parts = (item.parts ?? []).map((p) => ({ name: p.name, ...allergensOf(p) }))
  const listed = parts.flatMap((p) => p.allergens)
  const found = withGluten([...(stated ?? []), ...table, ...named, ...listed])
  const covered = withGluten(stated ?? [])
  const wheatSaid = covered.includes('gluten-cereal')
  // A statement of gluten cereals speaks of wheat as well.
  const denies = (a: Allergen): boolean => !covered.includes(a) && !(a === 'wheat' && wheatSaid)
  const accounts: readonly (readonly [Denied['by'], readonly Allergen[]])[] = [
    ['its name', named],
    ['its list', listed],
    ['the table', item.allergenSource === undefined ? [] : table],
  ]
  const own = stated === undefined ? [] : allAllergens.filter(denies)
  const carried = {
    allergens: allAllergens.filter((a) => found.includes(a)),
    denied: [
      ...own.flatMap((allergen) => {
        const by = accounts.find(([, all]) => all.includes(allergen))?.[0]
        // Wheat that is denied says it for its gluten.
        if (by === undefined || (allergen === 'gluten-cereal' && found.includes('wheat') && denies('wheat'))) return []
        return [{ allergen, by }]
      }),
      ...(stated === undefined ? parts.flatMap((p) => p.denied.map((d) => ({ ...d, by: 'its list' as const }))) : []),
    ],
  }
  // A list nobody here can read is no check of the statement above it; a part with a statement of its own needs no reading.
  const unread = (item.parts ?? []).filter((p) => p.allergens === undefined).flatMap((p) => unreadable(p) ?? [])
  if (unread.length > 0) return { ...carried, unknown: unread.join('; ') }
  if (stated !== undefined) return carried
  const strange = unreadable(item)
  if (strange !== undefined) return { ...carried, unknown: strange }
  if (item.parts) {
    const blank = parts.filter((p) => p.unknown !== undefined).map((p) => p.name)
    return blank.length === 0 ? carried : { ...carried, unknown: `no allergen statement for ${blank.join(', ')} in it` }
  }
  if (!material)
    return { ...carried, unknown: 'no allergen statement is given and no material of the table stands behind it' }
  if (isCompound(material))
    return { ...carried, unknown: 'it is made of several things that differ from supplier to supplier' }
  if (material.sources.includes('no-source')) return { ...carried, unknown: 'the table has no source for it' }
  return carried
}
