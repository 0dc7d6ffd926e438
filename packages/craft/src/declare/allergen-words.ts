import { allergens as allAllergens } from '../materials/schema.ts'
import { figures } from '../rules.ts'
import type { Allergen } from './label-rules.ts'
import { allergenTerms, cerealTerms } from './label/words/allergens.ts'
import { carrierTerms, notTerms } from './label/words/carriers.ts'

const whole = (words: readonly string[], plural: boolean): RegExp =>
  new RegExp(`(?<![\\p{L}\\d])(?:${words.join('|')})${plural ? '(?:e?s)?' : ''}(?!\\p{L})`, 'giu')

/** A text as it is typed without accents: "CELERI", "oeuf", "Weissbrot". */
const folded = (text: string): string =>
  text.normalize('NFD').replaceAll(/\p{M}/gu, '').replaceAll('ß', 'ss').replaceAll(/œ/gi, 'oe').replaceAll(/æ/gi, 'ae')
/** A word of a list so that it is found in a folded text, an umlaut also where it is written with e. */
const foldedWord = (word: string): string =>
  folded(word.replaceAll('ä', 'ae?').replaceAll('ö', 'oe?').replaceAll('ü', 'ue?').replaceAll('ß', 'ss'))

type Patterns = {
  readonly said: RegExp
  readonly carries: readonly RegExp[]
  readonly not?: RegExp
  readonly notFolded?: RegExp
}
const held = new Map<Allergen, Patterns>()

/** Patterns of an allergen, made once: the rulebook gives the words. */
function patternsOf(allergen: Allergen): Patterns {
  const known = held.get(allergen)
  if (known) return known
  const { words, carriers = [], not } = figures('labelling').allergenWords[allergen]
  const unlike = [...(not ?? []), ...(notTerms[allergen] ?? [])]
  const elsewhere = Object.entries(allergenTerms).flatMap(([language, terms]) => [
    ...terms[allergen].words,
    ...(carrierTerms[language as keyof typeof carrierTerms][allergen] ?? []),
  ])
  const made = {
    said: whole(words, true),
    carries: [whole([...words, ...carriers], true), whole(elsewhere.map(foldedWord), false)],
    ...(unlike.length === 0 ? {} : { not: whole(unlike, true), notFolded: whole(unlike.map(foldedWord), true) }),
  }
  held.set(allergen, made)
  return made
}

const before = /(?:free (?:from|of)|without|no|sans|sin|ohne|senza|zonder|vrij van)\s+$/i
const after = /^[\s-](?:free|frei|vrij)(?!\p{L})/iu
const within = /(?:frei(?:e[mnrs]?)?|vrij)$/i

/** Words of a text that a pattern finds, those that say the thing is absent left out ("milk-free", "ohne Milch"). */
function found(text: string, pattern: RegExp): string[] {
  return [...text.matchAll(pattern)]
    .filter(
      (m) =>
        !before.test(text.slice(0, m.index)) && !after.test(text.slice(m.index + m[0].length)) && !within.test(m[0]),
    )
    .map((m) => m[0].toLowerCase())
}

/** A text with what only looks like an allergen taken out: coconut milk, cocoa butter. */
const without = (text: string, { not }: Pick<Patterns, 'not'>): string => (not ? text.replaceAll(not, ' ') : text)

/** Answers to texts asked before: a label asks the same names many times over. */
const MOST_REMEMBERED = 5000
function remembered<T>(ask: (text: string) => T): (text: string) => T {
  const answers = new Map<string, T>()
  return (text) => {
    const known = answers.get(text)
    if (known !== undefined) return known
    if (answers.size >= MOST_REMEMBERED) answers.clear()
    const answer = ask(text)
    answers.set(text, answer)
    return answer
  }
}

/** Words of a text that say an allergen by its own name. */
export const saidIn = (text: string, allergen: Allergen): string[] => {
  const p = patternsOf(allergen)
  return [...new Set(found(without(text, p), p.said))]
}

/** Allergens a text names, by their own words or those of foods made of them, in English and in every language of the labels. */
export const allergensIn: (text: string) => readonly Allergen[] = remembered((text) =>
  text === ''
    ? []
    : allAllergens.filter((a) => {
        const p = patternsOf(a)
        const plain = without(folded(without(text, p)), p.notFolded ? { not: p.notFolded } : {})
        return p.carries.some((pattern) => found(plain, pattern).length > 0)
      }),
)

/** A word without its plural. */
const stem = (word: string): string => word.replace(/e?s$/, '')
export const sameWord = (a: string, b: string): boolean => stem(a) === stem(b)

const cereals = Object.entries(cerealTerms).map(([cereal, terms]) => ({
  cereal,
  patterns: Object.values(terms).map((t) => whole(t.words, false)),
}))
const cerealsIn: (text: string) => readonly string[] = remembered((text) => {
  const said = saidIn(text, 'gluten-cereal')
  const elsewhere = cereals.filter(
    (c) => !said.some((s) => s.startsWith(c.cereal)) && c.patterns.some((p) => found(text, p).length > 0),
  )
  return [...said, ...elsewhere.map((c) => (c.cereal === 'oat' ? 'oats' : c.cereal))]
})

/** Kinds of an allergen a text names, in English; a cereal is found in the languages of the labels too. */
export const kindsIn = (text: string, allergen: Allergen): string[] =>
  (allergen === 'gluten-cereal' ? cerealsIn(text) : saidIn(text, allergen)).filter(
    (kind, i, all) => all.findIndex((k) => sameWord(k, kind)) === i,
  )
