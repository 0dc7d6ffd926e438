import type { DecimalMark } from './number-text.ts'
import { findUnit, fromBase, type QuantityKind } from './units.ts'

export type NumberFormat = {
  /** Significant digits, 1 to 15. Digits before the decimal mark are never rounded away. */
  readonly digits?: number
  /** Places after the decimal mark instead, kept even when zero. */
  readonly places?: number
  readonly decimal?: DecimalMark
}

const DEFAULT_DIGITS = 4
const MINUS = '\u2212'

/** Decimal digits of a finite number ≥ 0 as they read shortest: `0.digits × 10^exponent`. */
function digitsOf(value: number): { digits: string; exponent: number } {
  const [mantissa, power] = value.toExponential().split('e') as [string, string]
  return { digits: mantissa.replace('.', ''), exponent: Number(power) + 1 }
}

/** Round the shortest decimal reading of `value` half away from zero to `places`; plain digits, never a power of ten. */
function fixed(value: number, places: number): string {
  const { digits, exponent } = digitsOf(value)
  const keep = exponent + places
  let kept = keep <= 0 ? 0n : BigInt(digits.slice(0, keep).padEnd(keep, '0'))
  if (keep >= 0 && keep < digits.length && digits[keep]! >= '5') kept += 1n
  const text = kept.toString().padStart(places + 1, '0')
  return places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`
}

/**
 * A number as plain digits: rounded to significant digits (4 unless said) without float noise or powers of ten, trailing zeros
 * dropped. The sign of a negative is a true minus (U+2212).
 * @throws RangeError when not finite, or digits or places are out of range.
 */
export function formatNumber(value: number, format: NumberFormat = {}): string {
  if (!Number.isFinite(value)) throw new RangeError(`formatNumber(${value}): allowed: a finite number`)
  const digits = format.digits ?? DEFAULT_DIGITS
  if (!(Number.isInteger(digits) && digits >= 1 && digits <= 15))
    throw new RangeError(`digits ${digits}: allowed: 1 to 15`)
  if (format.places !== undefined && !(Number.isInteger(format.places) && format.places >= 0 && format.places <= 20))
    throw new RangeError(`places ${format.places}: allowed: 0 to 20`)
  const size = Math.abs(value)
  let text: string
  if (format.places !== undefined) text = fixed(size, format.places)
  else if (size === 0) text = '0'
  else {
    text = fixed(size, Math.max(0, digits - digitsOf(size).exponent))
    if (text.includes('.')) text = text.replace(/\.?0+$/, '')
  }
  const marked = format.decimal === ',' ? text.replace('.', ',') : text
  return value < 0 && /[1-9]/.test(marked) ? MINUS + marked : marked
}

export type QuantityFormat = NumberFormat & {
  readonly system: 'metric' | 'us'
  /** Print in this unit instead of the one that suits the size. */
  readonly unit?: string
}

/** "2 lb 4.2 oz": rounded as a whole first, so that ounces never read 16. */
function poundsAndOunces(kg: number, format: QuantityFormat): string {
  const ounces = fromBase(kg, findUnit('mass', 'oz')!)
  const pounds = Math.floor(ounces / 16)
  const places = format.places ?? (pounds >= 10 ? 0 : 1)
  const rounded = Number(fixed(ounces, places))
  const lb = Math.floor(rounded / 16)
  const oz = formatNumber(rounded - lb * 16, { ...format, digits: 6 })
  if (lb === 0) return `${formatNumber(ounces, format)} oz`
  return Number(oz.replace(',', '.')) === 0 ? `${lb} lb` : `${lb} lb ${oz} oz`
}

/** "1 h 30 min", "3 d 4 h": rounded to the minute as a whole first, so that minutes never read 60. */
function daysHoursMinutes(minutes: number, format: QuantityFormat): string {
  if (minutes < 1) return `${formatNumber(minutes * 60, format)} s`
  if (minutes < 59.95) return `${formatNumber(minutes, { ...format, digits: Math.min(format.digits ?? 3, 3) })} min`
  const total = Math.round(minutes)
  const days = total >= 2880 ? Math.floor(total / 1440) : 0
  const hours = Math.floor((total - days * 1440) / 60)
  const rest = total - days * 1440 - hours * 60
  const parts = [days > 0 && `${days} d`, hours > 0 && `${hours} h`, rest > 0 && `${rest} min`]
  return parts.filter(Boolean).join(' ')
}

/** The unit that suits a size; the limits keep two to four digits before the mark. */
function suitable(
  size: number,
  kind: QuantityKind,
  { system, digits = DEFAULT_DIGITS, places }: QuantityFormat,
): string {
  if (kind === 'mass') {
    if (system === 'us') return 'lb'
    // As it is printed: what is rounded up to a thousand grams is a kilogram.
    const asPrinted = (x: number): number =>
      places === undefined ? Number(x.toPrecision(digits)) : Number(x.toFixed(places))
    if (size >= 1 || asPrinted(size * 1000) >= 1000) return 'kg'
    return size === 0 || size >= 0.001 || asPrinted(size * 1e6) >= 1000 ? 'g' : 'mg'
  }
  if (kind === 'length') return system === 'us' ? (size >= 914.4 ? 'ft' : 'in') : size >= 1000 ? 'm' : 'mm'
  if (kind === 'temperature') return system === 'us' ? '°F' : '°C'
  if (kind === 'temperature-difference') return system === 'us' ? '°F' : 'K'
  return kind === 'time' ? 'min' : '%'
}

/** Above this, pounds are printed with decimals rather than ounces. */
const LB_OZ_UP_TO_KG = 45.359237

/**
 * A value held in the base unit of its kind as text a maker reads: "1.25 kg", "2 lb 12.1 oz", "66.7 °C", "1 h 30 min".
 * Temperatures are printed to a tenth unless digits or places are given.
 * @throws RangeError for a value that is not finite or a unit the kind does not have.
 */
export function formatQuantity(value: number, kind: QuantityKind, format: QuantityFormat): string {
  if (!Number.isFinite(value)) throw new RangeError(`formatQuantity(${value}): allowed: a finite number`)
  const size = Math.abs(value)
  const minus = value < 0 ? MINUS : ''
  if (format.unit === undefined) {
    if (kind === 'time' && size > 0) return minus + daysHoursMinutes(size, format)
    if (kind === 'mass' && format.system === 'us' && size < LB_OZ_UP_TO_KG) return minus + poundsAndOunces(size, format)
  }
  const symbol = format.unit ?? suitable(size, kind, format)
  const unit = findUnit(kind, symbol)
  if (!unit) throw new RangeError(`no unit ${symbol} of ${kind}`)
  const tenth = kind.startsWith('temperature') && format.digits === undefined && format.places === undefined
  const number = formatNumber(fromBase(value, unit), tenth ? { ...format, places: 1 } : format)
  return `${tenth ? number.replace(/[.,]0$/, '') : number} ${unit.symbol}`
}
