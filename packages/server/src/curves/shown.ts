import type { LogRead } from '@forcemeat/craft/log/read'
import { thin } from './thin.ts'

/** Most odd rows listed; all are counted. */
const mostListed = 200

export type ShownChannel = {
  readonly column: string
  readonly role: string
  readonly unit: string
  /** °C; null where there is no reading. */
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
  readonly channels: readonly ShownChannel[]
}

/** The channels on their one axis of minutes. */
export const seriesOf = ({ channels }: Pick<LogRead, 'channels'>) => ({
  minutes: channels[0]?.series.map((p) => p.minute) ?? [],
  channels: channels.map((c) => ({ values: c.series.map((p) => p.tempC) })),
})

export function shownLog(read: LogRead): ShownLog {
  const series = seriesOf(read)
  const kept = thin(series)
  return {
    ...(read.format ? { format: read.format } : {}),
    notes: read.notes,
    questions: read.questions,
    anomalies: { ...read.anomalies, listed: read.anomalies.listed.slice(0, mostListed) },
    rows: read.rows,
    ...(read.firstStamp === undefined || Number.isNaN(read.firstStamp) ? {} : { firstStamp: read.firstStamp }),
    minutes: kept.map((i) => series.minutes[i]!),
    channels: read.channels.map((c, k) => ({
      column: c.name,
      role: c.role,
      unit: c.unit,
      values: kept.map((i) => series.channels[k]!.values[i]!),
    })),
  }
}
