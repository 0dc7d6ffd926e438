import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { LogJudgement } from '@forcemeat/craft/log/judge-log'
import type { Question } from '@forcemeat/craft/log/format'
import { humidityAxis } from '../../plot/humidity-axis.ts'
import type { CurveSeries, PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { temperature } from '../../ui/figures.ts'

export type RecordedChannel = {
  readonly column: string
  readonly role: string
  readonly instrument?: string
  readonly offsetC?: number
}

/** A curve as the record holds it. */
export type RecordedCurve = {
  readonly seq: number
  readonly at: string
  readonly by: string
  readonly batch: string
  readonly file: string
  readonly fileName: string
  readonly purpose: string
  readonly reading: Readonly<Record<string, string>>
  readonly channels: readonly RecordedChannel[]
  readonly chillStartMinute?: number
  readonly clockOffsetMinutes?: number
  /** Instant of the first reading, where the file did not say it. */
  readonly startsAt?: string
  readonly note?: string
}

/** A recorded curve as the server reads and judges it: offsets added, instruments minded. */
export type CurveView = Pick<LogJudgement, 'notes' | 'anomalies' | 'rows'> & {
  readonly format?: NonNullable<LogJudgement['format']>
  readonly curve: RecordedCurve
  readonly questions: readonly Question[]
  readonly firstStamp?: number
  readonly minutes: readonly number[]
  readonly channels: readonly {
    readonly column: string
    readonly role: string
    readonly values: readonly (number | null)[]
  }[]
  /** Relative humidity, %, at the same minutes; empty where the file has none. */
  readonly humidity: readonly { readonly column: string; readonly values: readonly (number | null)[] }[]
  readonly limits: readonly { readonly label: string; readonly c: number; readonly stops: boolean }[]
  readonly windows: readonly {
    readonly rule: string
    readonly label: string
    readonly fromMinute: number
    readonly toMinute: number
    readonly maxMinutes: number
    readonly verdict: Verdict
  }[]
  readonly lethality?: { readonly column: string; readonly values: readonly number[] }
  readonly chillStartMinute?: number
  readonly findings: readonly Finding[]
}

const inUnit = (c: number): number => (system.value === 'us' ? c * 1.8 + 32 : c)

/** The humidity of a curve, read on the right. */
export const humiditySeries = ({ humidity }: Pick<CurveView, 'humidity'>): CurveSeries[] =>
  humidity.map(({ column, values }) => ({ name: column, kind: 'surface', right: true, values }))

/** Whether the humidity has the right axis: that of a log with a cook in it is the log reduction's. */
export const drawsHumidity = ({ lethality, humidity }: Pick<CurveView, 'lethality' | 'humidity'>): boolean =>
  !lethality && humidity.length > 0

/** A log of humidity alone needs no axis of temperatures. */
const humidityPicture = (view: CurveView, title: string): PlotPicture => ({
  title,
  temperatureUnit: '% RH',
  leftLabel: 'relative humidity, %',
  digits: 0,
  minutes: view.minutes,
  series: humiditySeries(view).map((line) => ({ name: line.name, values: line.values, kind: 'core' })),
  limits: [],
  windows: [],
})

/** A curve of the record as a plot: the windows of the option that decides, the rest stands in the findings. */
export function recordedPicture(view: CurveView, title: string): PlotPicture {
  if (view.channels.length === 0 && view.humidity.length > 0) return humidityPicture(view, title)
  const option = view.windows.find((w) => w.verdict === 'pass')?.rule ?? view.windows[0]?.rule
  return {
    title,
    temperatureUnit: system.value === 'us' ? '°F' : '°C',
    minutes: view.minutes,
    series: [
      ...view.channels.map((c) => ({
        name: c.column,
        kind: c.role === 'core' || c.role === 'house' || c.role === 'surface' ? (c.role as 'core') : ('other' as const),
        values: c.values.map((v) => (v === null ? null : inUnit(v))),
      })),
      ...(drawsHumidity(view) ? humiditySeries(view) : []),
      ...(view.lethality ? [{ name: 'Log reduction', kind: 'lethality' as const, values: view.lethality.values }] : []),
    ],
    limits: view.limits.map((l) => ({ label: `${l.label} ${temperature(l.c)}`, value: inUnit(l.c), stops: l.stops })),
    windows: view.windows
      .filter((w) => w.rule === option)
      .map((w) => {
        const took = Math.round(w.toMinute - w.fromMinute)
        return {
          label: `${w.label}: ${took} of ${w.maxMinutes} min`,
          fromMinute: w.fromMinute,
          toMinute: w.toMinute,
          verdict: took > w.maxMinutes ? ('fail' as const) : w.verdict,
        }
      }),
    ...(drawsHumidity(view) ? { rightAxis: humidityAxis(view.humidity.flatMap((c) => c.values)) } : {}),
    marks: view.chillStartMinute === undefined ? [] : [{ label: 'chill begins', minute: view.chillStartMinute }],
  }
}
