import type { Source } from '@forcemeat/craft/source'

const quoted: Source = {
  document: '9 CFR 318.23(b)(1), table of permitted heat-processing combinations for fully cooked patties',
  section: 'rows 151 °F and 155 °F, as confirmed by USDA-ARS publication 118829',
  edition: 'as quoted in 2001',
  mark: 'quoted',
}
const fromMemory: Source = {
  document: '9 CFR 318.23(b)(1), table of permitted heat-processing combinations for fully cooked patties',
  section: 'rows 152, 153, 154, 156, 157 °F',
  edition: 'not read',
  mark: 'from-memory',
}

/** Uncured meat patties: °F at the centre and seconds to hold. A row from memory can never give a pass. */
export const pattyRows: readonly { readonly f: number; readonly seconds: number; readonly source: Source }[] = [
  { f: 151, seconds: 41, source: quoted },
  { f: 152, seconds: 32, source: fromMemory },
  { f: 153, seconds: 26, source: fromMemory },
  { f: 154, seconds: 20, source: fromMemory },
  { f: 155, seconds: 16, source: quoted },
  { f: 156, seconds: 13, source: fromMemory },
  { f: 157, seconds: 10, source: fromMemory },
]
