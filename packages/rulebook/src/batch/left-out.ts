import { apart } from '../../data/ferment/air.ts'
import type { AirChannel } from './slow-facts.ts'

type Readings = AirChannel['readings']

/** Columns that say themselves that they are of another place; a fridge is not one, for it is the usual chamber. */
const ELSEWHERE = /out ?side|outdoor|weather/i

/** Columns that say themselves that they are of the inside of the product. */
const INSIDE = /core|product|internal|inside|meat|centre|center|sausage/i

/**
 * How much warmer than the air that counts a column of the same file is that was left out of it, °C at most; nothing where it is not, or not
 * for as long as an hour, or where its name says that it is of another place. A core lags behind the air and warms by its own souring: it
 * is held against the warmest of the hours before.
 *
 * @param core whether it was recorded as a core; a name may say so too
 * @param counted the columns that count as the air; at each row the warmest of them
 */
export function leftOutWarmer(
  column: string,
  readings: Readings,
  counted: readonly Readings[],
  core = false,
): number | undefined {
  if (counted.length === 0 || ELSEWHERE.test(column)) return undefined
  const [margin, lagMinutes] = core || INSIDE.test(column) ? [apart.overLogC, 60 * apart.lagHours] : [apart.leftOutC, 0]
  /** Rows whose air may still be the warmest of the hours before, falling. */
  const recent: { readonly minute: number; readonly airC: number }[] = []
  let from = 0
  let [most, minutes] = [0, 0]
  for (const [i, { minute, value }] of readings.entries()) {
    const air = counted.flatMap((c) => c[i]?.value ?? [])
    if (air.length > 0) {
      const airC = Math.max(...air)
      while (recent.length > from && recent.at(-1)!.airC <= airC) recent.pop()
      recent.push({ minute, airC })
    }
    while (from < recent.length && recent[from]!.minute < minute - lagMinutes) from += 1
    const warmest = recent[from]
    if (value === null || warmest === undefined) continue
    const over = value - warmest.airC
    if (over <= margin) continue
    most = Math.max(most, over)
    minutes += Math.max(0, (readings[i + 1]?.minute ?? minute) - minute)
  }
  return minutes >= 60 * apart.leftOutHours ? most : undefined
}
