import { z } from 'zod'
import { findingSchema } from '../finding.ts'
import { figures, judge } from '../rules.ts'
import { allergens as allAllergens } from '../materials/schema.ts'
import { list, oneOf, quantity, text } from '../schema.ts'
import { kindsIn } from './allergen-words.ts'
import { allergensOf, itemName, labelItem, materialOfItem, type LabelItem } from './label-item.ts'
import type { Allergen, AllergenGroup, PlaceLabelling } from './label-rules.ts'

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

/** Everything the text of an item can say: its name, its material's name, and its parts. */
export const fullName = (item: LabelItem): string =>
  [itemName(item), materialOfItem(item)?.name, ...(item.parts ?? []).map((p) => p.name)].filter(Boolean).join(', ')

/** An allergen an ingredient is named for, in the words it is named by, and what carries it without its kind being known. */
export type NamedAllergen = {
  readonly allergen: Allergen
  readonly say: readonly string[]
  readonly kindMissing: readonly string[]
}

type Atom = { readonly name: string; readonly text: string; readonly allergens: readonly Allergen[] }

/** The item by itself, and each of its parts, with what each carries. */
function atomsOf(item: LabelItem): Atom[] {
  const { parts, ...whole } = item
  return [
    { name: itemName(item), text: fullName(whole), allergens: allergensOf(whole).allergens },
    ...(parts ?? []).map((p) => ({
      name: `${p.name} in ${itemName(item)}`,
      text: [p.name, materialOfItem(p)?.name].filter(Boolean).join(', '),
      allergens: allergensOf(p).allergens,
    })),
  ]
}

/**
 * Allergens an ingredient has to be named for: the kind where its text names it, the general word otherwise. Gluten of a wheat is named by
 * the wheat; rye, barley and oats beside it are named by themselves.
 */
export function namedIn(item: LabelItem): NamedAllergen[] {
  const text = fullName(item)
  const [own, ...parts] = atomsOf(item)
  const all = allergensOf(item).allergens
  return all.flatMap((allergen): NamedAllergen[] => {
    const { say, nameKind } = figures('labelling').allergenWords[allergen]
    if (!nameKind) return [{ allergen, say: [say], kindMissing: [] }]
    const kinds = kindsIn(text, allergen)
    const bare = (a: Atom): boolean =>
      a.allergens.includes(allergen) && !(allergen === 'gluten-cereal' && a.allergens.includes('wheat'))
    const open = [
      ...(own && bare(own) && kinds.length === 0 && !(allergen === 'gluten-cereal' && all.includes('wheat'))
        ? [own.name]
        : []),
      ...parts.filter((p) => bare(p) && kindsIn(p.text, allergen).length === 0).map((p) => p.name),
    ]
    if (allergen === 'gluten-cereal' && all.includes('wheat') && kinds.length === 0 && open.length === 0) return []
    return [{ allergen, say: kinds.length > 0 ? kinds : [say], kindMissing: open }]
  })
}

/** Every thing whose kind of nut, cereal, fish or shellfish nobody names. */
export const kindsMissing = (items: readonly LabelItem[]): { name: string; allergen: Allergen }[] =>
  items.flatMap((i) => namedIn(i).flatMap((n) => n.kindMissing.map((name) => ({ name, allergen: n.allergen }))))

/** Statements that deny what the words of an ingredient or the table name. */
export const deniedIn = (items: readonly LabelItem[]): { name: string; allergen: Allergen; by: string }[] =>
  items.flatMap((i) => allergensOf(i).denied.map((d) => ({ name: itemName(i), ...d })))

type MayCome = { readonly allergen: Allergen; readonly from: string; readonly say: readonly string[] }

/** What may come by cross-contact; gluten that comes with a wheat is the wheat's. */
function mayCome({ items, crossContact = [] }: AllergensInput): MayCome[] {
  const of = (list: readonly Allergen[], from: string, text: string): MayCome[] =>
    list
      .filter((a) => !(a === 'gluten-cereal' && list.includes('wheat')))
      .map((allergen) => {
        const { say, nameKind } = figures('labelling').allergenWords[allergen]
        const kinds = nameKind ? kindsIn(text, allergen) : []
        return { allergen, from, say: kinds.length > 0 ? kinds : [say] }
      })
  const byReason = Map.groupBy(crossContact, (c) => c.because)
  return [
    ...[...byReason].flatMap(([because, all]) =>
      of(
        all.map((c) => c.allergen),
        because,
        because,
      ),
    ),
    ...items.flatMap((i) => of(i.mayContain ?? [], `${itemName(i)}, by its supplier`, '')),
  ]
}

type Carrying = { readonly named: readonly NamedAllergen[]; readonly allergens: readonly Allergen[] }

/** Allergens of an ingredient that belong to a group of a place's list. A place that lists gluten apart is told of it apart. */
function ofGroup(group: AllergenGroup, { named, allergens }: Carrying): Pick<NamedAllergen, 'allergen' | 'say'>[] {
  if (group.say !== undefined)
    return allergens.filter((a) => group.members.includes(a)).map((allergen) => ({ allergen, say: [group.say!] }))
  return named.filter((n) => group.members.includes(n.allergen))
}

/** Whether a level makes a group due; undefined where the level is not given, or any amount of the group counts. */
function dueByLevel({ fromPpm, overPpm }: AllergenGroup, ppm: number | undefined): boolean | undefined {
  if (ppm === undefined || (fromPpm === undefined && overPpm === undefined)) return undefined
  return fromPpm === undefined ? ppm > overPpm! : ppm >= fromPpm
}

/** What the level given, or the want of one, means in a place. */
function levelNotes(place: PlaceLabelling, byIngredients: readonly Allergen[], ppm: number | undefined): string[] {
  const border = (g: AllergenGroup): string =>
    g.fromPpm === undefined ? `over ${g.overPpm} mg/kg` : `from ${g.fromPpm} mg/kg`
  const carried = (g: AllergenGroup): boolean => g.members.some((m) => byIngredients.includes(m))
  const unsaid = (g: AllergenGroup): string =>
    carried(g) ? '' : '; no ingredient is said to carry any: find which brings it, and name it there'
  const inList = place.namedInList ?? []
  return [
    ...place.allergens
      .filter(
        (g) => (g.fromPpm !== undefined || g.overPpm !== undefined) && (carried(g) || dueByLevel(g, ppm) === true),
      )
      .map((g) =>
        ppm === undefined
          ? `${g.group}: declared ${border(g)}; the level is not given, so it is declared`
          : `${g.group}: ${ppm} mg/kg, declared ${border(g)}${unsaid(g)}`,
      ),
    ...inList
      .filter((g) => dueByLevel(g, ppm) ?? carried(g))
      .map(
        (g) =>
          `${g.group}: ${ppm === undefined ? 'the level is not given' : `${ppm} mg/kg`}; on no list of allergens here, but named in the list of ingredients ${border(g)} (${g.by})${unsaid(g)}`,
      ),
  ]
}

/**
 * Allergens to declare in each place, from what every ingredient and everything in it carries, with cross-contact apart.
 *
 * @source lists of 21 USC 321(qq), Regulation (EU) 1169/2011 Annex II, Health Canada's priority allergens, FSANZ Standard 1.2.3
 */
export function declareAllergens(input: AllergensInput): AllergensOutput {
  const { items, sulphitePpm, jurisdictions = [...labelPlaces] } = input
  const { places } = figures('labelling')
  const each = items.map((item) => ({ short: itemName(item), named: namedIn(item), ...allergensOf(item) }))
  const byIngredients = allAllergens.filter((a) => each.some((e) => e.allergens.includes(a)))
  const found = Object.values(places).flatMap((p) =>
    [...p.allergens, ...(p.namedInList ?? [])].flatMap((g) => (dueByLevel(g, sulphitePpm) === true ? g.members : [])),
  )
  const carried = allAllergens.filter((a) => byIngredients.includes(a) || found.includes(a))
  const unknown = each.flatMap((e) => (e.unknown === undefined ? [] : [{ name: e.short, because: e.unknown }]))
  const may = mayCome(input)
  return {
    places: jurisdictions.map((jurisdiction) => {
      const place = places[jurisdiction]!
      const contains = place.allergens.flatMap((g) => {
        const from = each.filter((e) => ofGroup(g, e).length > 0)
        const here = allAllergens.filter((a) => from.some((e) => ofGroup(g, e).some((n) => n.allergen === a)))
        const due = dueByLevel(g, sulphitePpm)
        if (here.length === 0 ? due !== true : due === false) return []
        const say =
          here.length === 0
            ? g.members.map((m) => figures('labelling').allergenWords[m].say)
            : from.flatMap((e) => ofGroup(g, e).flatMap((n) => n.say))
        return [
          {
            group: g.group,
            say: g.say === undefined ? [...new Set(say)] : [g.say],
            allergens: here.length === 0 ? [...g.members] : here,
            from:
              here.length === 0 ? [`the level given, ${sulphitePpm} mg/kg`] : [...new Set(from.map((e) => e.short))],
          },
        ]
      })
      const mayContain = place.allergens.flatMap((g) => {
        const inIt = contains.find((c) => c.group === g.group)
        // One kind in the recipe says nothing of another that may get in.
        const more = may.filter(
          (m) =>
            g.members.includes(m.allergen) &&
            !(inIt && (g.say !== undefined || m.say.every((w) => inIt.say.includes(w)))) &&
            !(inIt?.allergens.includes(m.allergen) && !figures('labelling').allergenWords[m.allergen].nameKind),
        )
        if (more.length === 0) return []
        return [
          {
            group: g.group,
            say: [...new Set(more.flatMap((m) => m.say).filter((w) => !inIt?.say.includes(w)))],
            allergens: g.members.filter((a) => more.some((m) => m.allergen === a)),
            from: [...new Set(more.map((m) => m.from))],
          },
        ]
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
        notes: levelNotes(place, byIngredients, sulphitePpm),
      }
    }),
    carried,
    unknown,
    findings: judge('label', {
      jurisdictions,
      items: items.length,
      noAllergenSource: unknown,
      denied: deniedIn(items),
      kindNotNamed: kindsMissing(items),
    }),
  }
}
