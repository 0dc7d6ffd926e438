import type { CentreLog, LotTreatment } from './slow-facts.ts'

/** Nothing freezes meat to less than this, °C; loggers write such figures where a probe is broken. Common practice, no source. */
const COLDEST_C = -60
/**
 * A centre falls no faster than this, °C a minute: about what a frozen piece of 25 mm does in moved air of −40 °C (its half thickness times
 * its heat capacity over 30 W/(m²·K)). A choice of ours.
 */
const FASTEST_C_PER_MIN = 1
/** A log shorter than this has to show the meat freeze: a reading at this or warmer, °C. A choice of ours. */
const SHORT_H = 24
const NOT_FROZEN_C = -10

type Known = { readonly hour: number; readonly centreC: number }

const settle =
  'the whole log of the centre, from before the meat froze, or another probe; or how it was frozen, from its supplier, on paper'

/** Why a log is not believed to be of the centre of meat that froze. */
export function strangeCentre(
  t: LotTreatment,
  { log, calledAir }: CentreLog,
): { readonly because: string; readonly settle: string } | undefined {
  if (calledAir !== undefined && t.note === undefined)
    return {
      because: `its column ${JSON.stringify(calledAir)} is called like the air of a room, not like the centre of a piece`,
      settle: 'the column of the centre; or the treatment corrected with a note that says where the probe was',
    }
  const known = log.flatMap((r): Known[] => (r.centreC === null ? [] : [{ hour: r.hour, centreC: r.centreC }]))
  const cold = known.find((r) => r.centreC < COLDEST_C)
  if (cold) return { because: `it reads ${cold.centreC} °C, colder than meat is frozen to`, settle }
  const fall = known.findIndex((r, i) => {
    const before = known[i - 1]
    return before !== undefined && before.centreC - r.centreC > FASTEST_C_PER_MIN * 60 * (r.hour - before.hour) + 1 / 10
  })
  if (fall > 0)
    return {
      because: `the centre falls from ${known[fall - 1]!.centreC} to ${known[fall]!.centreC} °C in one reading, more than ${FASTEST_C_PER_MIN} °C a minute`,
      settle,
    }
  const [first, last] = [known[0], known.at(-1)]
  if (first && last && last.hour - first.hour < SHORT_H && known.every((r) => r.centreC < NOT_FROZEN_C))
    return {
      because: `a log of ${Number((last.hour - first.hour).toFixed(1))} h that begins at ${first.centreC} °C does not show the meat freeze`,
      settle,
    }
  return undefined
}
