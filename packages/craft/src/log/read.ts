import { createAnomalyList, type AnomalyReport } from './anomalies.ts'
import { columnsOf, type Answers, type Channel, type HumidityChannel, type LogFormat, type Question } from './format.ts'
import { createLogReader } from './reader.ts'
import { HEAD_BYTES, sniff } from './sniff.ts'

export type LogChannel = Channel & {
  readonly series: readonly { readonly minute: number; readonly tempC: number | null }[]
}

export type LogHumidity = HumidityChannel & {
  readonly series: readonly { readonly minute: number; readonly rhPct: number | null }[]
}

export type LogRead = {
  readonly format?: LogFormat
  readonly notes: readonly string[]
  /** While any is open the channels stay empty: nothing is read on a guess. */
  readonly questions: readonly Question[]
  /** Temperatures only, °C. */
  readonly channels: readonly LogChannel[]
  /** Relative humidity, %, against the same minutes; empty where the file has none. */
  readonly humidity: readonly LogHumidity[]
  readonly anomalies: AnomalyReport
  readonly rows: number
  /** Time of the first row as the file gives it, seconds from 1970 for dated files, else from its own start. */
  readonly firstStamp?: number
}

const nothing: AnomalyReport = { listed: [], counts: {} }

/** Read a whole logger file: channels in °C and humidity in % against minutes from the first row, and every row that was not a plain reading. */
export function readLog(data: Uint8Array | string, answers: Answers = {}): LogRead {
  const bytes = typeof data === 'string' ? new TextEncoder().encode(data) : data
  const { format, notes, questions } = sniff(bytes.subarray(0, HEAD_BYTES), answers)
  if (format === undefined || questions.length > 0)
    return {
      ...(format === undefined ? {} : { format }),
      notes,
      questions,
      channels: [],
      humidity: [],
      anomalies: nothing,
      rows: 0,
    }
  const anomalies = createAnomalyList(columnsOf(format))
  const rows: { minute: number; values: Float64Array }[] = []
  let late = false
  const keep = (minute: number, values: Float64Array): void => void rows.push({ minute, values: values.slice() })
  const reader = createLogReader(
    format,
    {
      row: keep,
      late: (minute, values) => {
        late = true
        keep(minute, values)
      },
      anomaly: anomalies.add,
    },
    answers,
  )
  reader.feed(bytes)
  reader.end()
  const open = reader.questions()
  // Out of order by a swapped row is put in order; by a clock set back it is not known where it belongs.
  const ordered = late && open.length === 0 ? inOrder(rows) : rows
  const column = (k: number) =>
    open.length > 0
      ? []
      : ordered.map((r) => ({ minute: r.minute, value: Number.isNaN(r.values[k]!) ? null : r.values[k]! }))
  const channels = format.channels.map((c, k) => ({
    ...c,
    series: column(k).map(({ minute, value }) => ({ minute, tempC: value })),
  }))
  const humidity = (format.humidity ?? []).map((c, k) => ({
    ...c,
    series: column(format.channels.length + k).map(({ minute, value }) => ({ minute, rhPct: value })),
  }))
  return {
    format,
    notes,
    questions: open,
    channels,
    humidity,
    anomalies: anomalies.report(),
    rows: reader.rows(),
    firstStamp: reader.firstStamp(),
  }
}

function inOrder(rows: { minute: number; values: Float64Array }[]) {
  const sorted = rows.toSorted((a, b) => a.minute - b.minute)
  return sorted.filter((r, i) => i === 0 || r.minute > sorted[i - 1]!.minute)
}
