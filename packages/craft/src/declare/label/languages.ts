/** Languages a label can be made in besides and with English. */
export const labelLanguages = ['en', 'fr', 'es', 'de', 'it', 'nl'] as const
export type LabelLanguage = (typeof labelLanguages)[number]

/** Their names, for texts to the maker. */
export const languageNames: Readonly<Record<LabelLanguage, string>> = {
  en: 'English',
  fr: 'French',
  es: 'Spanish',
  de: 'German',
  it: 'Italian',
  nl: 'Dutch',
}

/**
 * Languages suggested for a place. In the European Union the label is in a language its buyers easily understand, which only the maker
 * knows (Regulation (EU) 1169/2011, Article 15); Canada asks for both official languages (Food and Drug Regulations, B.01.012, from memory).
 */
export const suggestedLanguages: Readonly<Record<string, readonly LabelLanguage[]>> = {
  US: ['en'],
  EU: ['en'],
  GB: ['en'],
  CA: ['en', 'fr'],
  'AU-NZ': ['en'],
}

/** Months in words, as they stand in a date. */
export const monthWords: Readonly<Record<LabelLanguage, readonly string[]>> = {
  en: 'January February March April May June July August September October November December'.split(' '),
  fr: 'janvier février mars avril mai juin juillet août septembre octobre novembre décembre'.split(' '),
  es: 'enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre'.split(' '),
  de: 'Januar Februar März April Mai Juni Juli August September Oktober November Dezember'.split(' '),
  it: 'gennaio febbraio marzo aprile maggio giugno luglio agosto settembre ottobre novembre dicembre'.split(' '),
  nl: 'januari februari maart april mei juni juli augustus september oktober november december'.split(' '),
}
