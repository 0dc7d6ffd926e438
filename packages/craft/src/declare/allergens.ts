import { z } from 'zod'
import { findingSchema } from '../finding.ts'
import { figures, judge } from '../rules.ts'
import { allergens as allAllergens } from '../materials/schema.ts'
import { list, oneOf, quantity, text } from '../schema.ts'
import { allergensOf, itemName, labelItem, materialOfItem, type LabelItem } from './label-item.ts'
import type { Allergen, AllergenGroup } from './label-rules.ts'

export const labelPlaces = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const

export const allergensInput = z.strictObject({
  jurisdictions: list(oneOf(labelPlaces), { min: 1, max: 5 }).optional(),
  items: list(labelItem, { min: 1, max: 300 }),
  /** What may get in on the line, and why. */
  crossContact: list(z.strictObject({ allergen: oneOf(allAllergens), because: text(300) }), { max: 30 }).optional(),
  /** Sulphites in the food as eaten, as sulphur dioxide, by analysis or calculation. */
  sulphitePpm: quantity('mg/kg as SO2', { min: 0, max: 100_000 }).optional(),
})

const entry = z.strictObject({
  /** As the place's list calls it. */
  group: z.string(),
  /** Words for the label. */
  say: z.array(z.string()),
  allergens: z.array(z.enum(allAllergens)),
  /** Ingredients that bring it. */
  from: z.array(z.string()),
})

export const allergensOutput = z.strictObject({
  places: z.array(
    z.strictObject({
      jurisdiction: z.string(),
      /** Entries of the place's list. */
      listed: z.int(),
      contains: z.array(entry),
      mayContain: z.array(entry),
      statement: z.string().optional(),
      /** Carried, but on no list of this place. */
      notListed: z.array(z.string()),
      notes: z.array(z.string()),
    }),
  ),
  /** All that the ingredients carry, whatever the place. */
  carried: z.array(z.enum(allAllergens)),
  /** Ingredients nobody has an allergen statement for. */
  unknown: z.array(z.strictObject({ name: z.string(), because: z.string() })),
  findings: z.array(findingSchema),
})

export type AllergensInput = z.infer<typeof allergensInput>
export type AllergensOutput = z.infer<typeof allergensOutput>

/** Words an ingredient's own text already says of an allergen. */
export function saidIn(textOfItem: string, allergen: Allergen): string[] {
  const { words } = figures('labelling').allergenWords[allergen]
  const found = textOfItem.match(new RegExp(`\\b(?:${words.join('|')})(?:e?s)?\\b`, 'gi')) ?? []
  return [...new Set(found.map((w) => w.toLowerCase()))]
}

/** An allergen as it has to be named on this ingredient: the kind where the text names it, the general word otherwise. */
export function sayFor(item: { name: string }, allergen: Allergen): { say: string[]; kindMissing: boolean } {
  const rule = figures('labelling').allergenWords[allergen]
  const said = saidIn(item.name, allergen)
  if (!rule.nameKind) return { say: [rule.say], kindMissing: false }
  return said.length > 0 ? { say: said, kindMissing: false } : { say: [rule.say], kindMissing: true }
}

/** Everything the text of an item can say: its name, its material's name, and its parts. */
export const fullName = (item: LabelItem): string =>
  [itemName(item), materialOfItem(item)?.name, ...(item.parts ?? []).map((p) => p.name)].filter(Boolean).join(', ')

/** Allergens an ingredient has to be named for: gluten of a wheat is named by the wheat. */
export const toName = (carried: readonly Allergen[]): Allergen[] =>
  carried.filter((a) => !(a === 'gluten-cereal' && carried.includes('wheat')))

/** Allergens of an ingredient that belong to a group of a place's list. A place that lists gluten apart is told of it apart. */
const ofGroup = (group: AllergenGroup, carried: readonly Allergen[]): Allergen[] =>
  (group.members.includes('wheat') ? toName(carried) : carried).filter((a) => group.members.includes(a))

/**
 * Allergens to declare in each place, from what every ingredient and everything in it carries, with cross-contact apart.
 *
 * @source lists of 21 USC 321(qq), Regulation (EU) 1169/2011 Annex II, Health Canada's priority allergens, FSANZ Standard 1.2.3
 */
export function declareAllergens(input: AllergensInput): AllergensOutput {
  const { items, crossContact = [], sulphitePpm, jurisdictions = [...labelPlaces] } = input
  const { places } = figures('labelling')
  const each = items.map((item) => ({ name: fullName(item), short: itemName(item), item, ...allergensOf(item) }))
  const carried = allAllergens.filter((a) => each.some((e) => e.allergens.includes(a)))
  const unknown = each.flatMap((e) => (e.unknown === undefined ? [] : [{ name: e.short, because: e.unknown }]))
  const kindNotNamed = each.flatMap((e) =>
    toName(e.allergens)
      .filter((a) => sayFor(e, a).kindMissing)
      .map((allergen) => ({ name: e.short, allergen })),
  )
  const may = [
    ...crossContact.map((c) => ({ allergen: c.allergen, from: c.because })),
    ...items.flatMap((i) =>
      (i.mayContain ?? []).map((allergen) => ({ allergen, from: `${itemName(i)}, by its supplier` })),
    ),
  ]
  return {
    places: jurisdictions.map((jurisdiction) => {
      const place = places[jurisdiction]!
      const spared = (g: AllergenGroup) =>
        g.fromPpm !== undefined && sulphitePpm !== undefined && sulphitePpm < g.fromPpm
      const contains = place.allergens.flatMap((g) => {
        const from = each.filter((e) => ofGroup(g, e.allergens).length > 0)
        const here = allAllergens.filter((a) => from.some((e) => ofGroup(g, e.allergens).includes(a)))
        if (here.length === 0 || spared(g)) return []
        const say = from.flatMap((e) => ofGroup(g, e.allergens).flatMap((a) => sayFor(e, a).say))
        return [
          {
            group: g.group,
            say: g.say === undefined ? [...new Set(say)] : [g.say],
            allergens: here,
            from: [...new Set(from.map((e) => e.short))],
          },
        ]
      })
      const mayContain = place.allergens.flatMap((g) => {
        const here = g.members.filter((m) => may.some((c) => c.allergen === m))
        if (here.length === 0 || contains.some((c) => c.group === g.group)) return []
        const from = may.filter((c) => here.includes(c.allergen)).map((c) => c.from)
        const say = here.map((a) => figures('labelling').allergenWords[a].say)
        return [{ group: g.group, say, allergens: here, from: [...new Set(from)] }]
      })
      const listed = new Set(place.allergens.flatMap((g) => g.members))
      return {
        jurisdiction,
        listed: place.allergens.length,
        contains,
        mayContain,
        ...(place.containsLine !== undefined && contains.length > 0
          ? {
              statement: `${place.containsLine} ${[...new Set(contains.flatMap((c) => c.say))]
                .map((w) => (place.capitalFirst ? w.slice(0, 1).toUpperCase() + w.slice(1) : w))
                .join(', ')}`,
            }
          : {}),
        notListed: carried.filter((a) => !listed.has(a)),
        notes: place.allergens
          .filter((g) => g.fromPpm !== undefined && g.members.some((m) => carried.includes(m)))
          .map((g) =>
            sulphitePpm === undefined
              ? `${g.group}: declared from ${g.fromPpm} mg/kg; the level is not given, so it is declared`
              : `${g.group}: ${sulphitePpm} mg/kg, declared from ${g.fromPpm} mg/kg`,
          ),
      }
    }),
    carried,
    unknown,
    findings: judge('label', { jurisdictions, items: items.length, noAllergenSource: unknown, kindNotNamed }),
  }
}
