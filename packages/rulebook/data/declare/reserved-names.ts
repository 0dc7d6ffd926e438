import type { ReservedName } from '@forcemeat/craft/declare/product-name'
import { elsewhereStandards } from '../composition/elsewhere.ts'
import { usStandards } from '../composition/us.ts'

type Condition = Omit<ReservedName, 'id' | 'name' | 'jurisdictions'>

const pigs = ['pork']
const notFresh = ['cooked', 'fermented', 'dried']

/** What a product must be for a name to come into question at all, by the words of the standard (9 CFR 319, SI 2014/3001, FIC Annex VI). */
const conditions: Readonly<Record<string, Condition>> = {
  'us.319.140.uncooked': { kinds: ['fresh'] },
  'us.319.140.cooked': { kinds: ['cooked'] },
  'us.319.141': { kinds: ['fresh'], smoked: false, onlySpecies: pigs },
  'us.319.142': { kinds: ['fresh'], smoked: false, onlySpecies: ['beef', 'veal'] },
  'us.319.143': { kinds: ['fresh'], smoked: false },
  'us.319.144': { kinds: ['fresh'], smoked: false, onlySpecies: pigs },
  'us.319.145': { kinds: ['fresh', 'cooked'], someSpecies: ['pork'] },
  'us.319.160': { smoked: true, onlySpecies: pigs },
  'us.319.180.a': { kinds: ['cooked'], cured: true },
  'us.319.180.b': { kinds: ['cooked'], cured: true },
  'us.319.181': { kinds: ['cooked'], cured: true },
  'us.319.182.a': { kinds: ['cooked'] },
  'us.319.182.b': { kinds: ['cooked'] },
  'us.319.260': { kinds: notFresh },
  'gb.3001.pork-sausage': { onlySpecies: ['pork', 'wild-boar'] },
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

const placesOf = (id: string): readonly string[] => {
  if (id.startsWith('us.')) return ['US']
  if (id.startsWith('gb.')) return ['GB']
  if (id.startsWith('eu.')) return ['EU', 'GB']
  return id.startsWith('ca.') ? ['CA'] : ['AU-NZ']
}

/** Reserved names of sausages and mince; a sausage roll is not one. */
export const reservedNames: readonly ReservedName[] = Object.entries({ ...usStandards, ...elsewhereStandards })
  .filter(([id]) => id !== 'gb.3001.sausage-roll')
  .map(([id, name]) => ({ id, name, jurisdictions: placesOf(id), ...conditions[id] }))
