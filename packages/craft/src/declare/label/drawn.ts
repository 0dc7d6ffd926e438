import type { Mark, MarkRules } from './mark.ts'

/** Type sizes of a nutrition panel that has sizes of its own, points; thicknesses of its bars, points. */
export type PanelType = {
  /** Heading, servings and serving size, the word Calories and its figure, rows, and the small print. */
  readonly headingPt: number
  readonly servingsPt: number
  readonly caloriesPt: number
  readonly caloriesFigurePt: number
  readonly rowPt: number
  readonly smallPt: number
  /** Between the lines of the rows. */
  readonly leadingPt: number
  /** Lines under the table that the content of the table does not bring. */
  readonly footnotes: readonly string[]
  readonly barsPt: { readonly thick: number; readonly middle: number; readonly hairline: number; readonly box: number }
}

export const codeKinds = ['gs1-128', 'gs1-datamatrix', 'ean-13'] as const
export type CodeKind = (typeof codeKinds)[number]

/** How a bar code is drawn, and what is asked of it as drawn. */
export type CodeType = {
  /** Width of the thinnest bar, or the square: what is drawn where nothing is said, and the least and most a reader takes. */
  readonly usualModuleMm: number
  readonly leastModuleMm: number
  readonly mostModuleMm?: number
  readonly usualBarMm?: number
  readonly leastBarMm?: number
  /** White on either side, in modules. */
  readonly quietLeft: number
  readonly quietRight: number
  readonly mostWidthMm?: number
  readonly mostCharacters?: number
}

/** What the rulebook gives on a label as drawn, over and above the height of its letters. */
export type LabelDrawnRules = {
  /** By place and panel. */
  readonly panels: Readonly<Record<string, PanelType>>
  readonly codes: Readonly<Record<CodeKind, CodeType>>
  /** When a panel of the United States may be set otherwise than vertically. */
  readonly displays: DisplayAreas
  readonly marks: MarkRules
  readonly handlingXHeightMm: number
  readonly leastContrast: number
}

/** Area of a pack, cm², from which the small displays of the United States are not for it, and the one under which they need no other reason. */
export type DisplayAreas = { readonly mostCm2: number; readonly freeBelowCm2: number; readonly heightMm: number }

export type DrawnSize = { readonly what: string; readonly pt: number; readonly leastPt: number }
export type DrawnCodeSize = {
  readonly kind: CodeKind
  readonly moduleMm: number
  readonly barMm?: number
  /** White found on either side, in modules. */
  readonly quietLeft: number
  readonly quietRight: number
  readonly widthMm: number
  readonly characters: number
}

/** What the rulebook is asked about a label as drawn. */
export type LabelDrawnQuestion = {
  readonly place: string
  readonly panel?: { readonly format: string; readonly texts: readonly DrawnSize[] }
  /** Heights of the heading and of the smallest other text of the safe handling instructions. */
  readonly handling?: { readonly headingMm: number; readonly smallestMm: number }
  readonly code?: DrawnCodeSize
  /** A panel of the United States that is not set vertically, and what of the larger ones finds room on the same label. */
  readonly display?: {
    readonly is: 'tabular' | 'linear'
    /** All of the surface of the pack that a label could stand on. */
    readonly availableCm2?: number
    readonly verticalFits: boolean
    readonly tabularFits: boolean
    readonly heightMm: number
  }
  /** The mark of the establishment: what is said of the place it is made in, and what stands on the label. */
  readonly mark?: {
    readonly route?: 'inspected' | 'exempt'
    readonly number?: string
    readonly country?: string
    readonly because?: string
    readonly drawn?: Mark['kind']
    readonly placed: boolean
  }
  /** Contrast of ink and ground, by relative luminance. */
  readonly contrast: number
  /** Characters of its texts that its fonts have no letter for, as they stand. */
  readonly withoutLetter?: readonly string[]
}
