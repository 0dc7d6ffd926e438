/** A part of an element string: application identifier, data, and whether the field is of open length. */
export type Element = { readonly ai: string; readonly data: string; readonly open: boolean }

const WEIGHT_DIGITS = 6
/** The fourth digit of 310n and 320n says how many of the six stand behind the point; the list of identifiers ends at 5. */
const MOST_DECIMALS = 5
/** Grams, or thousandths of a pound, as scales of the trade show them; more only where the weight has more. */
const USUAL_DECIMALS = 3
const PRICE_DECIMALS = 2

/** Digits of a value written with `decimals`, where it is that value and no other. */
function unitsOf(value: number, decimals: number): number | undefined {
  const units = Math.round(value * 10 ** decimals)
  return units / 10 ** decimals === value || Math.abs(units - value * 10 ** decimals) < 1e-9 ? units : undefined
}

const atMost = (n: number): string =>
  n === 0 ? 'a whole number' : n === 1 ? 'at most 1 decimal' : `at most ${n} decimals`

type Held<T> = { readonly ok: true; readonly element: T } | { readonly ok: false; readonly message: string }

/**
 * Net weight as 310n or 320n: six digits, of which n stand behind the point. A weight the field cannot hold exactly is refused: rounded
 * up it would say more than is in the pack, and rounded at all it is another weight than the one on the label.
 */
export function netWeight(ai: '310' | '320', net: number): Held<Element> {
  const whole = Math.max(1, String(Math.floor(net)).length)
  const most = Math.min(MOST_DECIMALS, WEIGHT_DIGITS - whole)
  for (let decimals = Math.min(USUAL_DECIMALS, most); decimals <= most; decimals++) {
    const units = unitsOf(net, decimals)
    if (units !== undefined && units > 0)
      return {
        ok: true,
        element: { ai: `${ai}${decimals}`, data: String(units).padStart(WEIGHT_DIGITS, '0'), open: false },
      }
  }
  return {
    ok: false,
    message: `is ${net}, which six digits cannot hold exactly; allowed: ${atMost(most)} for a weight of this size, and nothing is rounded`,
  }
}

/** Amount to pay as 3922. */
export function amountToPay(price: number): Held<Element> {
  const units = unitsOf(price, PRICE_DECIMALS)
  return units === undefined
    ? {
        ok: false,
        message: `is ${price}; allowed: ${atMost(PRICE_DECIMALS)}, and nothing is rounded`,
      }
    : { ok: true, element: { ai: `392${PRICE_DECIMALS}`, data: String(units), open: true } }
}

const FIRST_YEAR = 2000
const LAST_YEAR = 2075

/**
 * What speaks against a date in six digits. A reader completes the two digits of the year to the year nearest its own, 49 back to 50
 * ahead; these years are read rightly by every reader from 2025 to 2049.
 *
 * @source GS1 General Specifications, 7.12, century in dates (from memory)
 */
export function yearFault(iso: string): string | undefined {
  const year = Number(iso.slice(0, 4))
  return year >= FIRST_YEAR && year <= LAST_YEAR
    ? undefined
    : `is ${iso}, whose year in two digits a reader takes for one of another century; allowed: years ${FIRST_YEAR} to ${LAST_YEAR}`
}

/** A date as YYMMDD. */
export const dateField = (ai: string, iso: string | undefined): Element[] =>
  iso === undefined ? [] : [{ ai, data: iso.slice(2, 4) + iso.slice(5, 7) + iso.slice(8, 10), open: false }]

/** Text or number of open length. */
export const openField = (ai: string, data: string | undefined): Element[] =>
  data === undefined ? [] : [{ ai, data, open: true }]
