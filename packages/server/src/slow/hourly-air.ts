import type { AirReading } from '@forcemeat/craft/dry/air-so-far'
import { inTurn, pointsOf, type ChamberLog } from './chamber.ts'
import { humidityAlong } from './humidity.ts'

const HOUR = 3_600_000
/** A room logged less often than this is taken to have a hole. */
const HOLE_HOURS = 6

/** Mean of each hour that was logged; null where its log has a hole. */
type Hours = ReadonlyMap<number, number | null>

function hoursOf(points: readonly { readonly at: number; readonly value: number | null }[], start: number): Hours {
  const grouped = Map.groupBy(
    points.filter((p) => p.at >= start),
    (p) => Math.floor((p.at - start) / HOUR),
  )
  return new Map(
    [...grouped].map(([hour, read]) => {
      const seen = read.flatMap((p) => p.value ?? [])
      return [hour, seen.length === 0 ? null : Number((seen.reduce((s, x) => s + x, 0) / seen.length).toFixed(3))]
    }),
  )
}

/** A quantity at each of some hours: its own mean, and between two of its hours that may be joined their straight line. */
function along(hours: readonly number[], own: Hours): (number | null)[] {
  const known = [...own.keys()].toSorted((a, b) => a - b)
  let next = 0
  return hours.map((hour) => {
    while (next < known.length && known[next]! < hour) next += 1
    if (own.has(hour)) return own.get(hour)!
    const [a, b] = [known[next - 1], known[next]]
    if (a === undefined || b === undefined || b - a > HOLE_HOURS) return null
    const [from, to] = [own.get(a)!, own.get(b)!]
    return from === null || to === null ? null : Number((from + ((to - from) * (hour - a)) / (b - a)).toFixed(3))
  })
}

/**
 * The air of a room by the hour, days after an instant: means of what was logged, so that a log of seconds travels as a log of weeks. Temperature
 * and humidity each stand for themselves: one read more seldom than the other, or at other seconds, leaves no hole in it.
 */
export function hourlyAir(logs: readonly ChamberLog[], start: number): AirReading[] {
  const chain = inTurn(logs)[0] ?? []
  const temps = hoursOf(
    pointsOf(chain).map((p) => ({ at: p.at, value: p.meanC })),
    start,
  )
  const moist = hoursOf(
    humidityAlong(chain, logs).map((p) => ({ at: p.at, value: p.rhPct })),
    start,
  )
  const hours = [...new Set([...temps.keys(), ...moist.keys()])].toSorted((a, b) => a - b)
  const [tempC, rhPct] = [along(hours, temps), along(hours, moist)]
  return hours.flatMap((h, i) => {
    const row = { day: Number((h / 24).toFixed(5)), tempC: tempC[i]!, rhPct: rhPct[i]! }
    // Hours nobody logged are a hole, not a line from one side to the other.
    return (hours[i + 1] ?? h) > h + HOLE_HOURS
      ? [row, { day: Number(((h + 1) / 24).toFixed(5)), tempC: null, rhPct: null }]
      : [row]
  })
}
