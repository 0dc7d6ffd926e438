import { readPlain, readQuantity, type Read } from './value.ts'
import { pieces, unquoted } from './words.ts'

/** Where a reader says what it could not read. */
export type Take = { readonly fault: (message: string) => undefined }
type Fields = Record<string, unknown>
type Reader = (typed: string) => Read | { readonly ok: true; readonly value: string }

const percent: Reader = (t) => readPlain(t, '%')
const celsius: Reader = (t) => readQuantity(t, { kind: 'temperature', unit: '°C' })
const minutes: Reader = (t) => readQuantity(t, { kind: 'time', unit: 'min' })
/** Days and hours stand plain as written; "36 h" and "1 d 12 h" are read too. */
const days: Reader = (t) => inSteps(t, 'days', 1440)
const hours: Reader = (t) => inSteps(t, 'hours', 60)
const speed: Reader = (t) => readPlain(t, 'm/s')
const bare: Reader = (t) => readPlain(t, '')
const mm: Reader = (t) => readQuantity(t, { kind: 'length', unit: 'mm' })
const grams: Reader = (t) => readQuantity(t, { kind: 'mass', unit: 'g', perBase: 1000 })
const kgPerM: Reader = (t) => readPlain(t, 'kg/m')
const words: Reader = (t) => {
  const value = unquoted(t)
  return value === undefined
    ? { ok: false, message: 'has quotes that do not close; allowed: a text, or one in JSON quotes' }
    : { ok: true, value }
}

function inSteps(typed: string, unit: string, minutesEach: number): Read {
  const exact = readPlain(typed, unit)
  if (exact.ok) return exact
  const read = readQuantity(typed, { kind: 'time', unit: 'min' })
  return read.ok ? { ok: true, value: Number((read.value / minutesEach).toPrecision(12)) } : read
}

type Clause = readonly [says: string, field: string, read: Reader]

/** Read the clauses after the first piece: each starts with its word, stands once, and fills one field. */
function clauses(found: readonly string[], known: readonly Clause[], take: Take): Fields {
  const out: Fields = {}
  for (const piece of found) {
    const hit = known.find(([says]) => piece === says || piece.startsWith(`${says} `))
    if (!hit) {
      take.fault(`has ${JSON.stringify(piece.slice(0, 40))}; allowed: ${known.map(([says]) => says).join(', ')}`)
      continue
    }
    const [says, field, read] = hit
    const value = read(piece.slice(says.length).trim())
    if (Object.hasOwn(out, field)) take.fault(`says ${says} a second time; allowed: once`)
    else if (!value.ok) take.fault(`${says}: ${value.message}`)
    else out[field] = value.value
  }
  return out
}

const boundsOf: readonly Clause[] = [
  ['at least', 'minPct', percent],
  ['at most', 'maxPct', percent],
]

/** `70 % pork-butt; at least 40 %; at most 90 %; note …` */
export function partLine(rest: string, take: Take, meat: boolean): Fields | undefined {
  const [head = '', ...more] = pieces(rest)
  const [, amount = '', name = ''] = /^(\S+)\s*%\s*(.*)$/.exec(head) ?? []
  const pct = readPlain(amount.replace(/%$/, ''), '%')
  const material = unquoted(name)
  if (!pct.ok || !material)
    return take.fault(
      `has ${JSON.stringify(head.slice(0, 40))}; allowed: a percent of the meat block and a material, e.g. 1.6 % salt`,
    )
  const known: readonly Clause[] = [...(meat ? boundsOf : []), ['note', 'note', words]]
  return { material, pct: pct.value, ...clauses(more, known, take) }
}

/** `fat; at least 20 %; at most 28 %` */
export function limitLine(rest: string, take: Take): Fields | undefined {
  const [head = '', ...more] = pieces(rest)
  const of = unquoted(head)
  return of === undefined ? take.fault('has quotes that do not close') : { of, ...clauses(more, boundsOf, take) }
}

/** `120 to 156 ppm` */
export function nitriteLine(rest: string, take: Take): Fields | undefined {
  const [, low = '', high = ''] = /^(\S+)\s+to\s+(\S+)\s*(?:ppm|mg\/kg)?$/.exec(rest.trim()) ?? []
  const [a, b] = [readPlain(low, 'ppm'), readPlain(high, 'ppm')]
  return a.ok && b.ok
    ? { lowPpm: a.value, highPpm: b.value }
    : take.fault(`is ${JSON.stringify(rest.slice(0, 40))}; allowed: a band in ppm, e.g. 120 to 156 ppm`)
}

/** `32 mm; kind hog; holds 0.5 kg/m; link 110 g` */
export function casingLine(rest: string, take: Take): Fields {
  const [head = '', ...more] = pieces(rest)
  const calibre = mm(head)
  if (!calibre.ok) take.fault(calibre.message)
  const known: readonly Clause[] = [
    ['kind', 'casing', words],
    ['holds', 'kgPerM', kgPerM],
    ['link', 'linkG', grams],
  ]
  return { ...(calibre.ok ? { calibreMm: calibre.value } : {}), ...clauses(more, known, take) }
}

/** `core 70 °C; hold 20 min; loss 8 %` */
export const cookLine = (rest: string, take: Take): Fields =>
  clauses(
    pieces(rest),
    [
      ['core', 'targetCoreC', celsius],
      ['hold', 'holdMinutes', minutes],
      ['loss', 'lossPct', percent],
    ],
    take,
  )

/** `air; at 60 °C; humidity 40 %; for 30 min; until 55 °C` */
export function stageLine(rest: string, take: Take): Fields {
  const [medium = '', ...more] = pieces(rest)
  const known: readonly Clause[] = [
    ['at', 'tempC', celsius],
    ['humidity', 'rhPct', percent],
    ['for', 'minutes', minutes],
    ['until', 'untilCoreC', celsius],
  ]
  return { medium, ...clauses(more, known, take) }
}

/** `to pH 5.2; from pH 5.8; culture …` */
export const fermentLine = (rest: string, take: Take): Fields =>
  clauses(
    pieces(rest),
    [
      ['to pH', 'targetPh', bare],
      ['from pH', 'startPh', bare],
      ['culture', 'culture', words],
    ],
    take,
  )

/** `for 48 hours; at 22 °C; humidity 92 %` */
export const fermentStageLine = (rest: string, take: Take): Fields =>
  clauses(
    pieces(rest),
    [
      ['for', 'hours', hours],
      ['at', 'tempC', celsius],
      ['humidity', 'rhPct', percent],
    ],
    take,
  )

/** `loss 35 %; for 28 days; water activity 0.9; moisture to protein 1.9` */
export const dryLine = (rest: string, take: Take): Fields =>
  clauses(
    pieces(rest),
    [
      ['loss', 'lossPct', percent],
      ['for', 'days', days],
      ['water activity', 'targetAw', bare],
      ['moisture to protein', 'targetMoistureToProtein', bare],
    ],
    take,
  )

/** `for 10 days; at 15 °C; humidity 85 %; air 0.2 m/s` */
export const dryStageLine = (rest: string, take: Take): Fields =>
  clauses(
    pieces(rest),
    [
      ['for', 'days', days],
      ['at', 'tempC', celsius],
      ['humidity', 'rhPct', percent],
      ['air', 'airSpeedMPerS', speed],
    ],
    take,
  )
