import { canDecide } from '@forcemeat/craft/source'
import { fahrenheitOfC } from '@forcemeat/craft/heat/fahrenheit'
import type { Hole, Track } from '@forcemeat/craft/heat/track'
import type { Finding } from '../rule.ts'
import type { HoldRow, HoldTable } from './tables.ts'

/** Float noise of times given in minutes, s: far below a logger's clock. */
const SAME_SECONDS = 1e-6

export type Outcome = Pick<Finding, 'verdict' | 'because'> &
  Partial<Pick<Finding, 'measured' | 'limit' | 'margin' | 'settle'>>

const tidy = (x: number): number => Number(x.toFixed(3))
const heldSeconds = (track: Track, tempC: number): number => track.at(tempC).longestMinutes * 60
const holds = (track: Track, tempC: number, seconds: number): boolean =>
  track.at(tempC).reached && heldSeconds(track, tempC) >= seconds - SAME_SECONDS
const asked = (row: HoldRow): string =>
  row.seconds === 0 ? `${row.f} °F reached` : `${tidy(row.seconds)} s at ${row.f} °F`

const blindness: Readonly<Record<Hole['why'], string>> = {
  'no-reading': 'no reading',
  'probe-out': 'the probe left the product',
  spike: 'a reading stands out as no core can',
  'long-step': 'readings by hand so far apart show only their ends',
}

/** The row that came nearest: the largest share of its time held, the hotter on a tie. */
function nearest(rows: readonly HoldRow[], track: Track): HoldRow {
  const share = (r: HoldRow): number => (r.seconds === 0 ? 0 : heldSeconds(track, r.tempC) / r.seconds)
  return rows.reduce((best, r) => (share(r) >= share(best) && share(r) > 0 ? r : best), rows[0]!)
}

/** Time at or above a row for certain, s: by the readings with the thermometer's error taken off. */
const surelyHeld = (track: Track, row: HoldRow, toleranceC: number): number =>
  tidy(heldSeconds(track, row.tempC + toleranceC))

const figures = (row: HoldRow, track: Track, toleranceC: number) => {
  const held = surelyHeld(track, row, toleranceC)
  return { measured: held, limit: tidy(row.seconds), margin: tidy(held - row.seconds) }
}

/** What the error took off, and the time the readings by themselves would give. */
const errorTaken = (row: HoldRow, track: Track, toleranceC: number): string =>
  toleranceC > 0
    ? `, the thermometer's error of ±${toleranceC} °C taken off (${tidy(heldSeconds(track, row.tempC))} s as read)`
    : ''

/**
 * Hold a log against a table: it is met if the core stayed, in one unbroken stretch, at or above the temperature of any one row for
 * that row's time. A core between two rows is judged on the lower row. Read strictly: the guideline lets a lower row stand
 * for a missed end-point on its total time; stretches that only add up to it are left to a process authority.
 */
export function holdAgainst(table: HoldTable, track: Track, toleranceC: number): Outcome {
  const rows = table.rows
  const sure = rows.filter((r) => holds(track, r.tempC + toleranceC, r.seconds))
  const met = sure.find((r) => canDecide(r.source.mark)) ?? sure[0]
  if (met !== undefined) {
    const text = `held ${surelyHeld(track, met, toleranceC)} s at or above ${met.f} °F (${tidy(met.tempC)} °C)${errorTaken(met, track, toleranceC)}; asked ${asked(met)}`
    if (canDecide(met.source.mark)) return { verdict: 'pass', because: text, ...figures(met, track, toleranceC) }
    const settle = 'read the row in 9 CFR 318.23(b)(1) and enter it with its edition'
    return {
      verdict: 'cannot-tell',
      because: `${text}; the row itself is from memory`,
      settle,
      ...figures(met, track, toleranceC),
    }
  }
  const row = nearest(rows, track)
  const short = `peak ${tidy(track.peakC)} °C (${tidy(fahrenheitOfC(track.peakC))} °F); nearest row: held ${surelyHeld(track, row, toleranceC)} s${errorTaken(row, track, toleranceC)}, asked ${asked(row)}`
  const unsure = rows.find((r) => holds(track, r.tempC - toleranceC, r.seconds))
  if (unsure !== undefined)
    return {
      verdict: 'cannot-tell',
      because: `${short}; ${asked(unsure)} would be met or missed within the thermometer's error of ±${toleranceC} °C`,
      settle: 'a hotter or longer cook, or a thermometer with a smaller error',
      ...figures(unsure, track, toleranceC),
    }
  // A probe that leapt up lies in the heat and nobody saw the core; else only a core that was near the table can have met it unseen.
  const blind = track.holes.find(
    (h) =>
      (h.why === 'probe-out' && h.leap === 'up') ||
      Math.max(h.beforeC, h.afterC ?? -Infinity) >= rows[0]!.tempC - toleranceC,
  )
  if (blind !== undefined)
    return {
      verdict: 'cannot-tell',
      because: `${short}; the core is not known from minute ${tidy(blind.fromMinute)} to ${tidy(blind.toMinute)} (${blindness[blind.why]}${blind.why === 'no-reading' ? `; steps over ${tidy(track.joinedMinutes)} min are not joined` : ''})`,
      settle: 'a second probe or a hand reading from that time, or cook again',
      ...figures(row, track, toleranceC),
    }
  const summed = rows.find((r) => track.at(r.tempC).totalMinutes * 60 >= r.seconds - SAME_SECONDS && r.seconds > 0)
  if (summed !== undefined)
    return {
      verdict: 'cannot-tell',
      because: `${short}; ${asked(summed)} is met only by adding up separate stretches`,
      settle: 'a process authority: the guideline does not say that separate stretches add up',
      ...figures(summed, track, toleranceC),
    }
  return { verdict: 'fail', because: short, ...figures(row, track, toleranceC) }
}

/** The hottest row of a table that a log meets for certain, °F; undefined where none. */
export const highestMetRow = (table: HoldTable, track: Track, toleranceC: number): number | undefined =>
  table.rows.findLast((r) => holds(track, r.tempC + toleranceC, r.seconds))?.f
