import { allergens as allAllergens } from '../../materials/schema.ts'
import { InvalidInput } from '../../calculation.ts'
import { figures } from '../../rules.ts'
import { plainName, saidAt } from '../name-claim-words.ts'
import { languageNames, monthWords, type LabelLanguage } from './languages.ts'
import type { LabelPack } from './pack.ts'
import { allergenTerms } from './words/allergens.ts'
import { foodWords } from './words/foods.ts'
import { terms, type Term, type TermSource } from './words/terms.ts'

export type Other = Exclude<LabelLanguage, 'en'>
export const isOther = (l: LabelLanguage): l is Other => l !== 'en'

/** Words a maker gives for a language, by the English text they stand for. */
export type OwnWords = ReadonlyMap<string, string>
export type Said = { readonly text: string; readonly missing: readonly string[]; readonly from: readonly TermSource[] }

const key = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ')
export const ownWords = (words: readonly { of: string; is: string }[]): OwnWords =>
  new Map(words.map((w) => [key(w.of), w.is]))

const sure = (text: string, ...from: TermSource[]): Said => ({ text, missing: [], from })

/** A date as the label of a place writes it in English, in another language; undefined where it is none. */
function dateIn(text: string, to: Other): string | undefined {
  const m = /^(?:(\d{1,2}) )?(?:([A-Z][a-z]+) )?(\d{4})$/.exec(text.trim())
  if (!m) return undefined
  const [, day, month, year] = m
  if (month === undefined) return day === undefined ? year : undefined
  const at = monthWords.en.indexOf(month)
  if (at < 0) return undefined
  const word = monthWords[to][at]!
  const numbered = to === 'de' && day !== undefined ? `${day}.` : day
  const of = to === 'es' ? ' de ' : ' '
  return [numbered, word, year].filter((p) => p !== undefined).join(of)
}

/** A term as a pattern for the English text it stands for. */
const patterns: readonly { term: Term; pattern: RegExp; names: readonly string[] }[] = terms.map((term) => {
  const names = [...term.en.matchAll(/\{(\w+)\}/g)].map((m) => m[1]!)
  const body = term.en.replaceAll(/[.*+?^$()|[\]\\]/g, String.raw`\$&`).replaceAll(/\{\w+\}/g, '(.+)')
  return { term, pattern: new RegExp(`^${body}$`, 'i'), names }
})

/** Decimal comma, and the small space before a percent sign, as these languages write figures. */
const figure = (text: string): string => text.replaceAll(/(\d)\.(\d)/g, '$1,$2')
const isFigure = (text: string): boolean =>
  /^[\d\s.,%/+-]*$|^E ?\d{3,4}[a-z]?$|^\d[\d.,]*\s?(?:g|kg|°C|°F|kJ|kcal)$/.test(text)

function byTerm(text: string, to: Other, place: string, own: OwnWords): Said | undefined {
  const found = [place, undefined].flatMap((p) => patterns.filter((t) => t.term.place === p))
  for (const { term, pattern, names } of found) {
    const m = term[to] === undefined ? null : pattern.exec(text.trim())
    if (!m) continue
    const missing: string[] = []
    const from: TermSource[] = [term.source]
    const filled = names.reduce((whole, name, i) => {
      const given = m[i + 1]!
      const said =
        name === 'date'
          ? { text: dateIn(given, to) ?? figure(given), missing: [], from: [] }
          : name === 'list' || name === 'thing'
            ? translated(given, to, place, own)
            : sure(figure(given))
      missing.push(...said.missing)
      from.push(...said.from)
      return whole.replace(`{${name}}`, () => said.text)
    }, term[to]!)
    return { text: filled, missing, from }
  }
  return undefined
}

/** An allergen by the general word the rulebook has for it in English. */
const allergenSaid = (text: string, to: Other): string | undefined => {
  const words = figures('labelling').allergenWords
  const hit = allAllergens.find((a) => key(words[a].say) === key(text))
  return hit && allergenTerms[to][hit].say
}

function whole(text: string, to: Other, place: string, own: OwnWords): Said | undefined {
  const mine = own.get(key(text))
  if (mine !== undefined) return sure(mine)
  // A name that stands with a capital keeps it.
  const cased = (word: string): string => (/^\p{Lu}/u.test(text) ? word[0]!.toUpperCase() + word.slice(1) : word)
  const food = foodWords[to].get(key(text))
  if (food !== undefined) return sure(cased(food), 'ours')
  const allergen = allergenSaid(text, to)
  if (allergen !== undefined) return sure(cased(allergen), 'annex-ii')
  if (isFigure(text)) return sure(figure(text))
  return byTerm(text, to, place, own)
}

/** A text that is said as it stands or not at all: a sentence, a name of a row. */
export const translatedWhole = (text: string, to: Other, place: string, own: OwnWords): Said =>
  whole(text, to, place, own) ?? { text, missing: [text.trim()], from: [] }

/**
 * A text of a label in another language: the maker's own words first, then the names of ingredients, allergens and fixed texts; a list is
 * taken apart at its commas and brackets. What has no words stays in English in the text and is named in `missing`.
 */
export function translated(text: string, to: Other, place: string, own: OwnWords): Said {
  const at = whole(text, to, place, own)
  if (at) return at
  const parts = text.split(/([(),;]|:(?=\s|$))/)
  if (parts.length === 1) return { text, missing: [text.trim()], from: [] }
  const said = parts.map((part): Said => {
    const inner = part.trim()
    if (inner === '' || /^[(),;:]$/.test(inner)) return sure(part)
    const word = whole(inner, to, place, own) ?? { text: inner, missing: [inner], from: [] }
    return { ...word, text: part.replace(inner, () => word.text) }
  })
  return {
    text: said.map((s) => s.text).join(''),
    missing: said.flatMap((s) => s.missing),
    from: said.flatMap((s) => s.from),
  }
}

/** Whether a text already stands in English and French beside each other, as Canada prescribes some. */
export const inBoth = (text: string): boolean => / \/ /.test(text) && /[à-ÿ]|Meilleur avant/i.test(text)

const noWords: OwnWords = new Map()
const isAnimal = (text: string): boolean =>
  figures('nameClaimWords').animals.some((a) => saidAt(plainName(text), a).length > 0)

/** The program's word for a text nobody else may put otherwise: a fixed text, a figure, an allergen, an animal. */
function fixedWord(text: string, to: Other, place: string): string | undefined {
  const said = whole(text, to, place, noWords)
  if (said === undefined || said.missing.length > 0) return undefined
  const food = foodWords[to].has(key(text)) && allergenSaid(text, to) === undefined
  return food && !isAnimal(text) ? undefined : said.text
}

/** Why words of the maker cannot stand for a text; undefined where they can. */
function refusedWord(of: string, is: string, to: Other, place: string): string | undefined {
  const said = translated(of, to, place, noWords)
  const known = said.missing.length === 0
  if (known && key(is) === key(said.text)) return undefined
  const parts = [of, ...of.split(/[(),;]|:(?=\s|$)/)].map((p) => p.trim()).filter((p) => p !== '')
  const fixed = parts.flatMap((p) => fixedWord(p, to, place) ?? [])
  if (fixed.length === 0) return undefined
  if (known) return said.text
  // Of a text only partly known, what is known has to stand in it.
  const lacks = fixed.filter((w) => !key(is).includes(key(w)))
  return lacks.length === 0 ? undefined : `a text with ${lacks.map((w) => JSON.stringify(w)).join(', ')} in it`
}

/**
 * Fixed texts, figures, allergens and animals are said in the program's own words where it has them for the language.
 *
 * @throws InvalidInput naming the words that would put one otherwise
 */
export function wordsHold(place: string, pack: LabelPack): void {
  const faults = (pack.languages ?? []).flatMap(({ language, words = [] }, l) =>
    isOther(language)
      ? words.flatMap(({ of, is }, w) => {
          const allowed = refusedWord(of, is, language, place)
          return allowed === undefined
            ? []
            : [
                {
                  path: `pack.languages.${l}.words.${w}.is`,
                  message: `puts ${JSON.stringify(of)} as ${JSON.stringify(is)}, for which ${languageNames[language]} has words of its own here; allowed: ${allowed}, or none`,
                },
              ]
        })
      : [],
  )
  if (faults.length > 0) throw new InvalidInput(faults)
}
