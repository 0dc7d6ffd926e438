import type { Finding } from '@forcemeat/craft/finding'
import type { PorkQuestion } from '@forcemeat/craft/pork/freezing'
import { formatNumber } from '@forcemeat/craft/quantity/format'
import {
  freezingDoesNotHelp,
  freezingSchedules,
  type CentreSchedule,
  type RoomSchedule,
} from '../../data/pork/freezing.ts'
import { heading } from '../evaluate.ts'
import { THIN_BLOCK_MM } from './thin.ts'
import type { Rule } from '../rule.ts'

type Head = Omit<Finding, 'verdict' | 'because'>
const head = (rule: Rule): Head => ({ ...heading(rule, rule.values[0]!), anyOf: `${rule.jurisdiction}.pork.freezing` })

/** Rounding may not print what was held as what was asked: time held is rounded down, a temperature held up. */
const ROUNDING = 1e-9
const bare = (text: string): string => text.replace(/\.0+$/, '')
/** Days or hours that were held, at most a tenth. */
const held = (x: number): string => bare(formatNumber(Math.floor(x * 10 + ROUNDING) / 10, { places: 1 }))
const shown = (x: number): string => formatNumber(x, { digits: 6 })
/** A temperature that was held, at most a hundredth of a degree. */
const heldC = (c: number): string => `${shown(Math.ceil(c * 100 - ROUNDING) / 100)} °C`
const degrees = (c: number): string => `${shown(c)} °C`

function byRoom({ rule, groups }: RoomSchedule, q: PorkQuestion): Finding {
  const base = head(rule)
  if (q.storageC === undefined)
    return {
      ...base,
      verdict: 'cannot-tell',
      because: 'the temperature of the freezer room is not given',
      settle: 'the room record: temperature and days',
    }
  const group = groups.find((g) => q.thicknessMm <= g.upToMm)
  if (!group)
    return {
      ...base,
      verdict: 'fail',
      because: `${shown(q.thicknessMm)} mm is thicker than any row of the schedule (at most ${shown(groups.at(-1)!.upToMm)} mm)`,
    }
  // The worst the room may have been, by its thermometer's error. The coldest row it still reaches asks for the fewest days.
  const row = group.rows.filter((r) => q.storageC! + q.toleranceC <= r.c).at(-1)
  if (!row) {
    const onlyByError = group.rows.some((r) => q.storageC! - q.toleranceC <= r.c)
    return onlyByError
      ? {
          ...base,
          verdict: 'cannot-tell',
          because: `${heldC(q.storageC)} reaches the schedule by less than the thermometer's error of ${degrees(q.toleranceC)}`,
          settle: 'a colder room or a finer thermometer',
        }
      : {
          ...base,
          verdict: 'fail',
          because: `${heldC(q.storageC)} is warmer than the warmest row of the schedule (${degrees(group.rows[0]!.c)})`,
        }
  }
  const asked = `${row.days} days at or below ${degrees(row.c)} for meat up to ${shown(group.upToMm)} mm`
  if (q.days === undefined)
    return {
      ...base,
      limit: row.days,
      verdict: 'cannot-tell',
      because: `the schedule asks for ${asked}; the days held are not given`,
      settle: 'the dates in and out of the freezer',
    }
  const margin = q.days - row.days
  const stood = { ...base, measured: q.days, limit: row.days, margin }
  const thin =
    q.thicknessMm < THIN_BLOCK_MM
      ? `; ${shown(q.thicknessMm)} mm is thin for a block of meat: were millimetres meant?`
      : ''
  const because = `held ${held(q.days)} days at ${heldC(q.storageC)}; the schedule asks for ${asked}${thin}`
  if (margin >= 0) return { ...stood, verdict: 'pass', because }
  const colder = group.rows.find((r) => q.storageC! - q.toleranceC <= r.c && q.days! >= r.days)
  return colder
    ? {
        ...stood,
        verdict: 'cannot-tell',
        because: `${because}; ${colder.days} days at or below ${degrees(colder.c)} are met only within the thermometer's error of ${degrees(q.toleranceC)}`,
        settle: 'longer, colder, or a finer thermometer',
      }
    : { ...stood, verdict: 'fail', because }
}

function byCentre({ rule, rows }: CentreSchedule, q: PorkQuestion): Finding {
  const base = head(rule)
  const error = q.toleranceC > 0 ? `, the error of ±${degrees(q.toleranceC)} taken off` : ''
  if (!q.stretch)
    return {
      ...base,
      verdict: 'cannot-tell',
      because: 'no record of the temperature at the centre is given',
      settle: 'a logger in the thickest piece',
    }
  const tried = rows.map((r) => ({ ...r, sure: q.stretch!(r.c - q.toleranceC), best: q.stretch!(r.c + q.toleranceC) }))
  const met = tried.find((t) => t.sure.hours >= t.hours)
  if (met)
    return {
      ...base,
      measured: met.sure.hours,
      limit: met.hours,
      margin: met.sure.hours - met.hours,
      verdict: 'pass',
      because: `${held(met.sure.hours)} h unbroken at or below ${degrees(met.c)}${error}; the schedule asks for ${met.hours} h`,
    }
  const nearest = tried.toSorted((a, b) => b.sure.hours / b.hours - a.sure.hours / a.hours)[0]!
  const stood = {
    ...base,
    measured: nearest.sure.hours,
    limit: nearest.hours,
    margin: nearest.sure.hours - nearest.hours,
  }
  const short = `${held(nearest.sure.hours)} h unbroken at or below ${degrees(nearest.c)}${error}; the schedule asks for ${nearest.hours} h`
  if (tried.some((t) => t.best.hours >= t.hours))
    return {
      ...stood,
      verdict: 'cannot-tell',
      because: `${short}; it is met only within the thermometer's error of ${degrees(q.toleranceC)}`,
      settle: 'longer, colder, or a finer thermometer',
    }
  if (tried.some((t) => t.sure.broken))
    return {
      ...stood,
      verdict: 'cannot-tell',
      because: `${short}; the record has a hole, and time across it is not counted`,
      settle: 'an unbroken record, or longer at that temperature',
    }
  return { ...stood, verdict: 'fail', because: short }
}

/** A finding for each freezing schedule of the places asked about; for meat that freezing does not make safe, the one that says so. */
export function judgePork(q: PorkQuestion): Finding[] {
  if (q.species !== 'pork')
    return [
      {
        ...heading(freezingDoesNotHelp, freezingDoesNotHelp.values[0]!),
        verdict: 'fail',
        because: `${q.species.replace('-', ' ')} can carry Trichinella that survive freezing`,
        settle: 'a cook that kills Trichinella, or a test of each carcass',
      },
    ]
  // A schedule by the centre is not on the table where only the room was recorded, nor the other way round.
  const offered = q.stretch === undefined ? 'room' : q.storageC === undefined ? 'centre' : undefined
  return freezingSchedules
    .filter((s) => q.jurisdictions.includes(s.rule.jurisdiction) && (offered === undefined || s.kind === offered))
    .map((s) => (s.kind === 'room' ? byRoom(s, q) : byCentre(s, q)))
}
