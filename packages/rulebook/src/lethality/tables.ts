import { celsiusOfF } from '@forcemeat/craft/heat/fahrenheit'
import type { Source } from '@forcemeat/craft/source'
import { chickenRows, chickenSource } from '../../data/lethality/chicken.ts'
import { meatRows, meatSource } from '../../data/lethality/meat.ts'
import { pattyRows } from '../../data/lethality/patties.ts'
import type { PoultryRow } from '../../data/lethality/poultry-row.ts'
import { turkeyRows, turkeySource } from '../../data/lethality/turkey.ts'

/** A row ready to be held against a log: °F as printed, its exact °C, seconds to hold (0: reached is enough). */
export type HoldRow = { readonly f: number; readonly tempC: number; readonly seconds: number; readonly source: Source }

export type HoldTable = {
  readonly id: string
  readonly title: string
  readonly scope: string
  readonly rows: readonly HoldRow[]
  readonly source: Source
}

const row = (f: number, seconds: number, source: Source): HoldRow => ({ f, tempC: celsiusOfF(f), seconds, source })

const meat = (key: 'log5' | 'log6_5' | 'log7', reduction: string): HoldTable => ({
  id: `us.fsis.lethality.meat.${reduction}`,
  title: `Meat, ${reduction} reduction of Salmonella`,
  scope: 'cooked meat without any poultry; the coldest spot, held for the whole dwell',
  rows: meatRows.map((r) => row(r.f, r[key], meatSource)),
  source: meatSource,
})

/** Columns of a poultry table for a fat content: both neighbours, the widest known column where fat is unknown or above it. */
const columns = (fatPct: number | undefined, last: number): readonly [number, number] => {
  if (fatPct === undefined || fatPct >= last) return [last, last]
  return [Math.max(1, Math.floor(fatPct)), Math.max(1, Math.ceil(fatPct))]
}

const poultryTable = (species: 'chicken' | 'turkey', fatPct: number | undefined): HoldTable => {
  const [rows, source]: readonly [readonly PoultryRow[], Source] =
    species === 'chicken' ? [chickenRows, chickenSource] : [turkeyRows, turkeySource]
  const [low, high] = columns(fatPct, rows[0]!.seconds.length)
  return {
    id: `us.fsis.lethality.${species}.7-log`,
    title: `${species === 'chicken' ? 'Chicken' : 'Turkey'}, 7-log reduction of Salmonella, fat column ${high} %`,
    scope: `${species} and products with it; fat above the last column or not known takes the last column`,
    // Between two columns the longer time holds: the printed tables are not monotone in fat everywhere.
    rows: rows.map((r) => row(r.f, Math.max(r.seconds[low - 1]!, r.seconds[high - 1]!), source)),
    source,
  }
}

/** Poultry that is neither, or both: the longer of the two tables, row by row. */
const longerTable = (fatPct: number | undefined): HoldTable => {
  const [chicken, turkey] = [poultryTable('chicken', fatPct), poultryTable('turkey', fatPct)]
  return {
    ...turkey,
    id: 'us.fsis.lethality.other-poultry.7-log',
    title: 'Other or mixed poultry, 7-log reduction of Salmonella: the longer time of chicken and turkey',
    scope: 'poultry other than chicken and turkey, and mixtures',
    rows: turkey.rows.map((t, i) => (chicken.rows[i]!.seconds > t.seconds ? chicken.rows[i]! : t)),
  }
}

const patties: HoldTable = {
  id: 'us.cfr.318-23.patties',
  title: 'Uncured meat patties, permitted combinations of temperature and time',
  scope: 'uncured, comminuted meat patties, fully cooked; centre temperature',
  rows: pattyRows.map((r) => row(r.f, r.seconds, r.source)),
  source: pattyRows[0]!.source,
}

export type Species = 'meat' | 'chicken' | 'turkey' | 'other-poultry'
export type Target = '5-log' | '6.5-log' | '7-log' | 'patties'

/** The table that speaks for a product; undefined where no table gives that target for it. */
export function tableFor(species: Species, target: Target | undefined, fatPct?: number): HoldTable | undefined {
  if (species === 'meat') {
    if (target === 'patties') return patties
    if (target === '5-log') return meat('log5', '5-log')
    return target === '7-log' ? meat('log7', '7-log') : meat('log6_5', '6.5-log')
  }
  if (target !== undefined && target !== '7-log') return undefined
  return species === 'other-poultry' ? longerTable(fatPct) : poultryTable(species, fatPct)
}

/** Every table, poultry in its last fat column: for logs whose product is not known, and for the reader of the rules. */
export const everyTable: readonly HoldTable[] = [
  meat('log5', '5-log'),
  meat('log6_5', '6.5-log'),
  meat('log7', '7-log'),
  poultryTable('chicken', undefined),
  poultryTable('turkey', undefined),
]
export const pattyTable = patties
