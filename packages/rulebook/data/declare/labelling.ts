import type { LabellingRules, PlaceLabelling } from '@forcemeat/craft/declare/label-rules'
import { additiveOf, additiveOfAgent, additives, cheeses, compound, names, notMeat } from './additives.ts'
import { allergenLists, allergenWords, mayBeWithout, namedInUsList } from './allergens.ts'

/** Names under which something that sweetens goes into a list, for what is given by name alone. */
const sweet = [
  '(?:brown |cane |invert |white |beet |icing )?sugar',
  'dextrose',
  'glucose',
  'fructose',
  'lactose',
  'maltose',
  'sucrose',
  'honey',
  'molasses',
  '[a-z -]*syrup(?: solids)?',
  'maltodextrin',
]

/** Ingredients of the table whose components Canada does not ask for (Food and Drug Regulations, B.01.009(1) and (2), as read). */
const canadaFree = [
  'curry-powder',
  'breadcrumb',
  'bread-white',
  'starter-culture',
  'mould-culture',
  'bioprotective-culture',
]

/** Spices of a colour or a flavour that US labels name on their own (from memory; naming one more is always allowed). */
const usOwnName = ['onion-powder', 'garlic-powder', 'celery-seed', 'paprika', 'turmeric', 'saffron', 'mustard-seed']

/**
 * Allergens named by their kind that the law wants with the name of its own list (Regulation (EU) 1169/2011, Article 21(1)(a) with Annex II;
 * the required names of Schedule 9 of the Food Standards Code, from memory).
 */
const byReference = ['fish', 'crustacean', 'mollusc'] as const

const european: Omit<PlaceLabelling, 'allergens'> = {
  heading: 'Ingredients',
  quid: 'definition of meat',
  water: 'finished',
  waterFreePct: 5,
  waterFreeClasses: ['meat-product', 'other'],
  additives: 'class and name',
  numberPrefix: 'E',
  spices: { word: 'spices', upToPct: 2, notBy: ['onion-powder', 'garlic-powder'] },
  herbs: { word: 'herbs', upToPct: 2, notBy: [] },
  compoundFreePct: 2,
  // Article 19(1)(d): cheese other than fresh and processed, with nothing added but what its make needs (from memory).
  componentsFree: cheeses,
  byReference,
}

export const labellingFigures: LabellingRules = {
  places: {
    EU: { ...european, allergens: allergenLists.EU },
    GB: { ...european, allergens: allergenLists.GB },
    US: {
      heading: 'INGREDIENTS',
      water: 'formula',
      additives: 'name',
      minorPct: 2,
      minorPhrase: 'Contains 2 % or less of:',
      spices: { word: 'spices', upToPct: 100, notBy: usOwnName },
      herbs: { word: 'spices', upToPct: 100, notBy: [] },
      compoundFreePct: 0,
      containsLine: 'Contains:',
      allergens: allergenLists.US,
      namedInList: namedInUsList,
    },
    CA: {
      heading: 'Ingredients',
      water: 'formula',
      additives: 'name',
      capitalFirst: true,
      sugars: { word: 'Sugars', names: sweet, notAlone: 'sugar' },
      componentsFree: canadaFree,
      // The names Canada lets stand for several spices are in a document that was not read: each is named.
      spices: { word: 'spices', upToPct: 0, notBy: [] },
      herbs: { word: 'herbs', upToPct: 0, notBy: [] },
      compoundFreePct: 0,
      containsLine: 'Contains:',
      allergens: allergenLists.CA,
    },
    'AU-NZ': {
      heading: 'Ingredients',
      // Standard 1.2.10, 1.2.10—4: percent of the ingoing ingredients, water that is removed left out.
      quid: 'ingoing weight',
      water: 'finished',
      waterFreePct: 5,
      waterFreeBelow: true,
      additives: 'class and name',
      numberPrefix: '',
      spices: { word: 'spices', upToPct: 0, notBy: [] },
      herbs: { word: 'herbs', upToPct: 0, notBy: [] },
      compoundFreePct: 0,
      byReference,
      containsLine: 'Contains:',
      allergens: allergenLists['AU-NZ'],
    },
  },
  allergenWords,
  mayBeWithout,
  additives,
  additiveOf,
  additiveOfAgent,
  names,
  compound,
  notMeat,
}
