import type { Answers, Channel, Question, Role } from './format.ts'

const UNIT = /(?:°|º|\bdeg\.?|[([_ ]|^)\s*([CF])(?:[)\]]|\b|_|$)|(celsius|centigrade)|(fahrenheit)/i
const CORE = /core|product|probe|internal|meat|centre|center|sausage/i
const HOUSE = /house|chamber|air|ambient|oven|dry|room|cabinet|chiller|cooler|smoke/i
const OTHER =
  /humid|\brh\b|%|wet|battery|volt|signal|index|\bno\.?$|^#|serial|event|mark|remark|note|status|door|set ?point/i

const unitIn = (text: string): 'C' | 'F' | undefined => {
  const hit = UNIT.exec(text)
  if (hit === null) return undefined
  if (hit[2] !== undefined) return 'C'
  if (hit[3] !== undefined) return 'F'
  return hit[1]!.toUpperCase() as 'C' | 'F'
}

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

/** The temperature columns, their unit and part; what is not said becomes a question. */
export function channelsOf({ names, units, readings, preamble, skip, answers }: Seen) {
  const notes: string[] = []
  const questions: Question[] = []
  const unitCells = (i: number): 'C' | 'F' | undefined =>
    readings.map((r) => /\d *(?:°|º)? *([CF])$/.exec(r[i] ?? '')?.[1]).find(Boolean) as 'C' | 'F' | undefined
  const numbers = (i: number): number => readings.filter((r) => /^[-+]?\d/.test(r[i] ?? '')).length
  const columns = names.flatMap((name, column) =>
    skip.includes(column) || numbers(column) === 0 || OTHER.test(name) || OTHER.test(units[column] ?? '')
      ? []
      : [{ name, column }],
  )
  const general = unitOfPreamble(preamble)
  const said = columns.map(
    ({ name, column }) => unitIn(units[column] ?? '') ?? unitCells(column) ?? unitIn(name) ?? general,
  )
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

  const named = (name: string): Role =>
    HOUSE.test(name) && !/core/i.test(name) ? 'house' : CORE.test(name) ? 'core' : 'other'
  const bare = (name: string): string => name.replace(/ *[([]? *(?:°|º|deg\.?)? *[CF] *[)\]]?$/i, '')
  // Who names the core probes names them all; who names only the house leaves the rest to their headings.
  const namesCore = Object.values(answers.roles ?? {}).includes('core')
  const roleOf = ({ name, column }: { name: string; column: number }): Role =>
    answers.roles?.[name] ??
    answers.roles?.[bare(name)] ??
    answers.roles?.[`column ${column + 1}`] ??
    (namesCore ? 'other' : named(name))
  const channels = columns.map((c, i): Channel => ({
    ...c,
    unit: answers.unit ?? said[i] ?? shared ?? 'C',
    role: roleOf(c),
  }))
  if (channels.some((c) => c.role === 'core')) return { channels, notes, questions }
  const open = channels.filter((c) => c.role === 'other')
  if (open.length === 1 && !namesCore) {
    notes.push(`${open[0]!.name}: taken as the core, the only temperature not named as the house`)
    return { channels: channels.map((c) => (c === open[0] ? { ...c, role: 'core' as const } : c)), notes, questions }
  }
  questions.push({
    about: 'roles',
    text: `Which columns are core probes, which the house? ${channels.map((c) => c.name).join(', ')}`,
    choices: channels.map((c) => c.name),
  })
  return { channels, notes, questions }
}
