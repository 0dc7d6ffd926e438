import { joinableMinutes } from '../heat/reading.ts'

type Reading = { readonly hour: number; readonly centreC: number | null }

/** Where the straight line between two readings crosses `limit`, hours. */
const crossing = (a: Reading & { centreC: number }, b: Reading & { centreC: number }, limit: number): number =>
  a.hour + ((limit - a.centreC) / (b.centreC - a.centreC)) * (b.hour - a.hour)

/** Longest usual step of the log of a frozen centre, minutes; a choice of ours, no source: a block at −18 °C warms over hours. */
const FROZEN_CENTRE_MINUTES = 6 * 60

/**
 * Longest unbroken time at or below a temperature, hours. Readings are joined by straight lines; a missing reading or a step
 * longer than the log's usual spacing allows (six hours, where it has fewer than seven readings) breaks the stretch, since nobody saw
 * what happened there.
 */
export function longestAtOrBelow(log: readonly Reading[], limitC: number): { hours: number; broken: boolean } {
  const joinable =
    joinableMinutes(
      log.map((r) => r.hour * 60),
      FROZEN_CENTRE_MINUTES,
    ) / 60
  let best = 0
  let begun: number | undefined
  let broken = false
  const close = (hour: number) => {
    if (begun !== undefined) best = Math.max(best, hour - begun)
    begun = undefined
  }
  log.forEach((b, i) => {
    const a = log[i - 1]
    if (b.centreC === null) {
      if (a && a.centreC !== null) close(a.hour)
      broken = true
      return
    }
    const below = b.centreC <= limitC
    if (!a || a.centreC === null || b.hour - a.hour > joinable) {
      if (a && a.centreC !== null) {
        close(a.hour)
        broken = true
      }
      begun = below ? b.hour : undefined
      return
    }
    const from = { hour: a.hour, centreC: a.centreC }
    const to = { hour: b.hour, centreC: b.centreC }
    if (from.centreC > limitC && below) begun = crossing(from, to, limitC)
    else if (from.centreC <= limitC && !below) close(crossing(from, to, limitC))
    else if (!below) begun = undefined
  })
  close(log.at(-1)!.hour)
  return { hours: best, broken }
}
