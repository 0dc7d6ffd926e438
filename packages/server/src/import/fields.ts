import { findMaterial, materials } from '@forcemeat/craft/materials/materials'
import { readNumber, type DecimalMark } from '@forcemeat/craft/quantity/number-text'
import { parseQuantity } from '@forcemeat/craft/quantity/parse'
import type { FactKind } from '@forcemeat/ledger'

export type Read = { readonly value: unknown } | { readonly fault: string }
export type Field = {
  /** Where it goes in the body of the entry. */
  readonly to: string
  readonly head: string
  /** Other heads taken for it. */
  readonly also?: readonly string[]
  readonly required?: boolean
  readonly read: (text: string, decimal: DecimalMark) => Read
}

const plain = (text: string): Read => ({ value: text })
const number = (text: string, decimal: DecimalMark): Read => {
  const read = readNumber(text, decimal)
  return read.ok ? { value: read.value } : { fault: read.message }
}
/** A price: a number, with a sign or code of money before or behind it where there is one. */
const price = (text: string, decimal: DecimalMark): Read => {
  const bare = text.replaceAll(/^(?:[\p{Sc}]|[A-Z]{3})\s*|\s*(?:[\p{Sc}]|[A-Z]{3})$/gu, '')
  const read = number(bare, decimal)
  return 'fault' in read || (read.value as number) >= 0
    ? read
    : { fault: `${JSON.stringify(text.slice(0, 40))} is below nothing; allowed: 0 or more` }
}
const quantity =
  (kind: 'mass' | 'temperature' | 'percent', defaultUnit: string) =>
  (text: string, decimal: DecimalMark): Read => {
    const read = parseQuantity(text, { kind, defaultUnit, decimal })
    return read.ok ? { value: read.value } : { fault: read.message }
  }
const date = (text: string): Read =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text))
    ? { value: text }
    : {
        fault: `${JSON.stringify(text.slice(0, 40))} is not a date that can be read in one way only; allowed: year-month-day, as 2026-11-25, or a date cell of a workbook`,
      }
const material = (text: string): Read => {
  const found =
    findMaterial(text.toLowerCase()) ?? materials.find((m) => m.name.toLowerCase() === text.trim().toLowerCase())
  return found
    ? { value: found.id }
    : { fault: `${JSON.stringify(text.slice(0, 60))} is not in the table of materials; allowed: a name or code of it` }
}
const choice =
  (allowed: readonly string[]) =>
  (text: string): Read =>
    allowed.includes(text.toLowerCase())
      ? { value: text.toLowerCase() }
      : { fault: `${JSON.stringify(text.slice(0, 40))} is not one of them; allowed: ${allowed.join(', ')}` }
const choices =
  (allowed: readonly string[]) =>
  (text: string): Read => {
    const parts = text
      .toLowerCase()
      .split(/[,;/+]\s*|\s+and\s+/)
      .map((t) => t.trim())
    return parts.every((p) => allowed.includes(p))
      ? { value: [...new Set(parts)] }
      : { fault: `${JSON.stringify(text.slice(0, 40))} is not of them; allowed: ${allowed.join(', ')}` }
  }

const lots: readonly Field[] = [
  { to: 'lot', head: 'lot', also: ['lot code', 'code'], required: true, read: plain },
  { to: 'material', head: 'material', also: ['food', 'item'], required: true, read: material },
  {
    to: 'kg',
    head: 'weight',
    also: ['kg', 'weight kg', 'quantity', 'quantity kg'],
    required: true,
    read: quantity('mass', 'kg'),
  },
  { to: 'on', head: 'received', also: ['date', 'received on', 'came in on', 'in on'], required: true, read: date },
  { to: 'supplier', head: 'supplier', read: plain },
  { to: 'supplierLot', head: 'supplier lot', read: plain },
  { to: 'useBy', head: 'use by', also: ['use-by', 'expiry', 'best before'], read: date },
  {
    to: 'arrivalC',
    head: 'arrival temperature',
    also: ['temperature', 'arrival °c'],
    read: quantity('temperature', '°C'),
  },
  { to: 'costPerKg', head: 'price per kg', also: ['price', 'cost per kg'], read: number },
  { to: 'leanAsSoldPct', head: 'lean as sold', also: ['lean', 'lean %'], read: quantity('percent', '%') },
  { to: 'fatPct', head: 'fat', also: ['fat %'], read: quantity('percent', '%') },
  { to: 'fatSdPct', head: 'fat spread', also: ['fat sd', 'fat sd %'], read: quantity('percent', '%') },
  { to: 'fatBasis', head: 'fat basis', read: choice(['analysed', 'estimated', 'as-sold']) },
  { to: 'place', head: 'place', also: ['kept in', 'store'], read: plain },
  { to: 'note', head: 'note', read: plain },
]

const businesses: readonly Field[] = [
  { to: 'business', head: 'code', required: true, read: plain },
  { to: 'name', head: 'name', required: true, read: plain },
  { to: 'as', head: 'as', also: ['kind', 'role'], required: true, read: choices(['supplier', 'customer', 'carrier']) },
  { to: 'address', head: 'address', read: plain },
  { to: 'contact', head: 'contact', also: ['phone', 'email', 'telephone'], read: plain },
  { to: 'approval', head: 'approval', also: ['approval number', 'registration'], read: plain },
]

const orders: readonly Field[] = [
  { to: 'order', head: 'order', also: ['order code', 'order number', 'code'], required: true, read: plain },
  { to: 'customer', head: 'customer', also: ['for', 'buyer'], required: true, read: plain },
  { to: 'on', head: 'taken', also: ['ordered', 'ordered on', 'taken on', 'date'], required: true, read: date },
  { to: 'due', head: 'due', also: ['due on', 'deliver on', 'delivery', 'wanted'], required: true, read: date },
  { to: 'recipe', head: 'product', also: ['recipe', 'item'], required: true, read: plain },
  {
    to: 'kg',
    head: 'weight',
    also: ['kg', 'weight kg', 'quantity', 'quantity kg'],
    required: true,
    read: quantity('mass', 'kg'),
  },
  { to: 'note', head: 'note', read: plain },
]

const prices: readonly Field[] = [
  { to: 'material', head: 'material', also: ['food', 'item'], required: true, read: material },
  { to: 'costPerKg', head: 'price per kg', also: ['price', 'cost per kg', 'cost'], required: true, read: price },
  { to: 'from', head: 'from', also: ['valid from', 'holds from', 'date'], required: true, read: date },
  { to: 'supplier', head: 'supplier', read: plain },
  { to: 'packKg', head: 'pack', also: ['pack kg', 'pack weight'], read: quantity('mass', 'kg') },
  { to: 'unit', head: 'unit', also: ['sold as'], read: plain },
  { to: 'note', head: 'note', read: plain },
]

const sellingPrices: readonly Field[] = [
  { to: 'recipe', head: 'product', also: ['recipe', 'item'], required: true, read: plain },
  { to: 'pricePerKg', head: 'price per kg', also: ['price', 'sells at'], required: true, read: price },
  { to: 'from', head: 'from', also: ['valid from', 'holds from', 'date'], required: true, read: date },
  { to: 'note', head: 'note', read: plain },
]

type Import = {
  readonly kind: FactKind
  /** The field that tells one thing from another, for the sheet. */
  readonly named: string
  readonly fields: readonly Field[]
  /** Rows of one thing together make one entry, with these fields as its lines. */
  readonly lines?: readonly string[]
}

/** What can be taken from a file, as which kind of entry, by which columns. */
export const imports = {
  lots: { kind: 'lot.receive', named: 'lot', fields: lots },
  businesses: { kind: 'business.add', named: 'business', fields: businesses },
  orders: { kind: 'order.take', named: 'order', fields: orders, lines: ['recipe', 'kg', 'note'] },
  prices: { kind: 'price.set', named: 'material', fields: prices },
  'selling-prices': { kind: 'price.sell', named: 'recipe', fields: sellingPrices },
} as const satisfies Record<string, Import>
export type ImportKind = keyof typeof imports
