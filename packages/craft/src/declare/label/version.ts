import { figures } from '../../rules.ts'
import { capitals } from '../ingredients.ts'
import type { IngredientsOutput, Span } from '../ingredients-schema.ts'
import { block } from './blocks.ts'
import { languageNames, suggestedLanguages, type LabelLanguage } from './languages.ts'
import type { LabelPack } from './pack.ts'
import type { LabelBlock, LabelOutput, LabelVersion } from './schema.ts'
import { inBoth, isOther, ownWords, translated, translatedWhole, type Other, type OwnWords } from './translate.ts'
import { allergenTerms, cerealTerms } from './words/allergens.ts'
import { termSources, type TermSource } from './words/terms.ts'

type Content = Omit<LabelOutput, 'fields' | 'changes' | 'blocks' | 'notes' | 'findings' | 'versions'>
type Item = IngredientsOutput['items'][number]

/** Every word of a text that names one of these allergens; one that no word names is put in brackets behind. */
function emphasised(
  text: string,
  item: Item,
  to: Other,
  byReference: readonly string[],
): { text: string; spans: Span[] } {
  const named = item.named.map((n) => n.allergen)
  const patternOf = (a: (typeof named)[number]) =>
    new RegExp(`(?<!\\p{L})(?:${allergenTerms[to][a].words.join('|')})(?!\\p{L})`, 'giu')
  const cereals = (Object.keys(cerealTerms) as (keyof typeof cerealTerms)[]).filter((c) =>
    item.named.some((n) => n.allergen === 'gluten-cereal' && n.say.some((w) => w.startsWith(c))),
  )
  const silent = [
    ...named
      .filter((a) => !(a === 'gluten-cereal' && cereals.length > 0) && !patternOf(a).test(text))
      .map((a) => allergenTerms[to][a].say),
    // The kind of a fish is not enough where the law wants the name of its list beside it.
    ...named
      .filter((a) => byReference.includes(a) && patternOf(a).test(text))
      .map((a) => allergenTerms[to][a].say)
      .filter((say) => !text.toLowerCase().includes(say.toLowerCase())),
    // Each cereal by itself: rye in the text does not say the barley.
    ...cereals
      .map((c) => cerealTerms[c][to])
      .filter((t) => !new RegExp(`(?<!\\p{L})(?:${t.words.join('|')})(?!\\p{L})`, 'iu').test(text))
      .map((t) => t.say),
  ]
  const whole = silent.length === 0 ? text : `${text} (${silent.join(', ')})`
  const said = named.flatMap((a) =>
    [...whole.matchAll(patternOf(a))].map((m) => ({ start: m.index, end: m.index + m[0].length })),
  )
  const brackets = silent.map((s) => ({
    start: whole.indexOf(s, text.length),
    end: whole.indexOf(s, text.length) + s.length,
  }))
  const spans = [...said, ...brackets]
    .toSorted((a, b) => a.start - b.start || b.end - a.end)
    .reduce<Span[]>((kept, s) => {
      const last = kept.at(-1)
      if (last === undefined || s.start >= last.end) return [...kept, s]
      return [...kept.slice(0, -1), { start: last.start, end: Math.max(last.end, s.end) }]
    }, [])
  return { text: whole, spans }
}

type Table = NonNullable<Content['nutrition']>

const titles: Readonly<Record<string, string>> = {
  US: 'Nutrition Facts',
  CA: 'Nutrition Facts',
  'AU-NZ': 'Nutrition information',
}
/** Fixed words of a table besides its rows: those of its columns and, on a panel, of its head. */
const fixed: Readonly<Record<string, readonly string[]>> = {
  US: ['Amount per serving', '% Daily Value*'],
  CA: ['% Daily Value*'],
  'AU-NZ': ['Average quantity per serving', 'Average quantity per 100 g'],
}

/** The words of a nutrition table, each put into a language by `say`. */
const tableWords = (table: Table, place: string, say: (text: string) => string): LabelVersion['nutrition'] => ({
  title: say(titles[place] ?? 'Nutrition'),
  per: table.basis === 'per 100 g' ? say(table.basis) : table.basis,
  rows: Object.fromEntries(table.panel.filter((r) => r.mandatory).map((r) => [r.key, say(r.label)])),
  footnotes: [
    ...(table.footnotes ?? []),
    ...(figures('labelDrawn').panels[`${place}:${table.format}`]?.footnotes ?? []),
  ].map(say),
  words: Object.fromEntries((fixed[place] ?? []).map((w) => [w, say(w)])),
})

/** The words between the items of a list: a comma, and the place's clause for the minor ones. */
function between(list: IngredientsOutput): string[] {
  let at = 0
  return list.items.map((item) => {
    const start = list.text.indexOf(item.text, at)
    const words = list.text.slice(at, start)
    at = start + item.text.length
    return words
  })
}

/** An English label in one more language. */
function otherVersion(c: Content, to: Other, pack: LabelPack): LabelVersion {
  const mine = pack.languages?.find((l) => l.language === to)
  const own: OwnWords = ownWords(mine?.words ?? [])
  const missing: { what: string; text: string }[] = []
  const used = new Set<TermSource>()
  const say = (what: string, text: string): string => {
    // What the law words in two languages at once stands as it is.
    if (inBoth(text)) return text
    const said = (what === 'ingredients' ? translated : translatedWhole)(text, to, c.place, own)
    for (const m of said.missing) if (!missing.some((x) => x.text === m)) missing.push({ what, text: m })
    for (const f of said.from) used.add(f)
    return said.text
  }
  const gaps = between(c.ingredients)
  const byReference = figures('labelling').places[c.place]?.byReference ?? []
  const list = c.ingredients.items.reduce<{ text: string; spans: Span[] }>(
    (done, item, i) => {
      const clause = gaps[i]!.replace(/^,\s*/, '').trim()
      const before = `${i === 0 ? '' : ', '}${clause === '' ? '' : `${say('ingredients', clause)} `}`
      const { text, spans } = emphasised(say('ingredients', item.text), item, to, byReference)
      const at = done.text.length + before.length
      return {
        text: done.text + before + text,
        spans: [...done.spans, ...spans.map((s) => ({ start: s.start + at, end: s.end + at }))],
      }
    },
    { text: '', spans: [] },
  )
  // Where it is from stands once, in the line of the business, in every language of the label.
  if (pack.origin !== undefined) say('origin', pack.origin)
  const name = mine?.name ?? own.get(c.name.toLowerCase())
  if (name === undefined) missing.push({ what: 'name', text: c.name })
  const table = c.nutrition
  return {
    language: to,
    name: name ?? c.name,
    beside: c.beside.map((t) => say('words beside the name', t)),
    list: {
      heading: say('ingredients', c.ingredients.heading.replace(/:?\s*$/, '')),
      text: list.text,
      emphasised: list.spans,
      textCapitals: capitals(list.text, list.spans),
    },
    ...(c.ingredients.contains === undefined ? {} : { contains: say('contains line', c.ingredients.contains) }),
    ...(c.mayContain === undefined ? {} : { mayContain: say('may contain', c.mayContain) }),
    statements: c.ingredients.statements.map((t) => say('statements', t)),
    ...(c.dateText === undefined ? {} : { dateText: say('date', c.dateText) }),
    storage: c.storage.map((t) => say('storage', t)),
    handling: c.handling.map((t) => say('handling', t)),
    lotWord: say('lot', 'Lot'),
    ...(table ? { nutrition: tableWords(table, c.place, (t) => say('nutrition', t)) } : {}),
    serving: c.serving.map((s) => ({ label: say('serving', s.label), value: say('serving', s.value) })),
    missing,
    from: [...used].map((id) => ({ ...termSources[id] })),
  }
}

function englishVersion(c: Content): LabelVersion {
  const { ingredients: list, nutrition: table } = c
  return {
    language: 'en',
    name: c.name,
    beside: [...c.beside],
    list: {
      heading: list.heading.replace(/:?\s*$/, ''),
      text: list.text,
      emphasised: [...list.emphasised],
      textCapitals: list.textCapitals,
    },
    ...(list.contains === undefined ? {} : { contains: list.contains }),
    ...(c.mayContain === undefined ? {} : { mayContain: c.mayContain }),
    statements: [...list.statements],
    ...(c.dateText === undefined ? {} : { dateText: c.dateText }),
    storage: [...c.storage],
    handling: [...c.handling],
    lotWord: 'Lot',
    ...(table ? { nutrition: tableWords(table, c.place, (t) => t) } : {}),
    serving: c.serving.map((s) => ({ ...s })),
    missing: [],
    from: [],
  }
}

/** Languages of a pack, in the maker's order; those the place suggests where the maker says none. */
export const languagesOf = (place: string, pack: LabelPack): readonly LabelLanguage[] =>
  pack.languages?.map((l) => l.language) ?? suggestedLanguages[place] ?? ['en']

/** Where the product is from, in every language of its label; what has no words stands as it was entered and stops the label. */
export function originText(place: string, pack: LabelPack): string | undefined {
  const { origin } = pack
  if (origin === undefined) return undefined
  const texts = languagesOf(place, pack).map((l) =>
    isOther(l)
      ? translatedWhole(origin, l, place, ownWords(pack.languages?.find((x) => x.language === l)?.words ?? [])).text
      : origin,
  )
  return [...new Set(texts)].join(' / ')
}

/** A label in every language of its pack. */
export const versionsOf = (content: Content, pack: LabelPack): LabelVersion[] =>
  languagesOf(content.place, pack).map((l) => (isOther(l) ? otherVersion(content, l, pack) : englishVersion(content)))

/**
 * What languages stop: a text without words in one of them, an official language left out, and words of this program that somebody who
 * reads the language has to have read.
 */
export function languageBlocks(place: string, versions: readonly LabelVersion[]): LabelBlock[] {
  const held = versions.map((v) => v.language)
  const absent = place === 'CA' ? (suggestedLanguages['CA'] ?? []).filter((l) => !held.includes(l)) : []
  return [
    ...absent.map((l) =>
      block(
        `language:${l}`,
        `The label is not in ${languageNames[l]}; Canada asks for both official languages but for a few exceptions (Food and Drug Regulations, B.01.012, from memory)`,
        `add ${languageNames[l]}, or say which exception holds`,
        'person',
      ),
    ),
    ...versions.flatMap((v) => {
      const name = languageNames[v.language]
      return [
        ...v.missing.map((m) =>
          block(
            `words:${v.language}:${m.text.slice(0, 120)}`,
            `${name} has no words for "${m.text}" (${m.what})`,
            `enter it among the words of ${name}`,
          ),
        ),
        ...(v.from.length === 0
          ? []
          : [
              block(
                `read:${v.language}`,
                `The ${name} is made from tables, partly words of this program: nobody who reads ${name} has read it here`,
                `have somebody who reads ${name} read the proof, and say who`,
                'person',
              ),
            ]),
      ]
    }),
  ]
}
