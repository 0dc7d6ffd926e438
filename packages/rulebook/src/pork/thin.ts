/**
 * Thinner than this meat is rarely frozen as a block or a layer, mm: below it a person says that it was measured so, for centimetres and inches
 * are typed as millimetres. Common practice, no source.
 */
export const THIN_BLOCK_MM = 25

/** What a thickness that nobody confirmed may have been meant as, mm: itself, centimetres or inches. */
export const meantMm = (typed: number): readonly number[] => [typed, typed * 10, typed * 25.4]
