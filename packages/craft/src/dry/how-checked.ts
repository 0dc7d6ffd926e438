/**
 * How far the course was checked against what was measured, for every page, paper and answer to say the same. The figures are those of
 * docs/method/dry.md; packages/craft/test/dry/published-drying.test.ts counts them anew and fails where they are no longer so.
 */
export const COURSE_CHECKED = {
  batches: 11,
  pieces: 7,
  /** Dates given from the first third of the weighings, and those whose band held the day. */
  fitted: { dates: 95, held: 38 },
  /** The same before any weighing. */
  unfitted: { dates: 105, held: 59 },
} as const

const { batches, pieces, fitted, unfitted } = COURSE_CHECKED

export const HOW_COURSE_WAS_CHECKED = `checked against ${batches} published batches, whose diameter and room could not be read, and ${pieces} pieces that hobbyists weighed: before any weighing it mostly foretells too little loss, by 5 to 11 points in a batch and up to 21 in a piece; the band held ${unfitted.held} of ${unfitted.dates} dates without weighings and ${fitted.held} of ${fitted.dates} from those of the first third`
