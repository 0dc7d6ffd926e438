import type { Allergen } from './label-rules.ts'

/** What a thing in a product is known by: any one of these is enough. */
export type HeldBy = {
  readonly species?: readonly string[]
  /** Beginnings of ids of materials. */
  readonly materials?: readonly string[]
  readonly notMaterials?: readonly string[]
  readonly categories?: readonly string[]
  readonly allergens?: readonly Allergen[]
  /** Any nitrite or nitrate. */
  readonly cured?: boolean
  /** Any additive of the table. */
  readonly additive?: boolean
  readonly anyMeat?: boolean
  /** Patterns of the text of the list. */
  readonly inList?: readonly string[]
}

/** A word of a name: patterns that say it, what it is called in a finding, and patterns that only look like it. */
export type Word = { readonly say: string; readonly words: readonly string[]; readonly not?: readonly string[] }

/** Words by which a name says what is in a product, as the rulebook holds them. */
export type NameClaimWords = {
  readonly notMeat: readonly string[]
  readonly animals: readonly (Word & HeldBy)[]
  readonly groups: readonly (Word & { readonly of: readonly string[] })[]
  /** Words behind a thing that make it a flavour. */
  readonly flavour: readonly string[]
  /** `is`: patterns of the names of what went in. */
  readonly ingredients: readonly (Word & { readonly is: readonly string[]; readonly categories?: readonly string[] })[]
  readonly free: readonly (Word & HeldBy & { readonly document?: string })[]
  readonly kinds: readonly (Word & {
    readonly needs: {
      readonly kinds?: readonly string[]
      readonly orHeated?: boolean
      readonly cured?: boolean
      readonly smoked?: boolean
      readonly readyToEat?: boolean
      readonly notFrozen?: boolean
      /** Some flesh of one of these. */
      readonly species?: readonly string[]
    }
    /** What is asked, where the name does not settle it by itself. */
    readonly ask?: string
  })[]
  readonly diets: readonly (Word & { readonly notWith: HeldBy })[]
  readonly documents: readonly (Word & { readonly document: string })[]
  /** Patterns of names of houses, places and firms, which may hold a word for meat. */
  readonly houses: readonly string[]
  readonly unknownFree: string
  /** Names of a piece of meat: a product called so at the end of its name is of that piece alone. */
  readonly endsInMeat: readonly (Word & { readonly materials: readonly string[] })[]
}

/** A name in small letters with single spaces: hyphens and signs between words are gone, commas stand by themselves. */
export const plainName = (name: string): string =>
  name
    .toLowerCase()
    .normalize('NFC')
    .replaceAll(/[’`]/g, "'")
    .replaceAll(/[^\p{L}\p{N}%.,'&]+/gu, ' ')
    .replaceAll(/\.(?!\d)/g, ' ')
    .replaceAll(/,(?!\d)/g, ' , ')
    .replaceAll(/(?<=\p{L})&|&(?=\p{L})/gu, ' & ')
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/^[ ,]+|[ ,]+$/g, '')

const held = new Map<string, RegExp>()

/** Pattern of words: whole words, plural or not; `*` at the end is any ending. */
export function wordPattern(words: readonly string[]): RegExp {
  const key = words.join('|')
  const known = held.get(key)
  if (known) return known
  const each = words.map((w) => (w.endsWith('*') ? `(?:${w.slice(0, -1)})\\p{L}*` : `(?:${w})(?:'s|e?s)?`))
  const made = new RegExp(`(?<![\\p{L}\\d])(?:${each.join('|')})(?!\\p{L})`, 'giu')
  held.set(key, made)
  return made
}

/** Where a name says a word, what only looks like it left out. */
export function saidAt(name: string, { words, not }: Pick<Word, 'words' | 'not'>): { start: number; end: number }[] {
  const blank = not === undefined ? name : name.replaceAll(wordPattern(not), (m) => '.'.repeat(m.length))
  return [...blank.matchAll(wordPattern(words))].map((m) => ({ start: m.index, end: m.index + m[0].length }))
}

/** A name with stretches blanked out, so that what was read once is not read again. */
export const blanked = (name: string, spans: readonly { start: number; end: number }[]): string =>
  spans.reduce((t, { start, end }) => t.slice(0, start) + '.'.repeat(end - start) + t.slice(end), name)
