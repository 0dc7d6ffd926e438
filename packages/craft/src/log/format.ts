/** How a logger file is written. Rows and columns are counted from 1 and 0. */
export type TimeForm =
  | 'ymd'
  | 'dmy'
  | 'mdy'
  | 'epoch-s'
  | 'epoch-ms'
  | 'serial-days'
  | 'elapsed-hms'
  | 'elapsed-ms'
  | 'clock'
  | 'elapsed-seconds'
  | 'elapsed-minutes'
  | 'elapsed-hours'

export const roles = ['core', 'house', 'humidity', 'other'] as const
export type Role = (typeof roles)[number]

/** A column of temperatures. */
export type Channel = {
  readonly column: number
  readonly name: string
  readonly unit: 'C' | 'F'
  readonly role: Exclude<Role, 'humidity'>
}

/** A column of relative humidity; kept apart from the temperatures, so that nothing takes a percent for a degree. */
export type HumidityChannel = {
  readonly column: number
  readonly name: string
  readonly unit: '%RH'
  readonly role: 'humidity'
}

export type LogFormat = {
  readonly encoding: 'utf-8' | 'utf-16le' | 'utf-16be'
  readonly newline: 'lf' | 'cr'
  readonly delimiter: string
  readonly decimal: '.' | ','
  /** Row that names the columns, counted from 1; absent where none does. */
  readonly headerRow?: number
  /** First row of readings, counted from 1. */
  readonly dataRow: number
  readonly time: {
    readonly column: number
    readonly timeColumn?: number
    readonly form: TimeForm
    readonly offset: boolean
  }
  readonly channels: readonly Channel[]
  /** Columns of relative humidity; absent where there is none. */
  readonly humidity?: readonly HumidityChannel[]
  /** Usual step between rows at the head, minutes; absent where it could not be told. */
  readonly stepMinutes?: number
}

/** All columns that are read, temperatures first, in the order a reader gives their values. */
export const columnsOf = (format: LogFormat): readonly (Channel | HumidityChannel)[] => [
  ...format.channels,
  ...(format.humidity ?? []),
]

/** What the file does not say and the reader will not guess. */
export type Question = {
  readonly about: 'date-order' | 'unit' | 'time-unit' | 'decimal' | 'roles' | 'clock-change' | 'layout'
  readonly text: string
  readonly choices: readonly string[]
}

/** What a person says where the file is silent; wins over what the file seems to say. */
export type Answers = {
  readonly dateOrder?: 'dmy' | 'mdy' | 'ymd'
  readonly unit?: 'C' | 'F'
  readonly timeUnit?: 'seconds' | 'minutes' | 'hours' | 'hh:mm' | 'mm:ss'
  readonly decimal?: '.' | ','
  readonly delimiter?: string
  /** Role by the column's name (or `column N`, from 1); columns not named are other once a core is named. */
  readonly roles?: Readonly<Record<string, Role>>
  /** `shift`: the clock was changed while logging, take the hour back; `as-read`: it was not. */
  readonly clockChange?: 'shift' | 'as-read'
}

export const anomalyKinds = [
  'not-a-reading',
  'no-reading',
  'out-of-range',
  'bad-time',
  'repeated-time',
  'out-of-order',
  'clock-back',
  'clock-forward',
  'gap',
  'short-row',
] as const
export type AnomalyKind = (typeof anomalyKinds)[number]

/** Something about one row that the reader did not take as a plain reading; rows counted from 1, as an editor shows them. */
export type Anomaly = {
  readonly row: number
  readonly kind: AnomalyKind
  readonly column?: string
  readonly text?: string
}
