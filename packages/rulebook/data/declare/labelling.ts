import type { LabellingRules, PlaceLabelling } from '@forcemeat/craft/declare/label-rules'
import { additiveOf, additiveOfAgent, additives, compound, names } from './additives.ts'
import { allergenLists, allergenWords } from './allergens.ts'

/** Spices of a colour or a flavour that US labels name on their own (from memory; naming one more is always allowed). */
const usOwnName = ['onion-powder', 'garlic-powder', 'celery-seed', 'paprika', 'turmeric', 'saffron', 'mustard-seed']

const european: Omit<PlaceLabelling, 'allergens'> = {
  heading: 'Ingredients',
  water: 'finished',
  waterFreePct: 5,
  waterFreeClasses: ['meat-product', 'other'],
  additives: 'class and name',
  numberPrefix: 'E',
  spices: { word: 'spices', upToPct: 2, notBy: ['onion-powder', 'garlic-powder'] },
  herbs: { word: 'herbs', upToPct: 2, notBy: [] },
  compoundFreePct: 2,
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
    },
    CA: {
      heading: 'Ingredients',
      water: 'formula',
      additives: 'name',
      // What Canada lets go by "spices" was not read: each is named.
      spices: { word: 'spices', upToPct: 0, notBy: [] },
      herbs: { word: 'herbs', upToPct: 0, notBy: [] },
      compoundFreePct: 0,
      containsLine: 'Contains:',
      allergens: allergenLists.CA,
    },
    'AU-NZ': {
      heading: 'Ingredients',
      water: 'formula',
      additives: 'class and name',
      numberPrefix: '',
      spices: { word: 'spices', upToPct: 0, notBy: [] },
      herbs: { word: 'herbs', upToPct: 0, notBy: [] },
      compoundFreePct: 0,
      containsLine: 'Contains:',
      allergens: allergenLists['AU-NZ'],
    },
  },
  allergenWords,
  additives,
  additiveOf,
  additiveOfAgent,
  names,
  compound,
}
