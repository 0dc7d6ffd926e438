import type { LogFormat } from '@forcemeat/craft/log/format'
import type { LogRead } from '@forcemeat/craft/log/read'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { AirChannel, CentreLog, SlowLogs } from '@forcemeat/rulebook/batch/slow-facts'
import { isSlow } from '@forcemeat/rulebook/batch/slow-kind'
import { readFileOf, readRecorded, troubleOf, type RecordedCurve } from './recorded.ts'

/** Day 0 of a spreadsheet's dates, in days from 1970. */
const spreadsheetEpochDays = 25_569

/** Seconds from 1970 of the first row, and whether the file says its zone; nothing where it has no date. */
function firstRow({ format, firstStamp }: Pick<LogRead, 'format' | 'firstStamp'>): AirChannel['starts'] | undefined {
  if (format === undefined || firstStamp === undefined || Number.isNaN(firstStamp)) return undefined
  const { form, offset }: LogFormat['time'] = format.time
  if (form === 'epoch-s' || form === 'epoch-ms') return { at: firstStamp, zone: 'said' }
  if (form === 'ymd' || form === 'dmy' || form === 'mdy') return { at: firstStamp, zone: offset ? 'said' : 'unsaid' }
  if (form === 'serial-days') return { at: firstStamp - spreadsheetEpochDays * 86_400, zone: 'unsaid' }
  return undefined
}

function startOf(curve: RecordedCurve, read: LogRead | undefined): AirChannel['starts'] | undefined {
  if (curve.startsAt !== undefined) return { at: Date.parse(curve.startsAt) / 1000, zone: 'said' }
  const first = read && firstRow(read)
  return first && { ...first, at: first.at + 60 * (curve.clockOffsetMinutes ?? 0) }
}

type Readings = AirChannel['readings']

const temperatures = (read: LogRead | undefined, column: string, offsetC: number): Readings | undefined =>
  read?.channels
    .find((c) => c.name === column)
    ?.series.map((p) => ({ minute: p.minute, value: p.tempC === null ? null : p.tempC + offsetC }))

const humidities = (read: LogRead | undefined, column: string): Readings | undefined =>
  read?.humidity.find((c) => c.name === column)?.series.map((p) => ({ minute: p.minute, value: p.rhPct }))

/** The air of the chambers of a batch's curves, read from their files; what stands in the way of one is said with it. */
export async function airOf(ledger: Ledger, record: Pick<BatchRecord, 'curves'>): Promise<AirChannel[]> {
  const all: AirChannel[] = []
  for (const curve of record.curves) {
    const wanted = curve.channels.flatMap((c) =>
      c.role === 'house' || c.role === 'humidity' ? [{ ...c, role: c.role }] : [],
    )
    if (wanted.length === 0) continue
    const read = await readRecorded(ledger, curve)
    const starts = startOf(curve, read)
    for (const { column, role, offsetC = 0 } of wanted) {
      const series = role === 'house' ? temperatures(read, column, offsetC) : humidities(read, column)
      const trouble =
        troubleOf(curve, read) ?? (series ? undefined : `${curve.fileName} has no column ${JSON.stringify(column)}`)
      all.push({
        seq: curve.seq,
        column,
        role,
        readings: series ?? [],
        ...(starts === undefined ? {} : { starts }),
        ...(trouble === undefined ? {} : { trouble }),
      })
    }
  }
  return all
}

/** The centre logs of the treatments of a batch's meat. */
export async function centresOf(
  ledger: Ledger,
  treatments: NonNullable<BatchRecord['treatments']>,
): Promise<CentreLog[]> {
  const all: CentreLog[] = []
  for (const { seq, file, fileName = 'the centre log', column } of treatments) {
    if (file === undefined) continue
    const read = await readFileOf(ledger, file, column === undefined ? {} : { roles: { [column]: 'core' } })
    const cores = read?.channels.filter((c) => (column === undefined ? c.role === 'core' : c.name === column)) ?? []
    const trouble =
      troubleOf({ fileName }, read) ??
      (cores.length === 1
        ? undefined
        : cores.length === 0
          ? `${fileName} has no column ${column === undefined ? 'that is a core' : JSON.stringify(column)}`
          : `${fileName} has several core columns: say which is the centre of the thickest piece`)
    const first = read && firstRow(read)
    const last = cores[0]?.series.at(-1)?.minute
    all.push({
      seq,
      log: (cores[0]?.series ?? []).map((p) => ({ hour: p.minute / 60, centreC: p.tempC })),
      ...(first && last !== undefined ? { endsAt: first.at + last * 60 } : {}),
      ...(trouble === undefined ? {} : { trouble }),
    })
  }
  return all
}

/** Everything beside the cores that a fermented, dried or raw batch is judged by and that lies in files. */
export async function slowLogsOf(ledger: Ledger, record: BatchRecord): Promise<SlowLogs> {
  if (record.recipeKind === 'cooked' && !isSlow(record)) return {}
  const starts = []
  for (const curve of record.curves) {
    const begun = startOf(curve, await readRecorded(ledger, curve))
    starts.push({ seq: curve.seq, ...(begun === undefined ? {} : { starts: begun }) })
  }
  return { air: await airOf(ledger, record), centres: await centresOf(ledger, record.treatments ?? []), starts }
}
