import { plainText, readNumber, type DecimalMark } from './number-text.ts'
import { ambiguousUnits, findUnit, symbolsOf, toBase, type QuantityKind, type Unit, type ValueOf } from './units.ts'

export type ParseOptions<K extends QuantityKind = QuantityKind> = {
  readonly kind: K
  /** Unit taken where none is typed, e.g. "kg". Without it, a bare number is refused. */
  readonly defaultUnit?: string
  /** Let masses, lengths, times and percents be below zero (a correction of stock). Temperatures always may. */
  readonly allowNegative?: boolean
} & ({ readonly decimal: DecimalMark } | { readonly locale: string })

export type Parsed<T> =
  | { readonly ok: true; readonly value: T; readonly unit: string }
  | { readonly ok: false; readonly message: string }

const ABSOLUTE_ZERO_C = -273.15
const MAX_TEXT = 80
const compound: readonly QuantityKind[] = ['mass', 'length', 'time']

/** The decimal mark of a locale; undefined for a locale that is unknown or writes numbers with neither "." nor ",". */
export function decimalOf(locale: string): DecimalMark | undefined {
  try {
    const mark = new Intl.NumberFormat(locale).formatToParts(1.5).find((p) => p.type === 'decimal')?.value
    return mark === '.' || mark === ',' ? mark : undefined
  } catch {
    return undefined
  }
}

const refuse = (message: string): { ok: false; message: string } => ({ ok: false, message })

type Part = { readonly text: string; readonly word: string }

/** Split "2 lb 4 oz" into number and unit pairs; undefined where text is left over. */
function split(text: string): Part[] | undefined {
  const parts: Part[] = []
  let rest = text
  while (rest !== '') {
    const hit = /^(\d[\d.,' /-]*\d|[.,]?\d+)\s*([^\d\s.,;/-][^\d,;-]*)?[,;]? */.exec(rest)
    if (!hit) return undefined
    parts.push({ text: hit[1]!, word: (hit[2] ?? '').trim() })
    rest = rest.slice(hit[0].length)
  }
  return parts.length > 0 ? parts : undefined
}

function unitOf(word: string, kind: QuantityKind, defaultUnit: string | undefined): Unit | string {
  if (word === '' || word === '°') {
    if (defaultUnit === undefined) return `has no unit; allowed: a number with one of ${symbolsOf(kind)}`
    const unit = findUnit(kind, defaultUnit)
    if (!unit) throw new RangeError(`defaultUnit ${defaultUnit} is no unit of ${kind}; allowed: ${symbolsOf(kind)}`)
    return unit
  }
  if (word === 'Mg') return '"Mg" is a thousand kilograms and "mg" a thousandth of a gram; allowed: mg, g, kg or t'
  const unit = findUnit(kind, word)
  if (unit) return unit
  const doubtful = ambiguousUnits[word.toLowerCase().replace(/\.$/, '')]
  return doubtful ?? `"${word}" is not a unit of ${kind}; allowed: ${symbolsOf(kind)}`
}

/** Add up parts of falling size: "1 h 30 min", "2 lb 4 oz". Only the last may be broken, and each stays below one of the one before. */
function addUp(
  parts: readonly Part[],
  options: ParseOptions,
  decimal: DecimalMark,
): { value: number; unit: Unit } | string {
  let previous: Unit | undefined
  let total = 0
  for (const [i, part] of parts.entries()) {
    const read = readNumber(part.text, decimal)
    if (!read.ok) return read.message
    const unit = unitOf(part.word, options.kind, parts.length === 1 ? options.defaultUnit : undefined)
    if (typeof unit === 'string') return unit
    if (previous) {
      const ratio = (previous.mul * unit.div) / (previous.div * unit.mul)
      if (unit.system !== previous.system)
        return `mixes ${previous.symbol} with ${unit.symbol}; allowed: parts of one system, such as 2 lb 4 oz or 1 kg 250 g`
      if (ratio <= 1) return `has ${unit.symbol} after ${previous.symbol}; allowed: larger units first, each once`
      if (read.value >= ratio)
        return `has ${read.value} ${unit.symbol} after ${previous.symbol}; allowed: less than ${Math.round(ratio)} ${unit.symbol}, which make 1 ${previous.symbol}`
      total *= ratio
    }
    if (i < parts.length - 1 && !read.whole)
      return `has a broken number before its last part; allowed: whole numbers first, such as 2 lb 4.5 oz`
    total += read.value
    previous = unit
  }
  return { value: total, unit: previous! }
}

/**
 * Read a quantity as people type it: "2 lb 4 oz", "152 °F", "1,5 kg" where the decimal mark is a comma, "2½ oz", "250g",
 * "1 h 30 min". The value comes back in the base unit of its kind (kg, °C, K, mm, min, %), with the last unit as typed.
 * The decimal mark is the one set, or the locale's; a text that uses the other one is a grouping in threes or is refused.
 */
export function parseQuantity<K extends QuantityKind>(text: string, options: ParseOptions<K>): Parsed<ValueOf[K]> {
  const decimal = 'decimal' in options ? options.decimal : decimalOf(options.locale)
  if (decimal === undefined)
    return refuse('the locale writes numbers with neither "." nor ","; allowed: set the decimal mark to one of them')
  if (text.length > MAX_TEXT) return refuse(`is ${text.length} characters long; allowed: at most ${MAX_TEXT}`)
  const plain = plainText(text)
  if (plain === '') return refuse(`is empty; allowed: a number with one of ${symbolsOf(options.kind)}`)
  const sign = /^[+-]/.test(plain) ? plain[0] : ''
  const body = sign ? plain.slice(1).trim() : plain
  const shown = JSON.stringify(text.trim().slice(0, 40))
  if (/\d:\d/.test(body)) return refuse(`${shown} could be hours or minutes; allowed: 1 h 30 min, or 90 min`)
  const parts = split(body)
  if (!parts) return refuse(`${shown} is not a quantity; allowed: a number with one of ${symbolsOf(options.kind)}`)
  if (parts.length > 1 && !compound.includes(options.kind))
    return refuse(`${shown} has ${parts.length} numbers; allowed: one number with one of ${symbolsOf(options.kind)}`)
  const sum = addUp(parts, options, decimal)
  if (typeof sum === 'string') return refuse(sum.startsWith(shown) ? sum : `${shown}: ${sum}`)
  const value = toBase(sign === '-' ? -sum.value : sum.value, sum.unit)
  if (options.kind === 'temperature' && value < ABSOLUTE_ZERO_C)
    return refuse(`${shown} is below absolute zero; allowed: at least ${ABSOLUTE_ZERO_C} °C`)
  if (value < 0 && !options.kind.startsWith('temperature') && options.allowNegative !== true)
    return refuse(`${shown} is below zero; allowed: zero or more`)
  return { ok: true, value: (value === 0 ? 0 : value) as ValueOf[K], unit: sum.unit.symbol }
}
