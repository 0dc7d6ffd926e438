/** One band of a rounding rule: it holds for values `below` or `upTo` its border; the last has no border. */
export type RoundingBand = {
  readonly below?: number
  readonly upTo?: number
  /** Nearest multiple of this, halves upward. */
  readonly step?: number
  /** Printed in place of a figure. */
  readonly text?: string
}

/** What a value becomes on the label: the words printed, and the figure behind them where there is one. */
export type Declared = { readonly text: string; readonly value?: number }

/** Decimals a step is written with: one for 0.5, two for 0.25. */
const decimalsOf = (step: number): number => (String(step).split('.')[1] ?? '').length

/** A double free of the last bits of arithmetic, so that 0.15 / 0.05 is three halves of a step and not a little less. */
const clean = (x: number): number => Number(x.toPrecision(12))

/**
 * A value as it is declared, by the first band that holds for the unrounded value. Halves go upward: no text read says otherwise.
 *
 * @param bands ascending; the last without a border
 */
export function declared(bands: readonly RoundingBand[], value: number): Declared {
  const v = clean(value)
  const band = bands.find((b) => (b.below === undefined || v < b.below) && (b.upTo === undefined || v <= b.upTo))
  if (!band) throw new RangeError(`declared(${value}): no band of the rule holds`)
  if (band.text !== undefined) return { text: band.text }
  const step = band.step ?? 1
  const rounded = clean(Math.floor(clean(v / step) + 0.5) * step)
  if (rounded === 0) return { text: '0', value: 0 }
  // Steps of a tenth keep their decimal (5.0); of a half or a quarter a whole figure stands without one: 1, 1.5, 0.25.
  const decimal = Number.isInteger(clean(Math.log10(step)))
  const text = decimal ? rounded.toFixed(decimalsOf(step)) : String(rounded)
  return { text, value: rounded }
}
