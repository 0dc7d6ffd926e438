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

/** The loosest limit of a system that was read in its source; a hotter chamber is allowed less, so that over it no class can be met. */
const loosestRead = (system: DegreeHourSystem) => {
  const read = system.classes.filter((k) => canDecide(k.source.mark))
  return read.length === 0 ? undefined : read.reduce((a, b) => (b.limit > a.limit ? b : a))
}

const exceeds = (system: DegreeHourSystem, used: number, limit: number): boolean =>
  system.limitIncluded ? used - limit > ROUNDING : used - limit >= -ROUNDING

function count(system: DegreeHourSystem, q: DegreeHoursQuestion, shift: number) {
  const baseC = system.celsius ? system.base : (system.base - 32) / 1.8
  const seen = q.exposure(system.rule.jurisdiction, baseC, shift)
  const used = system.celsius ? seen.degreeHours : seen.degreeHours * 1.8
  const band = classFor(system, Number(own(system, seen.highestC).toFixed(9)))
  return { used, band, hole: seen.hole, over: exceeds(system, used, band.limit) }
}

/** Said wherever a pH was counted with an error nobody stated. */
export const phErrorTaken = (usual: number): string =>
  `the error of the pH meter is not given: ± ${usual}, usual for a meter set that day (common practice, no source), is taken`

const lastPh = ({ lastPh: ph, phTolerance, heldAt }: DegreeHoursQuestion): string =>
  `${ph}${phTolerance ? ` ± ${phTolerance}` : ''}${heldAt ? `; ${heldAt.piece ?? 'another piece'} stands at ${heldAt.ph}` : ''}`

function judgeSystem(system: DegreeHourSystem, q: DegreeHoursQuestion): Finding {
  const read = count(system, q, 0)
  const worst = q.toleranceC > 0 ? count(system, q, q.toleranceC) : read
  const unit = system.rule.unit
  const degree = system.celsius ? '°C' : '°F'
  const base = {
    ...heading(system.rule, { source: read.band.source }),
    measured: read.used,
    limit: read.band.limit,
    // The least room the thermometer's error leaves, as the verdict has it.
    margin: Math.min(read.band.limit - read.used, worst.band.limit - worst.used),
  }
  const assumed = q.phErrorAssumed && q.phTolerance !== undefined ? `; ${phErrorTaken(q.phTolerance)}` : ''
  const most =
    q.toleranceC > 0
      ? ` as read, ${worst.used.toFixed(1)} ${unit} at the most the thermometer's error of ±${q.toleranceC} °C allows${worst.band.limit === read.band.limit ? '' : ` against ${worst.band.limit} ${unit}`}`
      : ''
  const stood = `${read.used.toFixed(1)} ${unit} above ${system.base} ${degree}${most}; the limit is ${read.band.limit} ${unit}${assumed}`
  const unsure = (because: string, settle: string): Finding => ({
    ...base,
    verdict: 'cannot-tell',
    because: `${stood}; ${because}`,
    settle,
  })
  const limitRead = canDecide(read.band.source.mark)
  const entered = 'read the limit in the document named and enter it with its edition'
  if (read.over && limitRead) return { ...base, verdict: 'fail', because: stood }
  if (read.over) {
    const loosest = loosestRead(system)
    if (loosest === undefined || !exceeds(system, read.used, loosest.limit))
      return unsure('the limit itself is from memory, not read in its source', entered)
    return {
      ...base,
      ...heading(system.rule, { source: loosest.source }),
      limit: loosest.limit,
      margin: loosest.limit - worst.used,
      verdict: 'fail',
      because: `${stood}, from memory; it is over even the ${loosest.limit} ${unit} of a cooler chamber, which was read, and a hotter one is allowed less`,
    }
  }
  if (read.hole)
    return unsure(
      `nothing is known between hour ${read.hole.from.toFixed(1)} and hour ${read.hole.to.toFixed(1)}`,
      'the missing temperatures from another recorder, or hold the lot and test for staphylococcal enterotoxin',
    )
  if (!q.phCounts) return unsure('the pH meter was not calibrated that day', 'a pH taken again with a calibrated meter')
  if (q.hoursToTarget === undefined)
    return unsure(
      q.lastPh === undefined ? `no pH was measured` : `pH ${q.targetPh} was not reached (last ${lastPh(q)})`,
      `a measured pH at or below ${q.targetPh}${q.phTolerance ? ', the error of the meter included,' : ''} before the limit is used up`,
    )
  if (worst.over)
    return unsure(`the thermometer's error of ${q.toleranceC} °C could carry it over`, 'a finer thermometer')
  const unsaid = q.phTolerance === undefined ? '; the error of the pH meter is not given and counts as none' : ''
  return limitRead
    ? { ...base, verdict: 'pass', because: `${stood}${unsaid}` }
    : unsure('the limit itself is from memory, not read in its source', entered)
}

/** The finding that stands between the best and the worst that instruments and clocks allow. */
export function betweenEnds(best: Finding, worst: Finding, unsure: string, settle: string): Finding {
  if (best.verdict === 'fail') return best
  if (worst.verdict !== 'fail') return worst
  return { ...worst, verdict: 'cannot-tell', because: `${worst.because}, at the worst that ${unsure}`, settle }
}

/** A finding for each published degree-hour system: a fail only where the earliest end the pH meter allows is over as well. */
export function judgeDegreeHours({ earliest, ...latest }: DegreeHoursQuestion): Finding[] {
  return degreeHourSystems.map((system) => {
    const worst = judgeSystem(system, latest)
    if (earliest === undefined) return worst
    const best = judgeSystem(system, { ...earliest, toleranceC: 0 })
    return betweenEnds(best, worst, 'the error of the pH meter allows', 'a lower pH, or a finer meter')
  })
}
