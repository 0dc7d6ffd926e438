import { figures } from '../../rules.ts'
import type { LabelPack } from './pack.ts'

/** What the rulebook gives on marks of the place a product is made in. */
export type MarkRules = {
  /** Codes of the countries whose mark bears the letters of the Union. */
  readonly unionCountries: readonly string[]
  readonly unionLetters: string
  /** Codes a mark of Great Britain may bear. */
  readonly britain: readonly string[]
  /** Room left for a legend nobody may draw, across, mm, where nobody asks for more. */
  readonly roomMm: number
}

/** The mark a label bears, or the room it leaves for one: lines in an oval, in a frame, or nothing in a circle. */
export type Mark = {
  readonly kind: 'oval' | 'frame' | 'room'
  readonly lines: readonly string[]
  readonly roomMm?: number
}

/**
 * The mark of the establishment. An oval with country and number for one in the European Union or Great Britain; the legends of the United
 * States and Canada are official artwork that is not held here, so room is left for them.
 */
export function markOf(
  place: string,
  { premises, approval }: Pick<LabelPack, 'premises' | 'approval'>,
): Mark | undefined {
  if (premises?.route !== 'inspected') return undefined
  const { unionCountries, unionLetters, britain, roomMm } = figures('labelDrawn').marks
  if (place === 'US' || place === 'CA') return { kind: 'room', lines: [], roomMm: premises.roomMm ?? roomMm }
  if ((place !== 'EU' && place !== 'GB') || premises.country === undefined || approval === undefined) return undefined
  const { country } = premises
  if (unionCountries.includes(country)) return { kind: 'oval', lines: [country, approval, unionLetters] }
  return { kind: britain.includes(country) ? 'oval' : 'frame', lines: [country, approval] }
}
