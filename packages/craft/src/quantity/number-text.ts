/** The mark between whole and fraction: a setting of the kitchen, never guessed from the text. */
export type DecimalMark = '.' | ','

export type NumberRead =
  | { readonly ok: true; readonly value: number; readonly whole: boolean }
  | { readonly ok: false; readonly message: string }

const vulgar: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅐': '1/7',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
}

/** One kind of space, minus, apostrophe and fraction, whatever keyboard or web page the text came from. */
export function plainText(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]/g, (c) => ` ${vulgar[c]}`)
    .replace(/[\u00A0\u1680\u2000-\u200A\u202F\u205F\u3000\t]/g, ' ')
    .replace(/[\u2212\uFE63\uFF0D]/g, '-')
    .replace(/[\u2019\u02BC]/g, "'")
    .replace(/\u2044/g, '/')
    .replace(/℃/g, '°C')
    .replace(/℉/g, '°F')
    .replace(/[º˚]/g, '°')
    .replace(/ +/g, ' ')
    .trim()
}

const MAX_DENOMINATOR = 1000

const escape = (mark: string): string => (mark === '.' ? '\\.' : mark)

/** How thousands are written where `decimal` is the decimal mark, for messages. */
export const sample = (decimal: DecimalMark): string =>
  decimal === '.' ? '1500, 1,500 or 1500.5' : '1500, 1.500 or 1500,5'

function readPlain(text: string, decimal: DecimalMark, shown: string): NumberRead {
  const other = decimal === '.' ? ',' : '.'
  const mark = escape(decimal)
  const bare = new RegExp(`^(\\d+)?(?:${mark}(\\d+))?$`)
  const grouped = new RegExp(`^[1-9]\\d{0,2}([${escape(other)} '])\\d{3}(?:\\1\\d{3})*(?:${mark}\\d+)?$`)
  if ((bare.test(text) && /\d/.test(text)) || grouped.test(text)) {
    const groups = new RegExp(`[${escape(other)} ']`, 'g')
    const value = Number(text.replace(groups, '').replace(decimal, '.'))
    if (!Number.isFinite(value)) return { ok: false, message: `"${shown.slice(0, 20)}…" is too large a number` }
    return { ok: true, value, whole: Number.isInteger(value) }
  }
  if (text.includes(other))
    return {
      ok: false,
      message: `"${shown}" uses "${other}", which groups thousands where the decimal mark is "${decimal}", and the groups are not of three; allowed: ${sample(decimal)}`,
    }
  return { ok: false, message: `"${shown}" is not a number; allowed: ${sample(decimal)}, 2 1/2 or 2½` }
}

/**
 * Read a number without sign as people write one: grouped or not, with a decimal mark, a fraction ("1/2") or a mixed number
 * ("2 1/2", "2-1/2"). `text` must have been through `plainText`. Thousands may be grouped by the mark that is not the decimal
 * one, a space or an apostrophe, in threes only; anything that could be read two ways is refused with what is allowed. A refusal
 * begins with the text as it was typed, `typed` where that is not `text` itself.
 */
export function readNumber(text: string, decimal: DecimalMark, typed = text): NumberRead {
  const shown = typed.slice(0, 40)
  const fraction = /^(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/.exec(text)
  if (!fraction) return readPlain(text, decimal, shown)
  const [, whole, top, bottom] = fraction
  const [n, d] = [Number(top), Number(bottom)]
  if (d === 0 || d > MAX_DENOMINATOR)
    return {
      ok: false,
      message: `"${shown}" divides by ${d}; allowed: a fraction with 1 to ${MAX_DENOMINATOR} below the line`,
    }
  if (whole !== undefined && n >= d)
    return {
      ok: false,
      message: `"${shown}" has a fraction of one or more after a whole number; allowed: a fraction below one, such as 2 1/2`,
    }
  const value = (Number(whole ?? 0) * d + n) / d
  return { ok: true, value, whole: Number.isInteger(value) }
}
