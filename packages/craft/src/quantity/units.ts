import type { Source } from '../source.ts'
import type { Celsius, Kelvins, Kilograms, Millimetres, Minutes, Percent } from './brand.ts'

/** What a quantity is of. Values inside are in the base unit of their kind. */
export const quantityKinds = ['mass', 'temperature', 'temperature-difference', 'length', 'time', 'percent'] as const
export type QuantityKind = (typeof quantityKinds)[number]

/** The branded number each kind is held in. */
export type ValueOf = {
  mass: Kilograms
  temperature: Celsius
  'temperature-difference': Kelvins
  length: Millimetres
  time: Minutes
  percent: Percent
}

/** The unit in which values of each kind are held: kg, °C, K, mm, min, %. */
export const baseUnit: Readonly<Record<QuantityKind, string>> = {
  mass: 'kg',
  temperature: '°C',
  'temperature-difference': 'K',
  length: 'mm',
  time: 'min',
  percent: '%',
}

/**
 * A unit as `value × mul / div` base units (after taking `offset` off the value). All factors are ratios of integers that a
 * double holds exactly, so a conversion rounds once.
 */
export type Unit = {
  readonly symbol: string
  readonly kind: QuantityKind
  readonly mul: number
  readonly div: number
  readonly offset?: number
  /** Spellings read besides the symbol, lower case, without spaces. */
  readonly spellings: readonly string[]
  readonly system: 'metric' | 'us' | 'both'
}

/** Where the factors come from. All are exact by definition. */
export const unitSources: readonly Source[] = [
  {
    document:
      'NIST Handbook 44, Specifications, Tolerances, and Other Technical Requirements for Weighing and Measuring Devices',
    section:
      'Appendix C, General Tables of Units of Measurement, section 4 (1 avoirdupois pound = 0.453 592 37 kg; 1 avoirdupois ounce = 28.349 523 125 g; 1 inch = 2.54 cm; all exact)',
    edition: 'values unchanged since the international yard and pound of 1959',
    url: 'https://www.nist.gov/pml/owm/nist-handbook-44-current-edition',
    mark: 'quoted',
  },
  {
    document: '16 CFR 500.19, Conversion of SI metric quantities to inch/pound quantities',
    section: '(a), lengths marked exact: 1 in = 2.54 cm, 1 ft = 30.48 cm, 1 yd = 0.9144 m',
    edition: 'as published by a law school library',
    url: 'https://www.law.cornell.edu/cfr/text/16/500.19',
    mark: 'seen',
  },
  {
    document: 'NIST Special Publication 811, Guide for the Use of the International System of Units',
    section: 'Appendix B.8: degree Fahrenheit to degree Celsius, t/°C = (t/°F − 32)/1.8, exact',
    edition: '2008',
    url: 'https://www.nist.gov/pml/special-publication-811',
    mark: 'from-memory',
  },
]

const POUND = 45_359_237 // × 1e-8 kg

export const units: readonly Unit[] = [
  { symbol: 't', kind: 'mass', mul: 1000, div: 1, spellings: ['tonne', 'tonnes'], system: 'metric' },
  {
    symbol: 'kg',
    kind: 'mass',
    mul: 1,
    div: 1,
    spellings: ['kgs', 'kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramme', 'kilogrammes'],
    system: 'metric',
  },
  { symbol: 'g', kind: 'mass', mul: 1, div: 1000, spellings: ['gram', 'grams', 'gramme', 'grammes'], system: 'metric' },
  { symbol: 'mg', kind: 'mass', mul: 1, div: 1_000_000, spellings: ['milligram', 'milligrams'], system: 'metric' },
  { symbol: 'st', kind: 'mass', mul: POUND * 14, div: 1e8, spellings: ['stone', 'stones'], system: 'us' },
  { symbol: 'lb', kind: 'mass', mul: POUND, div: 1e8, spellings: ['lbs', 'pound', 'pounds'], system: 'us' },
  { symbol: 'oz', kind: 'mass', mul: POUND, div: 16e8, spellings: ['ozs', 'ounce', 'ounces'], system: 'us' },
  {
    symbol: '°C',
    kind: 'temperature',
    mul: 1,
    div: 1,
    spellings: ['c', 'degc', 'degreesc', 'celsius', 'degreescelsius'],
    system: 'metric',
  },
  {
    symbol: '°F',
    kind: 'temperature',
    mul: 5,
    div: 9,
    offset: 32,
    spellings: ['f', 'degf', 'degreesf', 'fahrenheit', 'degreesfahrenheit'],
    system: 'us',
  },
  { symbol: 'K', kind: 'temperature', mul: 1, div: 1, offset: 273.15, spellings: ['kelvin'], system: 'metric' },
  {
    symbol: 'K',
    kind: 'temperature-difference',
    mul: 1,
    div: 1,
    spellings: ['kelvin', 'kelvins', '°c', 'c', 'degc'],
    system: 'metric',
  },
  { symbol: '°F', kind: 'temperature-difference', mul: 5, div: 9, spellings: ['f', 'degf'], system: 'us' },
  {
    symbol: 'm',
    kind: 'length',
    mul: 1000,
    div: 1,
    spellings: ['metre', 'metres', 'meter', 'meters'],
    system: 'metric',
  },
  {
    symbol: 'cm',
    kind: 'length',
    mul: 10,
    div: 1,
    spellings: ['centimetre', 'centimetres', 'centimeter', 'centimeters'],
    system: 'metric',
  },
  {
    symbol: 'mm',
    kind: 'length',
    mul: 1,
    div: 1,
    spellings: ['millimetre', 'millimetres', 'millimeter', 'millimeters'],
    system: 'metric',
  },
  { symbol: 'yd', kind: 'length', mul: 9144, div: 10, spellings: ['yds', 'yard', 'yards'], system: 'us' },
  { symbol: 'ft', kind: 'length', mul: 3048, div: 10, spellings: ['foot', 'feet', "'", '′'], system: 'us' },
  {
    symbol: 'in',
    kind: 'length',
    mul: 254,
    div: 10,
    spellings: ['inch', 'inches', 'ins', '"', '″', '”'],
    system: 'us',
  },
  { symbol: 'd', kind: 'time', mul: 1440, div: 1, spellings: ['day', 'days'], system: 'both' },
  { symbol: 'h', kind: 'time', mul: 60, div: 1, spellings: ['hr', 'hrs', 'hour', 'hours'], system: 'both' },
  { symbol: 'min', kind: 'time', mul: 1, div: 1, spellings: ['m', 'mins', 'minute', 'minutes'], system: 'both' },
  { symbol: 's', kind: 'time', mul: 1, div: 60, spellings: ['sec', 'secs', 'second', 'seconds'], system: 'both' },
  { symbol: '%', kind: 'percent', mul: 1, div: 1, spellings: ['pct', 'percent', 'percentage'], system: 'both' },
  { symbol: '‰', kind: 'percent', mul: 1, div: 10, spellings: ['permille'], system: 'both' },
  { symbol: 'ppm', kind: 'percent', mul: 1, div: 10_000, spellings: ['mg/kg'], system: 'both' },
]

/** Words that mean different things to different people, with what to write instead. */
export const ambiguousUnits: Readonly<Record<string, string>> = {
  gr: '"gr" is a grain to some and a gram to others; allowed: g, or oz',
  ton: '"ton" is 2000 lb, 2240 lb or 1000 kg depending on the place; allowed: t for 1000 kg, kg, or lb',
  tons: '"tons" are 2000 lb, 2240 lb or 1000 kg depending on the place; allowed: t for 1000 kg, kg, or lb',
  cwt: '"cwt" is 100 lb in one place and 112 lb in another; allowed: lb or kg',
  cup: 'a cup measures volume, and its weight depends on what is in it; allowed: a weight in g, kg, oz or lb',
  cups: 'cups measure volume, and their weight depends on what is in them; allowed: a weight in g, kg, oz or lb',
  tsp: 'a spoon measures volume, and its weight depends on what is in it; allowed: a weight in g, kg, oz or lb',
  tbsp: 'a spoon measures volume, and its weight depends on what is in it; allowed: a weight in g, kg, oz or lb',
}

/** Symbols of one kind, for messages. */
export const symbolsOf = (kind: QuantityKind): string =>
  units
    .filter((u) => u.kind === kind)
    .map((u) => u.symbol)
    .join(', ')

/** A unit of `kind` by symbol or spelling, whatever its case; undefined where there is none. */
export function findUnit(kind: QuantityKind, word: string): Unit | undefined {
  const key = word.replace(/[\s.]/g, '').toLowerCase()
  return units.find((u) => u.kind === kind && (u.symbol.toLowerCase() === key || u.spellings.includes(key)))
}

/** A value in `unit` as base units of its kind. */
export const toBase = (value: number, unit: Unit): number => ((value - (unit.offset ?? 0)) * unit.mul) / unit.div

/** A value in base units as a value in `unit`. */
export const fromBase = (value: number, unit: Unit): number => (value * unit.div) / unit.mul + (unit.offset ?? 0)

/** Convert between two units of one kind by symbol. @throws RangeError for a symbol that kind does not have. */
export function convert(value: number, kind: QuantityKind, from: string, to: string): number {
  const a = findUnit(kind, from)
  const b = findUnit(kind, to)
  if (!a || !b) throw new RangeError(`no unit ${a ? to : from} of ${kind}; allowed: ${symbolsOf(kind)}`)
  return fromBase(toBase(value, a), b)
}
