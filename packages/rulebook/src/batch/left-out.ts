import { apart } from '../../data/ferment/air.ts'
import type { AirChannel } from './slow-facts.ts'

type Readings = AirChannel['readings']

/** Columns that say themselves that they are of another place. */
const ELSEWHERE = /out ?side|outdoor|weather|freezer|fridge/i

/**
 * How much warmer than the air that counts a column of the same file is that was left out of it, °C at most; nothing where it is not, or not
 * for as long as an hour, or where its name says that it is of another place.
 *
 * @param counted the columns that count as the air; at each row the warmest of them
 */
export function leftOutWarmer(column: string, readings: Readings, counted: readonly Readings[]): number | undefined {
  if (counted.length === 0 || ELSEWHERE.test(column)) return undefined
  let [most, minutes] = [0, 0]
  for (const [i, { minute, value }] of readings.entries()) {
    const air = counted.flatMap((c) => c[i]?.value ?? [])
    if (value === null || air.length === 0) continue
    const over = value - Math.max(...air)
    if (over <= apart.leftOutC) continue
    most = Math.max(most, over)
    minutes += Math.max(0, (readings[i + 1]?.minute ?? minute) - minute)
  }
  return minutes >= 60 * apart.leftOutHours ? most : undefined
}
