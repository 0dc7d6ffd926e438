import { parseQuantity } from '../../quantity/parse.ts'
import type { QuantityKind } from '../../quantity/units.ts'

/** A figure with its unit as the printer writes it: any number a computer prints, exponents included. */
const PRINTED = /^(-?\d+(?:\.\d+)?(?:e[+-]?\d+)?)\s*(.*)$/i

export type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string }

/** A plain figure, with the unit it may carry. */
export function readPlain(typed: string, unit: string): Read {
  const hit = PRINTED.exec(typed)
  if (hit && (hit[2] === '' || hit[2] === unit)) return { ok: true, value: Number(hit[1]) }
  return { ok: false, message: `${JSON.stringify(typed.slice(0, 40))} is not a number; allowed: a number in ${unit}` }
}

type Wanted = { readonly kind: QuantityKind; readonly unit: string; readonly perBase?: number }

/** A quantity in the unit the recipe keeps it in; other units of its kind ("4 oz", "158 °F") are turned into it. */
export function readQuantity(typed: string, { kind, unit, perBase = 1 }: Wanted): Read {
  const exact = readPlain(typed, unit)
  if (exact.ok) return exact
  const read = parseQuantity(typed, { kind, defaultUnit: unit, decimal: '.' })
  if (!read.ok) return read
  return { ok: true, value: Number((read.value * perBase).toPrecision(12)) }
}
