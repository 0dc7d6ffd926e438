import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Rule } from '../../src/rule.ts'

/** A published way through fermentation and heat that took five tenfolds of E. coli O157:H7. */
export type ValidatedProcess = {
  readonly rule: Rule
  /** Chamber through the fermentation, °C; up to `CHAMBER_ABOVE` warmer counts as the same. */
  readonly chamberC: number
  readonly phAtMost?: number
  readonly phAtLeast?: number
  readonly overMm: number
  readonly upToMm: number
  /** In order; each at or above its temperature for at least its hours. */
  readonly heat: readonly { readonly c: number; readonly hours: number; readonly core: boolean }[]
  readonly source: Source
}

/** How much warmer a chamber may have been than the study's, °C; a reading of our own, for the rounding of degrees. */
export const CHAMBER_ABOVE = 2

const celsius = (f: number): number => Number(((f - 32) / 1.8).toFixed(2))
const chamber = (f: number, hours: number) => ({ c: celsius(f), hours, core: false })
const inside = (f: number, minutes: number) => ({ c: celsius(f), hours: minutes / 60, core: true })

const annexK: Source = {
  document: 'CFIA, Meat hygiene manual of procedures, chapter 4, Annex K',
  section: 'option 2, validated processes for E. coli O157:H7',
  edition: 'archived; rows from 43 °C on were cut off in the copy read',
  url: 'https://inspection.canada.ca',
  mark: 'quoted',
}
const hinkens: Source = {
  document: 'Hinkens et al. 1996, Journal of Food Protection 59:1260',
  section: 'pepperoni of 55 mm, 36 °C to pH 5.0 or below, then heat; abstract',
  edition: '1996',
  mark: 'quoted',
}
type Row = Omit<ValidatedProcess, 'rule'> & {
  readonly id: string
  readonly title: string
  readonly jurisdiction?: string
  readonly scope: string
}

const entry = ({ id, title, jurisdiction = EVERYWHERE, scope, ...row }: Row): ValidatedProcess => ({
  ...row,
  rule: {
    id: `ferment.five-log.${id}`,
    title,
    jurisdiction,
    topic: 'fermentation',
    scope,
    unit: '°C',
    weight: 'advice',
    anyOf: 'ferment.five-log',
    values: [{ source: row.source }],
  },
})

const ca = (
  id: string,
  title: string,
  row: Omit<Row, 'id' | 'title' | 'scope' | 'source' | 'jurisdiction'>,
): ValidatedProcess =>
  entry({
    id: `ca-${id}`,
    title,
    jurisdiction: 'CA',
    scope: 'Fermented sausage with beef, casing as given.',
    source: annexK,
    ...row,
  })

const [long, longThick] = [
  [chamber(110, 1), chamber(125, 6)],
  [chamber(100, 1), chamber(110, 1), chamber(120, 1), chamber(125, 7)],
]

export const validatedProcesses: readonly ValidatedProcess[] = [
  ca('21-weak-thin', 'Fermented at 21 °C to pH 5.0 or above, up to 55 mm, then heat', {
    chamberC: 21,
    phAtLeast: 5,
    overMm: 0,
    upToMm: 55,
    heat: long,
  }),
  ca('32-hold-thin', 'Fermented at 32 °C to pH 4.6 or below, up to 55 mm, then held six days', {
    chamberC: 32,
    phAtMost: 4.6,
    overMm: 0,
    upToMm: 55,
    heat: [{ c: 32, hours: 144, core: false }],
  }),
  ca('32-heat-thin', 'Fermented at 32 °C to pH 4.6 or below, up to 55 mm, then heat', {
    chamberC: 32,
    phAtMost: 4.6,
    overMm: 0,
    upToMm: 55,
    heat: long,
  }),
  ca('32-heat-thick', 'Fermented at 32 °C to pH 4.6 or below, 56 to 105 mm, then heat', {
    chamberC: 32,
    phAtMost: 4.6,
    overMm: 55,
    upToMm: 105,
    heat: longThick,
  }),
  ca('32-weak-thick', 'Fermented at 32 °C to pH 5.0 or above, 56 to 105 mm, then heat', {
    chamberC: 32,
    phAtLeast: 5,
    overMm: 55,
    upToMm: 105,
    heat: longThick,
  }),
  entry({
    id: 'pepperoni-instant',
    title: 'Pepperoni fermented at 36 °C to pH 5.0 or below, then 63 °C inside',
    scope: 'Pepperoni up to 55 mm.',
    chamberC: 36,
    phAtMost: 5,
    overMm: 0,
    upToMm: 55,
    heat: [inside(145, 0)],
    source: hinkens,
  }),
  entry({
    id: 'pepperoni-hour',
    title: 'Pepperoni fermented at 36 °C to pH 5.0 or below, then 53 °C inside for an hour',
    scope: 'Pepperoni up to 55 mm.',
    chamberC: 36,
    phAtMost: 5,
    overMm: 0,
    upToMm: 55,
    heat: [inside(128, 60)],
    source: hinkens,
  }),
]
