import type { Fault } from '@forcemeat/craft/calculation'
import { readNumber } from '@forcemeat/craft/quantity/number-text'
import { parseQuantity } from '@forcemeat/craft/quantity/parse'
import { baseUnit, convert } from '@forcemeat/craft/quantity/units'
import { decimal } from '../ui/figures.ts'
import { system } from './who.ts'

export type Kind = 'mass' | 'temperature' | 'length' | 'percent'

/** Unit taken where none is typed, by the units of this screen. */
export const defaultUnit = (kind: Kind): string =>
  ({
    mass: system.value === 'us' ? 'lb' : 'kg',
    temperature: system.value === 'us' ? '°F' : '°C',
    length: 'mm',
    percent: '%',
  })[kind]

/** The unit a weight near `kg` is read in off a scale: small ones in grams or ounces. */
export const massUnitFor = (kg: number): string => {
  const pound = convert(1, 'mass', 'lb', 'kg')
  if (system.value === 'us') return kg > 0 && kg < pound ? 'oz' : 'lb'
  return kg > 0 && kg < 1 ? 'g' : 'kg'
}

/** Read one typed quantity into its base unit (kg, °C, mm, %); a fault's text where it cannot be read. */
export function readQuantity(typed: string, kind: Kind, unit = defaultUnit(kind), allowNegative = false) {
  return parseQuantity(typed, { kind, defaultUnit: unit, decimal, allowNegative })
}

/** Read a plain number, sign allowed. */
export function readPlain(typed: string): { ok: true; value: number } | { ok: false; message: string } {
  const text = typed.trim().replace('\u2212', '-')
  const negative = text.startsWith('-')
  const read = readNumber(negative ? text.slice(1).trim() : text, decimal, typed.trim())
  if (!read.ok) return { ok: false, message: read.message }
  return { ok: true, value: negative ? -read.value : read.value }
}

type Need = {
  required?: boolean
  /** Unit taken where none is typed. */
  unit?: string
  /** Unit the value is wanted in; without it the base unit of its kind. */
  as?: string
  allowNegative?: boolean
}

/** Reads the texts of a form; collects a fault for each field that cannot be read, under the field's name. */
export type Reader = {
  readonly faults: Fault[]
  readonly text: (name: string, need?: Need) => string | undefined
  readonly quantity: (name: string, kind: Kind, need?: Need) => number | undefined
  readonly number: (name: string, need?: Need) => number | undefined
  /** A price typed per unit of this screen, as a price per kg. */
  readonly perKg: (price: number) => number
  readonly fault: (name: string, message: string) => undefined
}

export function readerOf(values: Readonly<Record<string, string>>): Reader {
  const faults: Fault[] = []
  const fault = (path: string, message: string): undefined => {
    faults.push({ path, message })
  }
  const typed = (name: string, need: Need | undefined, what: string): string | undefined => {
    const value = (values[name] ?? '').trim()
    if (value === '' && need?.required)
      return fault(name, what === '' ? 'is empty: fill it in' : `is empty; allowed: ${what}`)
    return value === '' ? undefined : value
  }
  return {
    faults,
    fault,
    text: (name, need) => typed(name, need, ''),
    quantity: (name, kind, need) => {
      const value = typed(name, need, `a number in ${need?.unit ?? defaultUnit(kind)}, or with another unit of ${kind}`)
      if (value === undefined) return undefined
      const read = readQuantity(value, kind, need?.unit ?? defaultUnit(kind), need?.allowNegative ?? false)
      if (!read.ok) return fault(name, read.message)
      // Twelve digits: a figure shown in other units and read back is the same figure.
      const amount = need?.as ? convert(read.value, kind, baseUnit[kind], need.as) : read.value
      return Number(amount.toPrecision(12))
    },
    perKg: (price) => Number((price / convert(1, 'mass', defaultUnit('mass'), 'kg')).toPrecision(12)),
    number: (name, need) => {
      const value = typed(name, need, 'a number')
      if (value === undefined) return undefined
      const read = readPlain(value)
      return read.ok ? read.value : fault(name, read.message)
    },
  }
}

/** The fields that have a value; what was left empty is left out. */
export const compact = <T extends Record<string, unknown>>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined)) as never
