import type { LogRead } from '@forcemeat/craft/log/read'
import { thin } from './thin.ts'

/** Most odd rows listed; all are counted. */
const mostListed = 200

export type ShownChannel = {
  readonly column: string
  readonly role: string
  readonly unit: string
  /** °C or %, as `unit` has it; null where there is no reading. */
  readonly values: readonly (number | null)[]
}

/** How a file was read, with a series thin enough to draw. */
export type ShownLog = {
  readonly format?: LogRead['format']
  readonly notes: readonly string[]
  readonly questions: LogRead['questions']
  readonly anomalies: LogRead['anomalies']
  readonly rows: number
  readonly firstStamp?: number
  readonly minutes: readonly number[]
  /** Temperatures, °C. */
  readonly channels: readonly ShownChannel[]
  /** Relative humidity, %, at the same minutes; empty where the file has none. */
  readonly humidity: readonly ShownChannel[]
}

/** The temperatures on their one axis of minutes. */
export const seriesOf = ({ channels }: Pick<LogRead, 'channels'>) => ({
  minutes: channels[0]?.series.map((p) => p.minute) ?? [],
  channels: channels.map((c) => ({ values: c.series.map((p) => p.tempC) })),
})

/** Temperatures first, then humidity, on the same axis. */
function allOf({ channels, humidity }: Pick<LogRead, 'channels' | 'humidity'>) {
  return {
    minutes: (channels[0] ?? humidity[0])?.series.map((p) => p.minute) ?? [],
    channels: [
      ...channels.map((c) => ({ values: c.series.map((p) => p.tempC) })),
      ...humidity.map((c) => ({ values: c.series.map((p) => p.rhPct) })),
    ],
  }
}

export function shownLog(read: LogRead): ShownLog {
  const series = allOf(read)
  const kept = thin(series)
  const shown = (c: { name: string; role: string; unit: string }, k: number): ShownChannel => ({
    column: c.name,
    role: c.role,
    unit: c.unit,
    values: kept.map((i) => series.channels[k]!.values[i]!),
  })
  return {
    ...(read.format ? { format: read.format } : {}),
    notes: read.notes,
    questions: read.questions,
    anomalies: { ...read.anomalies, listed: read.anomalies.listed.slice(0, mostListed) },
    rows: read.rows,
    ...(read.firstStamp === undefined || Number.isNaN(read.firstStamp) ? {} : { firstStamp: read.firstStamp }),
    minutes: kept.map((i) => series.minutes[i]!),
    channels: read.channels.map((c, k) => shown(c, k)),
    humidity: read.humidity.map((c, k) => shown(c, read.channels.length + k)),
  }
}
