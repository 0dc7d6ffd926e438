/**
 * GS1 check digit of the digits before it: from the right, weights 3, 1, 3, 1 …; the digit that brings the sum to a multiple of ten.
 *
 * @param body digits without the check digit
 * @source GS1 General Specifications, 7.9 check digit calculation
 */
export function gs1CheckDigit(body: string): number {
  const sum = Array.from(body)
    .toReversed()
    .reduce((s, digit, i) => s + Number(digit) * (i % 2 === 0 ? 3 : 1), 0)
  return (10 - (sum % 10)) % 10
}

export type GtinReading =
  | { readonly ok: true; readonly gtin14: string; readonly checkDigit: number; readonly completed: boolean }
  | { readonly ok: false; readonly message: string }

const complete = [8, 12, 13, 14]
/** Lengths of a number without its check digit. */
const bodies = [7, 11, 12, 13]
/** Those that cannot be a whole number, so that nobody has to say what is missing. */
const plainBodies = [7, 11]

/**
 * Read a GTIN of 8, 12, 13 or 14 digits and verify its check digit; 7 or 11 digits are completed with theirs. Twelve or thirteen digits are
 * a whole number unless the caller says its check digit is left off: completed unasked, a mistyped one would be another product's.
 */
export function readGtin(text: string, withoutCheckDigit = false): GtinReading {
  if (!/^\d+$/.test(text)) return { ok: false, message: 'is not digits only; allowed: 8, 12, 13 or 14 digits' }
  if (withoutCheckDigit && !bodies.includes(text.length))
    return { ok: false, message: `has ${text.length} digits; allowed without the check digit: 7, 11, 12 or 13` }
  if (withoutCheckDigit || plainBodies.includes(text.length)) {
    const checkDigit = gs1CheckDigit(text)
    return { ok: true, gtin14: `${text}${checkDigit}`.padStart(14, '0'), checkDigit, completed: true }
  }
  if (!complete.includes(text.length))
    return {
      ok: false,
      message: `has ${text.length} digits; allowed: 8, 12, 13 or 14, or 7 or 11 without the check digit`,
    }
  const given = Number(text.at(-1))
  const right = gs1CheckDigit(text.slice(0, -1))
  if (given === right) return { ok: true, gtin14: text.padStart(14, '0'), checkDigit: right, completed: false }
  const unfinished = bodies.includes(text.length) ? '; where its check digit is left off, say withoutCheckDigit' : ''
  return {
    ok: false,
    message: `ends in ${given}, but its check digit is ${right}; allowed: a number whose last digit checks${unfinished}`,
  }
}
