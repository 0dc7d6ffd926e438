import { calledAir } from '@forcemeat/craft/log/channels'
import type { LogRead } from '@forcemeat/craft/log/read'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { leftOutWarmer } from '@forcemeat/rulebook/batch/left-out'
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

const known = (readings: Readings): number[] => readings.flatMap((r) => r.value ?? [])

/** No meat ferments below freezing, and none dries there: such a log has another unit than it says, or its sensor is broken. */
function frozenAir(purpose: string, role: string, readings: Readings): string | undefined {
  if (role !== 'house') return undefined
  const read = known(readings)
  // A drying room may ice over for an hour; a fermentation never does.
  const usual = (): number | undefined => read.toSorted((a, b) => a - b)[Math.floor(read.length / 2)]
  const cold = purpose === 'ferment' ? read.find((v) => v < 0) : purpose === 'dry' ? usual() : undefined
  return cold === undefined || cold >= 0
    ? undefined
    : `reads ${Number(cold.toFixed(1))} °C in a ${purpose === 'dry' ? 'drying' : 'fermentation'}: its unit or its sensor is wrong`
}

type Curve = BatchRecord['curves'][number]

/** Columns of a log of the air that are warmer than those that count and were left out; one that another curve of the batch counts is not. */
function leftOut(curve: Curve, curves: readonly Curve[], read: LogRead | undefined): string | undefined {
  if (!read || (curve.purpose !== 'ferment' && curve.purpose !== 'dry')) return undefined
  const house = curves
    .filter((c) => c.file === curve.file)
    .flatMap((c) => c.channels.flatMap((ch) => (ch.role === 'house' ? [ch.column] : [])))
  const counted = curve.channels.flatMap((c) =>
    c.role === 'house' ? [temperatures(read, c.column, c.offsetC ?? 0) ?? []] : [],
  )
  const warmer = read.channels.flatMap(({ name }) => {
    if (house.includes(name)) return []
    const core = curve.channels.some((c) => c.column === name && c.role === 'core')
    const most = leftOutWarmer(name, temperatures(read, name, 0) ?? [], counted, core)
    return most === undefined
      ? []
      : [`${name} of ${curve.fileName} is left out, and reads up to ${most.toFixed(1)} °C warmer than what counts`]
  })
  return warmer.length === 0
    ? undefined
    : `${warmer.join('; ')}: count it as the air, or hand in the log of this room alone`
}

/** The air of a chamber by one curve, read from its file; what stands in the way of a channel is said with it. */
export async function airOfCurve(
  ledger: Ledger,
  curve: Curve,
  curves: readonly Curve[],
  read: LogRead | undefined,
): Promise<AirChannel[]> {
  const wanted = curve.channels.flatMap((c) =>
    c.role === 'house' || c.role === 'humidity' ? [{ ...c, role: c.role }] : [],
  )
  if (wanted.length === 0) return []
  const starts = startOf(curve, read)
  const caution = leftOut(curve, curves, read)
  const all: AirChannel[] = []
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
      ...(caution === undefined ? {} : { caution }),
    })
  }
  return all
}

/** The air of the chambers of all of a batch's curves. */
export async function airOf(ledger: Ledger, { curves }: Pick<BatchRecord, 'curves'>): Promise<AirChannel[]> {
  const all: AirChannel[] = []
  for (const curve of curves)
    if (curve.channels.some((c) => c.role === 'house' || c.role === 'humidity'))
      all.push(...(await airOfCurve(ledger, curve, curves, await readRecorded(ledger, curve))))
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
