import { spoken } from './words.ts'

/** A fact that is so, and one that is not, as a maker says them. */
const phrases: Readonly<Record<string, readonly [string, string]>> = {
  cured: ['it holds nitrite or nitrate', 'it holds neither nitrite nor nitrate'],
  bacon: ['it is bacon', 'it is not bacon'],
  smoked: ['it is smoked', 'it is not smoked'],
  coldSmoked: ['it is smoked cold', 'it is not smoked cold'],
  readyToEat: ['it is eaten as sold', 'it is cooked before it is eaten'],
  longWarm: ['it is warm for hours in its making', 'it is not warm for hours in its making'],
  wholeCut: ['it is a whole piece', 'it is no whole piece'],
  phosphateAdded: ['phosphate is added', 'no phosphate is added'],
  nitrateAdded: ['nitrate is added', 'no nitrate is added'],
  nitriteAdded: ['nitrite is added', 'no nitrite is added'],
  antioxidantAdded: ['an antioxidant is added', 'no antioxidant is added'],
  acceleratorAdded: ['ascorbate or erythorbate is added', 'neither ascorbate nor erythorbate is added'],
  toBeFried: ['it is meant to be fried', 'it is not meant to be fried'],
  pork: ['it holds pork or wild boar', 'it holds neither pork nor wild boar'],
  rawPork: ['it holds pork that is eaten without a full cook', 'it holds no pork that is eaten without a full cook'],
  porkTreated: ['its pork was treated', 'its pork was not treated'],
  processProof: ['a proof of the process is on file', 'no proof of the process is on file'],
  lacticCulture: ['a lactic culture and sugar are used', 'no lactic culture with sugar is used'],
  reducedNitriteScheme: ['it is made under the 100 ppm scheme for bacon', 'it is not made under the 100 ppm scheme'],
}

const routes: Readonly<Record<string, string>> = {
  comminuted: 'ground or chopped with its cure',
  pumped: 'pumped with pickle',
  immersed: 'laid in pickle',
  'dry-rubbed': 'rubbed with dry cure',
}

const listed = (values: readonly (string | boolean)[]): string => values.map(String).join(' or ')

/** One condition of a rule in plain words. */
export function factPhrase(fact: string, allowed: readonly (string | boolean)[]): string {
  const said = phrases[fact]
  if (said && allowed.length === 1 && typeof allowed[0] === 'boolean') return said[allowed[0] ? 0 : 1]
  if (fact === 'route') return `it is ${allowed.map((v) => routes[String(v)] ?? String(v)).join(' or ')}`
  if (fact === 'kind') return `it is ${listed(allowed)}`
  if (fact === 'meatKind' || fact === 'meatClass') return `the meat is ${listed(allowed).replaceAll('-', ' ')}`
  if (fact === 'euCategory') return `it falls under category ${listed(allowed)}`
  if (fact.startsWith('standard:')) return `it is sold under the standard ${fact.slice('standard:'.length)}`
  if (allowed.length === 1 && typeof allowed[0] === 'boolean') return `${spoken(fact)}: ${allowed[0] ? 'yes' : 'no'}`
  return `${spoken(fact)} is ${listed(allowed)}`
}
