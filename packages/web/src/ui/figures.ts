import { formatNumber, formatQuantity } from '@forcemeat/craft/quantity/format'
import { bothTemperatures } from '@forcemeat/craft/quantity/sentence'
import { baseUnit, convert, findUnit, toBase } from '@forcemeat/craft/quantity/units'
import { decimalOf } from '@forcemeat/craft/quantity/parse'
import { system } from '../state/who.ts'

/** What stands where a figure is not known. */
export const BLANK = '–'

/** Decimal mark of this browser; a full stop where its language writes neither mark. */
export const decimal = decimalOf(navigator.language) ?? '.'

const known = (x: number | null | undefined): x is number => x !== undefined && x !== null && Number.isFinite(x)

export const mass = (kg: number | null | undefined, digits = 4): string =>
  known(kg) ? formatQuantity(kg, 'mass', { system: system.value, digits, decimal }) : BLANK

/** A weight as it is weighed out: to the gram from a kilogram on, finer below. */
export const toWeigh = (kg: number): string => mass(kg, kg >= 1 && kg < 10 ? 4 : 5)

export const temperature = (c: number | null | undefined): string =>
  known(c) ? formatQuantity(c, 'temperature', { system: system.value, decimal }) : BLANK

export const length = (mm: number | null | undefined): string =>
  known(mm) ? formatQuantity(mm, 'length', { system: system.value, digits: 3, decimal }) : BLANK

export const percent = (x: number | null | undefined, digits = 3): string =>
  known(x) ? `${formatNumber(x, { digits, decimal })} %` : BLANK

export const number = (x: number | null | undefined, digits = 4): string =>
  known(x) ? formatNumber(x, { digits, decimal }) : BLANK

/** The unit of a column of figures on this screen: pounds where kilograms are recorded and pounds are shown. */
export const columnUnit = (unit: string): string => (unit === 'kg' && system.value === 'us' ? 'lb' : unit)
/** A figure of such a column. */
export const inColumn = (x: number, unit: string, digits = 3): string =>
  number(columnUnit(unit) === unit ? x : convert(x, 'mass', 'kg', 'lb'), digits)

/** A figure with its unit as the record names it; masses and temperatures in the units of this screen. */
export const measured = (x: number | null | undefined, unit = ''): string => {
  if (!known(x)) return BLANK
  if (unit === 'kg') return mass(x)
  if (unit === '°C') return temperature(x)
  // A time is read in hours and minutes, not in hundredths of a minute.
  if (unit === 'min' && Math.abs(x) >= 10) return formatQuantity(x, 'time', { system: 'metric', decimal })
  return `${number(x, 5)} ${unit}`.trim()
}

/** A difference of two temperatures, in °C: an error, a margin, a shift. It has no zero to move, so 5 °C more is 9 °F more. */
export const degrees = (c: number | null | undefined, digits = 3): string =>
  known(c) ? (system.value === 'us' ? `${number(c * 1.8, digits)} °F` : `${number(c, digits)} °C`) : BLANK

/** An error, a margin or a tolerance with its unit; those of a temperature as differences. */
export const apart = (x: number | null | undefined, unit = ''): string =>
  unit === '°C' ? degrees(x, 5) : measured(x, unit)

/** A sentence of the core, which speaks in grams and kilograms, with its weights in the units of this screen. */
export const inScreenUnits = (sentence: string): string =>
  system.value === 'metric'
    ? sentence
    : sentence.replace(/(\d+(?:\.\d+)?) (kg|g)(?![\w/])/g, (_, n: string, unit: string) =>
        mass(unit === 'kg' ? Number(n) : Number(n) / 1000, 3),
      )

/** A sentence of a rule, which keeps its own degrees, with those of this screen behind them where they are others. */
export const inBothDegrees = (sentence: string): string => bothTemperatures(sentence, system.value)

/** Money of the kitchen's own currency, two places. */
export const money = (x: number | null | undefined): string =>
  known(x) ? formatNumber(x, { places: 2, decimal }) : BLANK

/** Price per kilogram, or per pound where pounds are shown. */
export const pricePerMass = (perKg: number | null | undefined): string =>
  known(perKg)
    ? system.value === 'us'
      ? `${money(perKg * toBase(1, findUnit('mass', 'lb')!))} / lb`
      : `${money(perKg)} / kg`
    : BLANK

const days = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' })
const instants = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' })

/** A calendar date, without a clock. */
export const day = (iso: string | null | undefined): string => {
  if (!iso) return BLANK
  const at = new Date(`${iso.slice(0, 10)}T00:00:00Z`)
  return Number.isNaN(at.getTime()) ? iso : days.format(at)
}

/** An instant in this screen's zone. */
export const instant = (iso: string | null | undefined): string => {
  if (!iso) return BLANK
  const at = new Date(iso)
  return Number.isNaN(at.getTime()) ? iso : instants.format(at)
}

/** Today's date at this screen, YYYY-MM-DD. */
export const today = (): string => {
  const now = new Date()
  const two = (n: number): string => String(n).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}

/** A number as it is put into a field to be edited. */
export const editable = (x: number | null | undefined): string =>
  known(x) ? String(Number(x.toPrecision(12))).replace('.', decimal) : ''

/** A weight, temperature or length as it is put into a field to be edited, with its unit, so that no later change of units can turn it. */
export const editableQuantity = (
  x: number | null | undefined,
  kind: 'mass' | 'temperature' | 'length',
  unit: string,
): string => (known(x) ? `${editable(convert(x, kind, baseUnit[kind], unit))} ${unit}` : '')
