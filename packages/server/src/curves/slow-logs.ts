import { calledAir } from '@forcemeat/craft/log/channels'
import type { LogRead } from '@forcemeat/craft/log/read'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { AirChannel, CentreLog, SlowLogs } from '@forcemeat/rulebook/batch/slow-facts'
import { isSlow } from '@forcemeat/rulebook/batch/slow-kind'
import { answersOf } from './answers.ts'
import { readFileOf, readRecorded, troubleOf } from './recorded.ts'
import { firstRow, offsetTrouble, startClash, startOf } from './starts.ts'

type Readings = AirChannel['readings']

const temperatures = (read: LogRead | undefined, column: string, offsetC: number): Readings | undefined =>
  read?.channels
    .find((c) => c.name === column)
    ?.series.map((p) => ({ minute: p.minute, value: p.tempC === null ? null : p.tempC + offsetC }))

const humidities = (read: LogRead | undefined, column: string): Readings | undefined =>
  read?.humidity.find((c) => c.name === column)?.series.map((p) => ({ minute: p.minute, value: p.rhPct }))

/** No meat ferments below freezing: such a log has another unit than it says, or its sensor is broken. */
const frozenAir = (purpose: string, role: string, readings: Readings): string | undefined => {
  const cold =
    purpose === 'ferment' && role === 'house' ? readings.find((r) => r.value !== null && r.value < 0) : undefined
  return cold && `reads ${Number(cold.value!.toFixed(1))} °C in a fermentation: its unit or its sensor is wrong`
}

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
    for (const channel of wanted) {
      const { column, role, offsetC = 0 } = channel
      const series = role === 'house' ? temperatures(read, column, offsetC) : humidities(read, column)
      const cold = frozenAir(curve.purpose, role, series ?? [])
      const trouble =
        troubleOf(curve, read) ??
        (series ? undefined : `${curve.fileName} has no column ${JSON.stringify(column)}`) ??
        startClash(curve, read) ??
        (await offsetTrouble(ledger, channel)) ??
        (cold === undefined ? undefined : `${column} of ${curve.fileName} ${cold}`)
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
  for (const { seq, file, fileName = 'the centre log', column, reading = {} } of treatments) {
    if (file === undefined) continue
    const answers = answersOf({ reading, channels: column === undefined ? [] : [{ column, role: 'core' }] })
    const read = await readFileOf(ledger, file, answers)
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
      ...(first && last !== undefined ? { startsAt: first.at, endsAt: first.at + last * 60, zone: first.zone } : {}),
      ...(cores[0] && calledAir(cores[0].name) ? { calledAir: cores[0].name } : {}),
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
