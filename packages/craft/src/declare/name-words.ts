import type { ReservedName } from './product-name.ts'

/** A word without its plural: sausages, patties, loaves. */
const singular = (word: string): string =>
  word
    .replace(/ies$/, 'y')
    .replace(/ves$/, 'f')
    .replace(/(?<=[^s])s$/, '')

/** Words of a name, lower-cased, plural or not; a thing the name says it is free of is not one it uses, and its claim is held against the list. */
export function nameWords(name: string): readonly string[] {
  const words = name
    .toLowerCase()
    .split(/[^\p{L}\d]+/u)
    .filter((w) => w !== '')
  return words
    .filter((w, i) => {
      // "Free range" says nothing is left out.
      const isFree = (at: number) => words[at] === 'free' && words[at + 1] !== 'range'
      return !isFree(i) && !isFree(i + 1) && !['no', 'without'].includes(words[i - 1] ?? '')
    })
    .map(singular)
}

/** Whether every word of a set stands in a name, in any order; `*burger` is any word that ends so. */
const holds = (words: readonly string[], set: string): boolean =>
  set
    .split(' ')
    .every((w) => (w.startsWith('*') ? words.some((x) => x.endsWith(w.slice(1))) : words.includes(singular(w))))

/** Whether a name uses a reserved name, by the words the standard and its synonyms go by. */
export function usesName(reserved: ReservedName, name: string, species: readonly string[]): boolean {
  const words = nameWords(name)
  return (
    reserved.said.some((set) => holds(words, set)) &&
    !(reserved.saidNot ?? []).some((set) => holds(words, set)) &&
    !(reserved.saidNotOf ?? []).some((s) => species.includes(s))
  )
}
