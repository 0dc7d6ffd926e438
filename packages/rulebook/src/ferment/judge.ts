import type { DegreeHoursQuestion } from '@forcemeat/craft/ferment/degree-hours'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import { degreeHourSystems, type DegreeHourSystem } from '../../data/ferment/degree-hours.ts'
import { heading } from '../evaluate.ts'

/** Sums of thousands of steps carry rounding; this much of a degree-hour decides nothing. */
const ROUNDING = 1e-9

const own = (system: DegreeHourSystem, c: number): number => (system.celsius ? c : c * 1.8 + 32)

const classFor = (system: DegreeHourSystem, highest: number) =>
  system.classes.find((k) => highest < k.upTo || (k.edgeIncluded && highest <= k.upTo))!

function count(system: DegreeHourSystem, q: DegreeHoursQuestion, shift: number) {
  const baseC = system.celsius ? system.base : (system.base - 32) / 1.8
  const seen = q.exposure(system.rule.jurisdiction, baseC, shift)
  const used = system.celsius ? seen.degreeHours : seen.degreeHours * 1.8
  const band = classFor(system, Number(own(system, seen.highestC).toFixed(9)))
  const over = used - band.limit
  return { used, band, hole: seen.hole, over: system.limitIncluded ? over > ROUNDING : over >= -ROUNDING }
}

function judgeSystem(system: DegreeHourSystem, q: DegreeHoursQuestion): Finding {
  const read = count(system, q, 0)
  const worst = q.toleranceC > 0 ? count(system, q, q.toleranceC) : read
  const unit = system.rule.unit
  const degree = system.celsius ? '°C' : '°F'
  const base = {
    ...heading(system.rule, { source: read.band.source }),
    measured: read.used,
    limit: read.band.limit,
    margin: read.band.limit - read.used,
  }
  const stood = `${read.used.toFixed(1)} ${unit} above ${system.base} ${degree}; the limit is ${read.band.limit} ${unit}`
  const unsure = (because: string, settle: string): Finding => ({
    ...base,
    verdict: 'cannot-tell',
    because: `${stood}; ${because}`,
    settle,
  })
  const limitRead = canDecide(read.band.source.mark)
  const entered = 'read the limit in the document named and enter it with its edition'
  if (read.over)
    return limitRead
      ? { ...base, verdict: 'fail', because: stood }
      : unsure('the limit itself is from memory, not read in its source', entered)
  if (read.hole)
    return unsure(
      `nothing is known between hour ${read.hole.from.toFixed(1)} and hour ${read.hole.to.toFixed(1)}`,
      'the missing temperatures from another recorder, or hold the lot and test for staphylococcal enterotoxin',
    )
  if (!q.phCounts) return unsure('the pH meter was not calibrated that day', 'a pH taken again with a calibrated meter')
  if (q.hoursToTarget === undefined)
    return unsure(
      q.lastPh === undefined ? `no pH was measured` : `pH ${q.targetPh} was not reached (last ${q.lastPh})`,
      `a measured pH at or below ${q.targetPh} before the limit is used up`,
    )
  if (worst.over)
    return unsure(`the thermometer's error of ${q.toleranceC} °C could carry it over`, 'a finer thermometer')
  return limitRead
    ? { ...base, verdict: 'pass', because: stood }
    : unsure('the limit itself is from memory, not read in its source', entered)
}

/** A finding for each published degree-hour system. */
export const judgeDegreeHours = (q: DegreeHoursQuestion): Finding[] => degreeHourSystems.map((s) => judgeSystem(s, q))
