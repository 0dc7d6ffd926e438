import { figures } from '../../rules.ts'

/** Places a label is drawn for. */
type TypePlace = 'US' | 'EU' | 'GB' | 'CA' | 'AU-NZ'

type Step = { readonly upToG?: number; readonly upToCm2?: number; readonly mm: number }

/** What the rulebook gives on the height of letters of a place. */
export type PlaceType = {
  /** Least height of a lower-case x, mm. */
  readonly xHeightMm: number
  /** Less is enough where the largest surface of the pack is under an area. */
  readonly small?: { readonly belowCm2: number; readonly xHeightMm: number }
  /** Least height of the figures of the net quantity, by the quantity or by the area of the panel. */
  readonly netFigures?: readonly Step[]
  readonly netByArea?: readonly Step[]
}
export type LabelTypeRules = Readonly<Record<TypePlace, PlaceType>>

/** Height of one text on the drawn label. */
export type DrawnText = { readonly what: string; readonly mm: number }

/** What the rulebook is asked about a label as drawn. */
export type LabelTypeQuestion = {
  readonly place: TypePlace
  /** Least heights asked for. */
  readonly least: LeastType
  /** Height of the lower-case x of each text. */
  readonly texts: readonly DrawnText[]
  /** Height of the figures of the net quantity, where they stand on it. */
  readonly netMm?: number
  /** What found no room, and by how much the label is too short. */
  readonly unplaced: readonly string[]
  readonly missingMm: number
}

export type LeastType = { readonly xHeightMm: number; readonly netMm: number }

/** Least heights of letters and of the figures of the net quantity of a pack. Where the area is not known, the larger holds. */
export function leastType(place: TypePlace, netG: number | undefined, areaCm2: number | undefined): LeastType {
  const rules = figures('labelType')[place]
  const { small } = rules
  const byG = rules.netFigures?.find((s) => s.upToG === undefined || (netG !== undefined && netG <= s.upToG))
  const byArea = rules.netByArea?.find(
    (s) => s.upToCm2 === undefined || (areaCm2 !== undefined && areaCm2 <= s.upToCm2),
  )
  return {
    xHeightMm: small && areaCm2 !== undefined && areaCm2 < small.belowCm2 ? small.xHeightMm : rules.xHeightMm,
    netMm: (byG ?? byArea)?.mm ?? rules.xHeightMm,
  }
}
