import type { LogFormat } from '@forcemeat/craft/log/format'
import type { LogRead } from '@forcemeat/craft/log/read'
import type { Ledger } from '@forcemeat/ledger'
import type { AirChannel } from '@forcemeat/rulebook/batch/slow-facts'
import type { RecordedCurve } from './recorded.ts'

type Starts = NonNullable<AirChannel['starts']>

/** Day 0 of a spreadsheet's dates, in days from 1970. */
const spreadsheetEpochDays = 25_569

/** Seconds from 1970 of the first row, and whether the file says its zone; nothing where it has no date. */
export function firstRow({ format, firstStamp }: Pick<LogRead, 'format' | 'firstStamp'>): Starts | undefined {
  if (format === undefined || firstStamp === undefined || Number.isNaN(firstStamp)) return undefined
  const { form, offset }: LogFormat['time'] = format.time
  if (form === 'epoch-s' || form === 'epoch-ms') return { at: firstStamp, zone: 'said' }
  if (form === 'ymd' || form === 'dmy' || form === 'mdy') return { at: firstStamp, zone: offset ? 'said' : 'unsaid' }
  if (form === 'serial-days') return { at: firstStamp - spreadsheetEpochDays * 86_400, zone: 'unsaid' }
  return undefined
}

type Clock = Pick<RecordedCurve, 'startsAt' | 'clockOffsetMinutes'>

/** The first row by the file's own clock, put right by what it was found to be wrong. */
function byFile({ clockOffsetMinutes = 0 }: Clock, read: LogRead | undefined): Starts | undefined {
  const first = read && firstRow(read)
  return first && { ...first, at: first.at + 60 * clockOffsetMinutes }
}

/** When a curve began: as stated, else as its file says. */
export const startOf = (curve: Clock, read: LogRead | undefined): Starts | undefined =>
  curve.startsAt === undefined ? byFile(curve, read) : { at: Date.parse(curve.startsAt) / 1000, zone: 'said' }

/** A stated start and the file's own clock may differ by so much, hours: an hour where the file says its zone, else any zone on earth. */
const apartH = { said: 1, unsaid: 15 } as const

/** What keeps a stated start from being believed: the file's own clock says something else. */
export function startClash(
  curve: Clock & { readonly fileName: string },
  read: LogRead | undefined,
): string | undefined {
  const own = byFile(curve, read)
  if (curve.startsAt === undefined || own === undefined) return undefined
  const stated = Date.parse(curve.startsAt) / 1000
  return Math.abs(stated - own.at) <= apartH[own.zone] * 3600
    ? undefined
    : `${curve.fileName} begins ${new Date(own.at * 1000).toISOString().slice(0, 16).replace('T', ' ')} by its own clock, and ${curve.startsAt.slice(0, 16).replace('T', ' ')} was stated: correct the stated start, or say by how much the clock was wrong`
}

/** Largest correction of a probe taken on trust, ± °C; a choice of ours, no source. */
const mostUnchecked = 2
const points: ReadonlySet<string> = new Set(['ice-point', 'boiling-point', 'comparison'])

/** What keeps a correction of a channel from being believed: no check of its instrument shows such an error. */
export async function offsetTrouble(
  ledger: Ledger,
  { column, instrument, offsetC = 0 }: RecordedCurve['channels'][number],
): Promise<string | undefined> {
  if (offsetC === 0) return undefined
  const known = instrument === undefined ? undefined : await ledger.instrument(instrument)
  const checks = (known?.checks ?? []).filter((c) => c.unit === '°C' && points.has(c.method))
  const shown = checks.some(
    (c) => Math.abs(c.reading - c.reference + offsetC) <= Math.min(c.tolerance, mostUnchecked) + 1e-9,
  )
  if (checks.length === 0 ? Math.abs(offsetC) <= mostUnchecked : shown) return undefined
  return `${column} is corrected by ${offsetC} °C, which no recorded check of its thermometer shows: record the check, or take the correction off`
}
