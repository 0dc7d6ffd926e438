import type { Answers, HumidityChannel, Role } from './format.ts'

const HUMID = /humid|humed|umidit|feucht|vocht|hygro|(?<![a-z])r\. ?h\.?|(?<![a-z])rh(?![a-z])|(?<![a-z])hr ?%/i
/** Of the air, and yet not the part of saturation. */
const NOT_RELATIVE = /absol|g ?\/ ?(?:m|kg)|ratio|deficit|dew|enthal|set ?point|\bset\b|target|wanted|alarm|limit/i
/** Percents of something else. */
const OTHER_PERCENT = /batt|signal|fan|valve|damper|power|output|memory|fill|smoke|heat|cool|open|speed|load|level/i

/** Whether a heading or a unit speaks of relative humidity. */
export const saysHumidity = (text: string): boolean => HUMID.test(text) && !NOT_RELATIVE.test(text)

/** The role a person gave a column, by its heading, its heading without the unit, or its place. */
export const answeredRole = (
  { roles }: Answers,
  name: string,
  column: number,
  bare: (name: string) => string,
): Role | undefined => roles?.[name] ?? roles?.[bare(name)] ?? roles?.[`column ${column + 1}`]

const withoutPercent = (name: string): string => name.replace(/ *[([]? *% *(?:r\.?h\.?)? *[)\]]?$/i, '')

type Seen = {
  readonly names: readonly string[]
  readonly units: readonly string[]
  readonly readings: readonly (readonly string[])[]
  readonly skip: readonly number[]
  readonly answers: Answers
  /** Columns whose heading, unit or cells say a temperature scale. */
  readonly inDegrees: (column: number) => boolean
}

/**
 * The columns of relative humidity, %. A column is taken for one only where its heading or unit says so, or a person does; a percent of
 * something unsaid, or a figure that could be a part of 1, is left out with a note and never read as a temperature.
 */
export function humidityOf({ names, units, readings, skip, answers, inDegrees }: Seen): {
  readonly humidity: readonly HumidityChannel[]
  /** Columns that are no temperature, whatever their heading. */
  readonly taken: ReadonlySet<number>
  readonly notes: readonly string[]
} {
  const humidity: HumidityChannel[] = []
  const taken = new Set<number>()
  const notes: string[] = []
  for (const [column, name] of names.entries()) {
    if (skip.includes(column)) continue
    const cells = readings.map((r) => r[column] ?? '').filter((c) => /^[-+]?\d/.test(c))
    if (cells.length === 0) continue
    const said = answeredRole(answers, name, column, withoutPercent)
    const heading = `${name} ${units[column] ?? ''}`
    const inPercent = heading.includes('%') || cells.every((c) => /\d *%/.test(c))
    if (said !== 'humidity' && (said === 'other' || !saysHumidity(heading) || inDegrees(column))) {
      if (!inPercent || inDegrees(column)) continue
      taken.add(column)
      if (said === undefined && !OTHER_PERCENT.test(name) && !NOT_RELATIVE.test(name) && !saysHumidity(heading))
        notes.push(`${name}: in %, of what is not said; left out. If it is relative humidity, give it that role`)
      continue
    }
    if (inDegrees(column)) {
      notes.push(`${name}: called humidity, but its figures are in degrees; not read as humidity`)
      continue
    }
    taken.add(column)
    const most = Math.max(...cells.map((c) => Math.abs(Number.parseFloat(c.replace(',', '.')))))
    if (!inPercent && most <= 1) {
      notes.push(`${name}: its figures are at most 1, of 1 or in % is not said; left out`)
      continue
    }
    humidity.push({ column, name, unit: '%RH', role: 'humidity' })
  }
  return { humidity, taken, notes }
}
