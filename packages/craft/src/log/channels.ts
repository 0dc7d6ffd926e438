import type { Answers, Channel, Question } from './format.ts'
import { answeredRole, humidityOf } from './humidity-columns.ts'

const UNIT = /(?:°|º|\bdeg\.?|[([_ ]|^)\s*([CF])(?:[)\]]|\b|_|$)|(celsius|centigrade)|(fahrenheit)/i
const CORE = /core|product|probe|internal|meat|centre|center|sausage/i
const HOUSE = /house|chamber|air|ambient|oven|dry|room|cabinet|chiller|cooler|smoke/i
const OTHER =
  /humid|\brh\b|%|wet|battery|volt|signal|index|\bno\.?$|^#|serial|event|mark|remark|note|status|door|set ?point/i

/** Whether a column is called like the air of a house or a room, and not like a core. */
export const calledAir = (name: string): boolean => HOUSE.test(name) && !/core|centre|center/i.test(name)

const unitIn = (text: string): 'C' | 'F' | undefined => {
  const hit = UNIT.exec(text)
  if (hit === null) return undefined
  if (hit[2] !== undefined) return 'C'
  if (hit[3] !== undefined) return 'F'
  return hit[1]!.toUpperCase() as 'C' | 'F'
}

/** A unit written out in a heading, not a bare letter that may be the name of a probe. */
const WRITTEN = /°|º|\bdeg|celsius|centigrade|fahrenheit|[([]\s*[CF]\s*[)\]]/i
const writtenUnit = (text: string): 'C' | 'F' | undefined => (WRITTEN.test(text) ? unitIn(text) : undefined)

/** The unit a preamble names for the whole file, if it names one and only one. */
function unitOfPreamble(preamble: readonly string[]): 'C' | 'F' | undefined {
  const named = new Set(preamble.filter((l) => /unit|temp|°|scale/i.test(l)).map(unitIn))
  named.delete(undefined)
  return named.size === 1 ? [...named][0] : undefined
}

type Seen = {
  readonly names: readonly string[]
  readonly units: readonly string[]
  readonly readings: readonly (readonly string[])[]
  readonly preamble: readonly string[]
  readonly skip: readonly number[]
  readonly answers: Answers
}

/** The temperature columns with their unit and part, and those of humidity; what is not said becomes a question. */
export function channelsOf({ names, units, readings, preamble, skip, answers }: Seen) {
  const notes: string[] = []
  const questions: Question[] = []
  const unitCells = (i: number): 'C' | 'F' | undefined =>
    readings.map((r) => /\d *(?:°|º)? *([CF])$/.exec(r[i] ?? '')?.[1]).find(Boolean) as 'C' | 'F' | undefined
  const numbers = (i: number): number => readings.filter((r) => /^[-+]?\d/.test(r[i] ?? '')).length
  const inDegrees = (i: number): boolean =>
    (unitIn(units[i] ?? '') ?? unitCells(i) ?? unitIn(names[i] ?? '')) !== undefined
  const { humidity, taken, notes: onHumidity } = humidityOf({ names, units, readings, skip, answers, inDegrees })
  notes.push(...onHumidity)
  const columns = names.flatMap((name, column) =>
    skip.includes(column) ||
    taken.has(column) ||
    numbers(column) === 0 ||
    OTHER.test(name) ||
    OTHER.test(units[column] ?? '')
      ? []
      : [{ name, column }],
  )
  const general = unitOfPreamble(preamble)
  const said = columns.map(
    ({ name, column }) => unitIn(units[column] ?? '') ?? unitCells(column) ?? unitIn(name) ?? general,
  )
  // What is answered fills a gap; where the file itself says another unit, the file stands and the answer is asked for again.
  const written = columns.map(
    ({ name, column }) =>
      unitIn(units[column] ?? '') ?? unitCells(column) ?? writtenUnit(name) ?? (unitIn(name) ? undefined : general),
  )
  const against = columns.filter((_, i) => answers.unit !== undefined && (written[i] ?? answers.unit) !== answers.unit)
  if (against.length > 0 && against.length === written.filter((u) => u !== undefined).length)
    questions.push({
      about: 'unit',
      text: `The file gives ${against.map((c) => c.name).join(', ')} in °${answers.unit === 'F' ? 'C' : 'F'}, and °${answers.unit} was answered.`,
      choices: [answers.unit === 'F' ? 'C' : 'F'],
    })
  // A column without a unit shares the unit of the others, where these agree.
  const common = new Set(said.filter((u) => u !== undefined))
  const shared = common.size === 1 ? [...common][0] : undefined
  const unsaid = columns.filter((_, i) => said[i] === undefined)
  if (unsaid.length > 0 && answers.unit === undefined) {
    if (shared === undefined)
      questions.push({
        about: 'unit',
        text: `No unit is given for ${unsaid.map((c) => c.name).join(', ')}.`,
        choices: ['C', 'F'],
      })
    else notes.push(`${unsaid.map((c) => c.name).join(', ')}: °${shared}, as the other columns`)
  }

  const named = (name: string): Channel['role'] =>
    HOUSE.test(name) && !/core/i.test(name) ? 'house' : CORE.test(name) ? 'core' : 'other'
  const bare = (name: string): string => name.replace(/ *[([]? *(?:°|º|deg\.?)? *[CF] *[)\]]?$/i, '')
  // Who names the core probes names them all; who names only the house leaves the rest to their headings.
  const namesCore = Object.values(answers.roles ?? {}).includes('core')
  const answered = ({ name, column }: { name: string; column: number }) => answeredRole(answers, name, column, bare)
  const roleOf = (c: { name: string; column: number }): Channel['role'] => {
    const role = answered(c) ?? (namesCore ? 'other' : named(c.name))
    return role === 'humidity' ? 'other' : role
  }
  const channels = columns.map((c, i): Channel => ({
    ...c,
    unit: written[i] ?? answers.unit ?? said[i] ?? shared ?? 'C',
    role: roleOf(c),
  }))
  const read = { channels, humidity, notes, questions }
  if (channels.length === 0 || channels.some((c) => c.role === 'core')) return read
  // The log of a room holds no core: the person says so of every column, or it has humidity and each temperature is named as the house.
  if (columns.every((c) => answered(c) !== undefined)) return read
  if (humidity.length > 0 && channels.every((c) => c.role === 'house')) return read
  const open = channels.filter((c) => c.role === 'other')
  // Beside a humidity a lone temperature may be the air's: that is asked.
  if (open.length === 1 && !namesCore && (humidity.length === 0 || channels.length > 1)) {
    notes.push(`${open[0]!.name}: taken as the core, the only temperature not named as the house`)
    return { ...read, channels: channels.map((c) => (c === open[0] ? { ...c, role: 'core' as const } : c)) }
  }
  questions.push({
    about: 'roles',
    text: `Which columns are core probes, which the house? ${channels.map((c) => c.name).join(', ')}`,
    choices: channels.map((c) => c.name),
  })
  return read
}
