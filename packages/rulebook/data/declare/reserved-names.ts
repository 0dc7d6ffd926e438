import type { ReservedName } from '@forcemeat/craft/declare/product-name'
import { elsewhereStandards, minced as mincedLimits } from '../composition/elsewhere.ts'
import { usStandards } from '../composition/us.ts'

type Condition = Omit<ReservedName, 'id' | 'name' | 'jurisdictions' | 'said' | 'saidNot' | 'saidNotOf'>
type Words = Pick<ReservedName, 'said' | 'saidNot' | 'saidNotOf'>

const pigs = ['pork']
const notFresh = ['cooked', 'fermented', 'dried']

/** What a product must be for a name to come into question at all, by the words of the standard (9 CFR 319, SI 2014/3001, FIC Annex VI). */
const conditions: Readonly<Record<string, Condition>> = {
  'us.319.140.uncooked': { kinds: ['fresh'] },
  'us.319.140.cooked': { kinds: ['cooked'] },
  'us.319.141': { kinds: ['fresh'], smoked: false, onlySpecies: pigs, namesSpecies: true },
  'us.319.142': { kinds: ['fresh'], smoked: false, onlySpecies: ['beef', 'veal'], namesSpecies: true },
  'us.319.143': { kinds: ['fresh'], smoked: false },
  'us.319.144': { kinds: ['fresh'], smoked: false, onlySpecies: pigs, namesSpecies: true },
  'us.319.145': { kinds: ['fresh', 'cooked'], someSpecies: ['pork'] },
  'us.319.160': { smoked: true, onlySpecies: pigs, namesSpecies: true },
  'us.319.180.a': { kinds: ['cooked'], cured: true },
  'us.319.180.b': { kinds: ['cooked'], cured: true },
  'us.319.181': { kinds: ['cooked'], cured: true },
  'us.319.182.a': { kinds: ['cooked'] },
  'us.319.182.b': { kinds: ['cooked'] },
  'us.319.260': { kinds: notFresh },
  'gb.3001.pork-sausage': { onlySpecies: ['pork', 'wild-boar'], namesSpecies: true },
  'gb.3001.burger': { kinds: ['fresh'] },
  'gb.3001.economy-burger': { kinds: ['fresh'] },
  'gb.3001.hamburger': { kinds: ['fresh'], onlySpecies: ['pork', 'beef'] },
  'gb.3001.chopped': { kinds: ['cooked'] },
  'gb.3001.luncheon': { kinds: ['cooked'] },
  'eu.1169.minced.lean': { kinds: ['fresh'] },
  'eu.1169.minced.beef': { kinds: ['fresh'], onlySpecies: ['beef'] },
  'eu.1169.minced.pigmeat': { kinds: ['fresh'], someSpecies: pigs },
  'eu.1169.minced.other': { kinds: ['fresh'] },
  'ca.b14.sausage.fresh': { kinds: ['fresh'] },
  'ca.b14.sausage.cooked': { kinds: ['cooked'] },
}

const links = (...with_: string[]): string[] =>
  ['sausage', 'link', 'chipolata', 'sausagemeat'].map((w) => [...with_, w].join(' '))
const minced = (...with_: string[]): string[] => ['minced', 'mince', 'ground'].map((w) => [w, ...with_].join(' '))
/** Words of a sausage or burger made of mince, which is not sold as mince. */
const madeOfMince = ['sausage', 'link', '*burger', 'patty', 'loaf', 'ball', 'meatball', '*wurst', 'salami']
/** Names of the small and the large cooked sausage of 9 CFR 319.180. */
const franks = [
  'frankfurter',
  'frankfurt',
  'frank',
  'furter',
  'hotdog',
  'hot dog',
  'wiener',
  'vienna',
  'bologna',
  'boloney',
  'knockwurst',
  'knackwurst',
]
const byProducts = ['by product', 'byproduct', 'variety meat']

/** Words by which the name of a product uses a reserved name: those of the standard, and what else it is called (9 CFR 319; SI 2014/3001). */
const words: Readonly<Record<string, Words>> = {
  'us.319.140.uncooked': { said: links() },
  'us.319.140.cooked': { said: links() },
  'us.319.141': { said: [...links('pork'), 'pork patty'] },
  'us.319.142': { said: links('beef') },
  'us.319.143': { said: links('breakfast') },
  'us.319.144': { said: [...links('whole hog'), ...links('whole pig')] },
  'us.319.145': { said: links('italian') },
  'us.319.160': { said: links('smoked pork') },
  'us.319.180.a': { said: franks, saidNot: [...byProducts, 'cheese'] },
  'us.319.180.b': { said: byProducts.flatMap((b) => franks.map((f) => `${f} ${b}`)) },
  'us.319.181': { said: ['cheesefurter', 'cheesedog', ...franks.map((f) => `cheese ${f}`)] },
  // Named after a town: any word that ends like it.
  'us.319.182.a': { said: ['*schweiger'] },
  'us.319.182.b': { said: ['liver sausage', 'liverwurst', 'liver wurst', 'liver link'] },
  'us.319.260': { said: ['luncheon', 'meat loaf', 'meatloaf'] },
  'gb.3001.burger': { said: ['*burger'], saidNot: ['hamburger', 'economy'] },
  'gb.3001.economy-burger': { said: ['economy *burger'] },
  'gb.3001.hamburger': { said: ['hamburger'], saidNot: ['economy'] },
  'gb.3001.chopped': {
    said: ['meat', 'pork', 'ham', 'beef', 'veal', 'lamb', 'mutton', 'chicken', 'turkey', 'duck', 'rabbit'].map(
      (meat) => `chopped ${meat}`,
    ),
  },
  'gb.3001.luncheon': { said: ['luncheon'] },
  'gb.3001.pork-sausage': { said: links('pork'), saidNot: ['roll', 'pasty'] },
  'gb.3001.sausage': { said: links(), saidNot: ['roll', 'pasty'] },
  'eu.1169.minced.lean': { said: minced('lean'), saidNot: madeOfMince },
  'eu.1169.minced.beef': { said: minced(), saidNot: madeOfMince },
  'eu.1169.minced.pigmeat': { said: minced(), saidNot: madeOfMince },
  'eu.1169.minced.other': { said: minced(), saidNot: madeOfMince, saidNotOf: ['pork', 'wild-boar', 'beef'] },
  'ca.b14.sausage.fresh': { said: links() },
  'ca.b14.sausage.cooked': { said: [...links(), ...franks, 'loaf', 'meatloaf', 'luncheon'] },
  'anz.2.2.1.sausage': { said: ['sausage'] },
}

const placesOf = (id: string): readonly string[] => {
  if (id.startsWith('us.')) return ['US']
  if (id.startsWith('gb.')) return ['GB']
  if (id.startsWith('eu.')) return ['EU', 'GB']
  return id.startsWith('ca.') ? ['CA'] : ['AU-NZ']
}

/** What stands beside the name of minced meat (Regulation (EU) 1169/2011, Annex VI, part B, point 2; wording from memory). */
const statements: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  mincedLimits.map(([id, , fat, collagen]) => [
    `eu.1169.minced.${id}`,
    [`percentage of fat content under ${fat} %`, `collagen/meat protein ratio under ${collagen} %`],
  ]),
)

/** Reserved names of sausages and mince; a sausage roll is not one. */
export const reservedNames: readonly ReservedName[] = Object.entries({ ...usStandards, ...elsewhereStandards })
  .filter(([id]) => id !== 'gb.3001.sausage-roll')
  .map(([id, name]) => ({
    id,
    name,
    jurisdictions: placesOf(id),
    ...conditions[id],
    said: [name],
    ...words[id],
    ...(statements[id] ? { statements: statements[id] } : {}),
  }))
