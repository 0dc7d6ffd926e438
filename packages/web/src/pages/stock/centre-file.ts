import type { Answers, Question } from '@forcemeat/craft/log/format'
import { readLog } from '@forcemeat/craft/log/read'

/** The log of a centre as a browser opened it: its columns, and each as hours and °C. */
export type CentreFile = {
  readonly name: string
  readonly bytes: Blob
  readonly columns: readonly string[]
  /** What the reader could not make out; a file with any is not taken. */
  readonly trouble?: string
  /** What the file does not say and a person can: its unit, the order of its dates. */
  readonly questions: readonly Question[]
  readonly answers: Answers
  /** The same file read by one more answer. */
  readonly answered: (more: Answers) => CentreFile
  /** Whether its rows bear dates; else it is asked when it began. */
  readonly dated: boolean
  readonly log: (column: string) => readonly { readonly hour: number; readonly centreC: number | null }[]
}

/** Largest file read here, bytes. */
const largest = 32_000_000
const dates: ReadonlySet<string> = new Set(['ymd', 'dmy', 'mdy', 'epoch-s', 'epoch-ms', 'serial-days'])

/** The answer a question is given by. */
export const answerTo: Readonly<Partial<Record<Question['about'], keyof Answers>>> = {
  'date-order': 'dateOrder',
  unit: 'unit',
  'time-unit': 'timeUnit',
  decimal: 'decimal',
  'clock-change': 'clockChange',
}

function readCentre(name: string, bytes: Blob, data: Uint8Array, answers: Answers): CentreFile {
  const first = readLog(data, answers)
  const columns = (first.format?.channels ?? []).map((c) => c.name)
  // Which column is the centre is asked by itself; what nobody can answer here is in the way.
  const open = first.questions.filter((q) => q.about !== 'roles')
  const mute = open.filter((q) => answerTo[q.about] === undefined || q.choices.length === 0)
  const trouble =
    columns.length === 0 && open.length === mute.length
      ? first.notes.join(' ') || open.map((q) => q.text).join(' ') || 'holds no column of temperatures'
      : mute.length > 0
        ? mute.map((q) => q.text).join(' ')
        : undefined
  return {
    name,
    bytes,
    columns,
    ...(trouble === undefined ? {} : { trouble }),
    questions: trouble === undefined ? open : [],
    answers,
    answered: (more) => readCentre(name, bytes, data, { ...answers, ...more }),
    dated: dates.has(first.format?.time.form ?? ''),
    log: (column) =>
      readLog(data, { ...answers, roles: { [column]: 'core' } })
        .channels.find((c) => c.name === column)
        ?.series.map((p) => ({ hour: p.minute / 60, centreC: p.tempC })) ?? [],
  }
}

/** Reads a logger's file; of several temperatures one is then chosen as the centre. */
export async function openCentreFile(file: File): Promise<CentreFile> {
  if (file.size > 0 && file.size <= largest)
    return readCentre(file.name, file, new Uint8Array(await file.arrayBuffer()), {})
  const none: CentreFile = {
    name: file.name,
    bytes: file,
    columns: [],
    trouble: `has ${file.size} bytes; allowed: 1 to ${largest} bytes`,
    questions: [],
    answers: {},
    answered: () => none,
    dated: true,
    log: () => [],
  }
  return none
}

/** The answers in the words of the record; nothing where the file said all itself. */
export function readingOf({ answers }: CentreFile): Record<string, string> | undefined {
  const { dateOrder, unit, timeUnit, decimal, clockChange } = answers
  const said = {
    ...(unit === undefined ? {} : { unit }),
    ...(dateOrder === undefined ? {} : { dateOrder: dateOrder.toUpperCase() }),
    ...(timeUnit === undefined ? {} : { timeUnit }),
    ...(decimal === undefined ? {} : { decimal }),
    ...(clockChange === undefined ? {} : { clockChange }),
  }
  return Object.keys(said).length > 0 ? said : undefined
}
