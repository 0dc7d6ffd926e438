import type { AgentComposition, Material, allergens } from '../materials/schema.ts'
import type { Mark } from '../source.ts'

/** Allergens as materials carry them. */
export type Allergen = (typeof allergens)[number]

export type PlaceWords = { readonly default: string; readonly US?: string }

/** An additive as a label names it: functional class and name, or the number. */
export type AdditiveName = {
  readonly class: PlaceWords
  readonly name: PlaceWords
  /** Number of the European list, without the letter; the international one is the same. */
  readonly number?: string
  readonly mark: Mark
}

/** One entry of a place's list of allergens. */
export type AllergenGroup = {
  readonly group: string
  /** What materials carry that belongs to it. */
  readonly members: readonly Allergen[]
  /** Level in the food from which it must be declared, mg/kg; neither this nor `overPpm` where any amount counts. */
  readonly fromPpm?: number
  /** Level in the food over which it must be declared, mg/kg. */
  readonly overPpm?: number
  /** One word for the statement, whatever the kind. */
  readonly say?: string
}

/** How an allergen is named: the word put beside an ingredient that does not say it, and the words that do. */
export type AllergenWords = {
  readonly say: string
  readonly words: readonly string[]
  /** Foods made of it whose name does not say it: they carry it, and the word stands beside them. */
  readonly carriers?: readonly string[]
  /** What reads like it and is not. */
  readonly not?: readonly string[]
  /** True where the kind has to be named: which nut, which cereal, which fish. */
  readonly nameKind?: boolean
}

export type PlaceLabelling = {
  readonly heading: string
  /** Water by what is left of it in the finished product, or as it went in. */
  readonly water: 'finished' | 'formula'
  /** Share of the finished product up to which added water may be left out, percent, and of which products. */
  readonly waterFreePct?: number
  /** Classes of product it may be left out of; every one where absent. */
  readonly waterFreeClasses?: readonly string[]
  /** True where the share has to lie under the border, not at it. */
  readonly waterFreeBelow?: boolean
  /** Where everything that sweetens stands together behind one word, and the names that mark such an ingredient. */
  readonly sugars?: { readonly word: string; readonly names: readonly string[]; readonly notAlone: string }
  /** How the quantity of the meat in the name is reckoned: by the definition of meat, or by ingoing weight; none where it is not asked for. */
  readonly quid?: 'definition of meat' | 'ingoing weight'
  /** True where each ingredient begins with a capital letter. */
  readonly capitalFirst?: boolean
  /** Materials whose components need not be listed. */
  readonly componentsFree?: readonly string[]
  readonly additives: 'class and name' | 'name'
  readonly numberPrefix?: string
  /** Ingredients up to this share may stand at the end after `minorPhrase`, in any order. */
  readonly minorPct?: number
  readonly minorPhrase?: string
  /** Spices and herbs that together stay within a share may go by one word. */
  readonly spices: { readonly word: string; readonly upToPct: number; readonly notBy: readonly string[] }
  readonly herbs: { readonly word: string; readonly upToPct: number; readonly notBy: readonly string[] }
  readonly allergens: readonly AllergenGroup[]
  /** What is named in the list of ingredients from a level, though it is none of the allergens of the place, and by which law. */
  readonly namedInList?: readonly (AllergenGroup & { readonly by: string })[]
  /** Whether a line after the list may or does repeat the allergens, and how it begins. */
  readonly containsLine?: string
  /** Compound ingredients under this share need no list of their own where they are a mix of spices or herbs. */
  readonly compoundFreePct: number
  /** Allergens named by their kind that the general word has to stand beside. */
  readonly byReference?: readonly Allergen[]
}

export type LabellingRules = {
  readonly places: Readonly<Record<string, PlaceLabelling>>
  readonly allergenWords: Readonly<Record<Allergen, AllergenWords>>
  /** Allergens the table gives a material that one of its kind can be without: only these may a supplier's statement take off. */
  readonly mayBeWithout: Readonly<Record<string, readonly Allergen[]>>
  readonly additives: Readonly<Record<string, AdditiveName>>
  /** Which additive a material is. */
  readonly additiveOf: Readonly<Record<string, string>>
  /** Which additive a constituent of a cure is. */
  readonly additiveOfAgent: Readonly<Partial<Record<keyof AgentComposition, string>>>
  /** Names of materials where the table's own does not serve. */
  readonly names: Readonly<Record<string, PlaceWords>>
  /** Materials made of several things: their allergens and their own list are for the supplier's specification to say. */
  readonly compound: { readonly categories: readonly Material['category'][]; readonly materials: readonly string[] }
  /** Parts of a bird or beast that no place counts as meat when they are weighed in by themselves, though the table keeps them with its meat. */
  readonly notMeat: readonly string[]
}

/** What the rulebook is asked about a list of ingredients. */
export type LabelQuestion = {
  readonly jurisdictions: readonly string[]
  readonly on?: string
  readonly items: number
  /** Ingredients nobody has an allergen statement for, with why. */
  readonly noAllergenSource: readonly { readonly name: string; readonly because: string }[]
  /** Statements that deny what the item's own words or the table name. */
  readonly denied?: readonly { readonly name: string; readonly allergen: string; readonly by: string }[]
  /** Nuts, cereals, fish whose kind is not named. */
  readonly kindNotNamed: readonly { readonly name: string; readonly allergen: string }[]
  /** Given for an ingredient list only. */
  readonly list?: {
    readonly compoundWithoutList: readonly string[]
    readonly additivesWithoutClass: readonly string[]
    readonly waterLeftOutAgainstRule: boolean
  }
}
