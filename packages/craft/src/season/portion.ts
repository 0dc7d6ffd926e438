import { halfWidth95, weighingError, type Scale } from '../cure/scale-error.ts'

export type PremixScale = Scale & { readonly id: string; readonly capacityG?: number | undefined }
export type Portion = {
  readonly kg: number
  readonly toleranceG: number
  readonly scale?: string
  readonly fit: boolean
}

/** Tolerance on a seasoning, percent of its weight. Common practice, no source; the weigh sheet holds the same. */
const TOLERANCE_PCT = 3

/** A weight with the coarsest scale that holds it to 3 %; the best there is, and unfit, where none does. */
export function portionOf(kg: number, scales: readonly PremixScale[]): Portion {
  const grams = kg * 1000
  const toleranceG = (grams * TOLERANCE_PCT) / 100
  const able = scales
    .filter((s) => s.capacityG === undefined || grams <= s.capacityG)
    .map((s) => ({ id: s.id, width: halfWidth95(weighingError(s)) }))
    .toSorted((a, b) => b.width - a.width)
  const fit = able.find((a) => a.width <= toleranceG)
  const scale = fit?.id ?? able.at(-1)?.id
  return { kg, toleranceG, fit: fit !== undefined, ...(scale === undefined ? {} : { scale }) }
}
