import type { Mark } from '../source.ts'
import type { RoundingBand } from './rounding.ts'

/** Nutrients a label can carry, per 100 g: g, except sodium, cholesterol, potassium, calcium, iron, vitamin C (mg), vitamin D (µg), A (IU). */
export const nutrientKeys = [
  'water',
  'fat',
  'saturated',
  'trans',
  'availableCarbohydrate',
  'totalCarbohydrate',
  'sugars',
  'addedSugars',
  'polyols',
  'fibre',
  'protein',
  'sodium',
  'alcohol',
  'organicAcids',
  'cholesterol',
  'potassium',
  'calcium',
  'iron',
  'vitaminD',
  'vitaminA',
  'vitaminC',
] as const
export type NutrientKey = (typeof nutrientKeys)[number]

/** Energy in a unit: each nutrient's grams times its own factor. */
export type EnergyFactors = { readonly [K in NutrientKey]?: number }

export type ToleranceBand = { readonly below?: number; readonly amount?: number; readonly pct?: number }

export type NutritionRowRule = {
  readonly key: string
  readonly label: string
  readonly unit: string
  readonly mandatory: boolean
  /** A nutrient, times `times` where the label's unit is another; several added up; or energy by its factors. */
  readonly of:
    | { readonly nutrient: NutrientKey; readonly times?: number }
    | { readonly sum: readonly NutrientKey[] }
    | { readonly energy: EnergyFactors }
  readonly rounding: readonly RoundingBand[]
  readonly dailyValue?: number
  readonly dvRounding?: readonly RoundingBand[]
  /** True where the percent is taken from the amount as printed, not from the unrounded one. */
  readonly dvOfPrinted?: boolean
  /** True where the row prints a percent of the daily value and no amount. */
  readonly percentOnly?: boolean
  /** Both ways about the declared value. */
  readonly tolerance?: readonly ToleranceBand[]
  /** One way: at most, or at least, this percent of the declared value. */
  readonly compliance?: { readonly atMostPct?: number; readonly atLeastPct?: number }
  /** How the figures of this row were read, where worse than the format as a whole. */
  readonly caution?: string
}

/** A nutrition table of a place, as the rulebook holds it. */
export type NutritionFormat = {
  readonly id: string
  /** What the panel is drawn for. */
  readonly basis: 'per 100 g' | 'per serving'
  /** Present where the place wants both columns beside each other. */
  readonly bothColumns?: boolean
  /** Whether the carbohydrate of the label counts the fibre in. */
  readonly carbohydrate: 'availableCarbohydrate' | 'totalCarbohydrate'
  readonly saltPerSodium: number
  readonly rows: readonly NutritionRowRule[]
  readonly toleranceMark: Mark
  /** What is not known may move a printed value by this percent of it and no more: far inside any tolerance. */
  readonly negligiblePct: number
  /** Servings in a pack, and from how many on their number is printed. */
  readonly servings?: readonly RoundingBand[]
  readonly servingsFrom?: number
  /** Words of the lines above the figures of a serving. */
  readonly servingWords?: { readonly number: string; readonly size: string }
  /** Lines under the table, where a percent of the daily value stands on it. */
  readonly footnotes?: readonly string[]
  /** True where polyols have factors of their own that are not held: with polyols, energy and carbohydrate are not known. */
  readonly polyolsNotHeld?: boolean
}

export type NutritionRules = Readonly<Record<string, readonly NutritionFormat[]>>

/** Amount of a product customarily eaten at a time, by class: as served, and uncooked. */
export type ReferenceAmounts = Readonly<
  Record<string, { readonly servedG: number; readonly uncookedG?: number; readonly mark: Mark }>
>

/** What the rulebook is asked about a table. */
export type NutritionQuestion = {
  readonly jurisdiction: string
  readonly format: string
  readonly on?: string
  /** Mandatory rows that cannot be printed, each with what is missing. */
  readonly unknown: readonly { readonly label: string; readonly missing: readonly string[] }[]
  readonly rows: number
  /** True where weight is lost and nobody said how much of it is fat. */
  readonly fatLossUnknown: boolean
  /** Figures of an analysis that the recipe cannot have, for 100 g. */
  readonly apart?: readonly {
    readonly label: string
    readonly unit: string
    readonly analysed: number
    readonly computed: number
  }[]
  /** Serving, and the amount customarily eaten at a time. */
  readonly serving?: { readonly g: number; readonly referenceG: number }
}
