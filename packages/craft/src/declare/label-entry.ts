import { allergens as allAllergens, type AgentComposition } from '../materials/schema.ts'
import { figures } from '../rules.ts'
import { sameWord, saidIn } from './allergen-words.ts'
import { namedIn } from './allergens.ts'
import type { IngredientsInput, Span } from './ingredients-schema.ts'
import { allergensOf, isCompound, materialOfItem, type LabelItem } from './label-item.ts'
import { labelName, roleOf, wordsFor, type Role } from './label-name.ts'
import type { AdditiveName, Allergen } from './label-rules.ts'

/** An allergen by the words it has to be named by. */
export type Naming = { readonly allergen: Allergen; readonly say: readonly string[] }

/** One ingredient of the list, before it is put in its place. */
export type Entry = {
  readonly name: string
  /** Name with class, own list or quantity. */
  readonly text: string
  readonly kg: number
  readonly role: Role
  readonly allergens: readonly Allergen[]
  /** Those it has to be named for, by which words. */
  readonly named: readonly Naming[]
  readonly from: readonly number[]
  readonly materials: readonly string[]
  /** Made of several things and given without their list. */
  readonly unlisted: boolean
  readonly classMissing: boolean
}

type Printing = {
  readonly place: string
  readonly by: 'name' | 'number'
  /** True where the quantities together are over 100 % and stand as g per 100 g. */
  readonly inGrams: boolean
}

type Given = { readonly class?: string | undefined; readonly name: string; readonly number?: string | undefined }

const given = (a: AdditiveName, place: string): Given => ({
  class: wordsFor(a.class, place),
  name: wordsFor(a.name, place),
  ...(a.number === undefined ? {} : { number: a.number }),
})

/** An additive as its place prints it: class and name, class and number, or the name alone. */
export function additiveText(a: Given, { place, by }: Printing): string {
  const rules = figures('labelling').places[place]!
  if (rules.additives === 'name') return a.name
  const what = by === 'number' && a.number !== undefined ? `${rules.numberPrefix ?? ''}${a.number}` : a.name
  return a.class === undefined ? what : `${a.class} (${what})`
}

/** A cure or accelerator that is a mixture, as its constituents by weight: salt, sugar, and each additive. */
function constituents(
  agent: AgentComposition,
  kg: number,
  how: Printing,
): { name: string; text: string; kg: number; role: Role }[] {
  const { additiveOfAgent, additives } = figures('labelling')
  const shares = (Object.entries(agent) as [keyof AgentComposition, number | undefined][])
    .flatMap(([key, pct]) => ((pct ?? 0) > 0 ? [[key, pct!] as const] : []))
    .toSorted((a, b) => b[1] - a[1])
  const sum = shares.reduce((s, [, pct]) => s + pct, 0)
  return shares.map(([key, pct]) => {
    const part = (kg * pct) / sum
    const id = additiveOfAgent[key]
    if (id === undefined) {
      const plain = key === 'saltPct' ? 'salt' : 'sugar'
      return { name: plain, text: plain, kg: part, role: 'ingredient' }
    }
    const a = given(additives[id]!, how.place)
    return { name: a.name, text: additiveText(a, how), kg: part, role: 'additive' }
  })
}

/** The additive of the table a part of a list names by its name, its number or both: "sodium nitrite", "E250", "Sodium nitrite (E 250)". */
function knownAdditive(text: string, place: string): Given | undefined {
  const number = /\be?[ -]?(\d{3})[a-z]?\)?$/i.exec(text.trim())?.[1]
  const bare = text
    .replace(/[\s(]*\be?[ -]?\d{3}[a-z]?\)?\s*$/i, '')
    .trim()
    .toLowerCase()
  const found = Object.values(figures('labelling').additives).find(
    (a) =>
      bare === a.name.default ||
      bare === a.name.US?.toLowerCase() ||
      (bare === '' && number !== undefined && a.number === number),
  )
  return found && given(found, place)
}

function ownList(item: LabelItem, how: Printing): string[] {
  const parts = item.parts ?? []
  // Where every share is given the order follows from them; otherwise it stands as given.
  const ordered = parts.every((p) => p.pct !== undefined) ? parts.toSorted((a, b) => b.pct! - a.pct!) : parts
  return ordered.map((p) => {
    const additive = p.additive ?? knownAdditive(p.name, how.place)
    return additive ? additiveText(additive, how) : p.name
  })
}

const namingOf = (item: LabelItem): Naming[] => namedIn(item).map(({ allergen, say }) => ({ allergen, say: [...say] }))

/**
 * A cure as the list has it: its constituents, whatever its supplier calls it. With an allergen or a list of the supplier's it stays one
 * ingredient with its own list, and an additive that list leaves out is added to it.
 */
function cureEntries(
  item: LabelItem,
  agent: AgentComposition,
  base: Pick<Entry, 'from' | 'materials' | 'allergens' | 'named'>,
  how: Printing,
): Entry[] | undefined {
  const known = constituents(agent, item.kg, how)
  const flags = { unlisted: false, classMissing: false }
  if (base.allergens.length === 0 && !item.parts) return known.map((c) => ({ ...base, ...c, ...flags }))
  if (known.length < 2 && !item.parts) return undefined
  const stated = item.parts ? ownList(item, how) : []
  const left = known.filter((c) => !stated.some((t) => t.toLowerCase() === c.text.toLowerCase()))
  const listed = [...stated, ...left.filter((c) => stated.length === 0 || c.role === 'additive').map((c) => c.text)]
  const name = item.name ?? 'curing salt'
  return [{ ...base, name, text: `${name} (${listed.join(', ')})`, kg: item.kg, role: 'ingredient', ...flags }]
}

/** Entries an item stands for in the list of a place. */
function entriesOf(item: LabelItem, index: number, how: Printing): Entry[] {
  const material = materialOfItem(item)
  const carried = allergensOf(item).allergens
  const role = roleOf(item)
  const base = { from: [index], materials: material ? [material.id] : [], allergens: carried, named: namingOf(item) }
  const cure = material?.agent && !item.additive ? cureEntries(item, material.agent, base, how) : undefined
  if (cure) return cure
  const name = labelName(item, how.place)
  const id = material === undefined ? undefined : figures('labelling').additiveOf[material.id]
  const additive =
    item.additive ?? (id === undefined ? undefined : given(figures('labelling').additives[id]!, how.place))
  const free =
    material !== undefined && (figures('labelling').places[how.place]!.componentsFree ?? []).includes(material.id)
  const unlisted =
    !free && !item.parts && (material ? isCompound(material) && role !== 'culture' && role !== 'smoke' : false)
  const quid =
    item.quidPct === undefined
      ? ''
      : how.inGrams
        ? ` (${Math.floor(item.quidPct + 1e-9)} g per 100 g of product)`
        : ` (${Number(item.quidPct.toFixed(1))} %)`
  const plain = additive ? additiveText(additive, how) : name
  return [
    {
      ...base,
      name: additive ? additive.name : name,
      text: `${plain}${quid}${item.parts ? ` (${ownList(item, how).join(', ')})` : ''}`,
      kg: item.kg,
      role,
      unlisted,
      classMissing: role === 'additive' && additive?.class === undefined,
    },
  ]
}

/** Entries of every item, those of one name and text put together. */
export function entriesFor(input: IngredientsInput): Entry[] {
  const { jurisdiction: place, items } = input
  // One quantity stands for all items of a name.
  const quids = new Map(items.filter((i) => i.kg > 0).map((i) => [labelName(i, place), i.quidPct ?? 0]))
  // Regulation (EU) 1169/2011, Annex VIII, point 3(a): over 100 %, one or all together, percent gives way to g per 100 g.
  const inGrams = [...quids.values()].reduce((sum, q) => sum + q, 0) > 100 + 1e-9
  const how = { place, by: input.additiveBy ?? 'name', inGrams } as const
  const all = input.items.flatMap((item, i) => (item.kg > 0 ? entriesOf(item, i, how) : []))
  return [...Map.groupBy(all, (e) => (e.role === 'water' ? 'water' : e.text.toLowerCase())).values()].map(merged)
}

export function merged(entries: readonly Entry[]): Entry {
  const first = entries[0]!
  return {
    ...first,
    kg: entries.reduce((s, e) => s + e.kg, 0),
    allergens: allAllergens.filter((a) => entries.some((e) => e.allergens.includes(a))),
    named: allAllergens.flatMap((allergen) => {
      const all = entries.flatMap((e) => e.named.filter((n) => n.allergen === allergen))
      return all.length === 0 ? [] : [{ allergen, say: [...new Set(all.flatMap((n) => n.say))] }]
    }),
    from: [...new Set(entries.flatMap((e) => e.from))],
    materials: [...new Set(entries.flatMap((e) => e.materials))],
    unlisted: entries.some((e) => e.unlisted),
    classMissing: entries.some((e) => e.classMissing),
  }
}

/**
 * Text of an entry with its allergens marked: every word that names one is set off, and an allergen no word names, or a kind of it, is put
 * in brackets behind and set off there. Those of `byReference` are said by the general word as well as by their kind: "anchovy (fish)".
 */
export function emphasise(
  text: string,
  named: readonly Naming[],
  byReference: readonly Allergen[] = [],
): { text: string; spans: Span[] } {
  const { allergenWords } = figures('labelling')
  const silent = named.flatMap(({ allergen, say }) => {
    const said = saidIn(text, allergen)
    // The general word is said by any of its own; a kind only by itself.
    if (say.includes(allergenWords[allergen].say)) return said.length === 0 ? [allergenWords[allergen].say] : []
    const general = allergenWords[allergen].say
    return [
      ...say.filter((kind) => !said.some((s) => sameWord(s, kind))),
      ...(byReference.includes(allergen) && !said.some((s) => sameWord(s, general)) ? [general] : []),
    ]
  })
  const whole = silent.length === 0 ? text : `${text} (${silent.join(', ')})`
  const found = named.flatMap(({ allergen: a }) => {
    const words = new RegExp(`\\b(?:${[allergenWords[a].say, ...allergenWords[a].words].join('|')})(?:e?s)?\\b`, 'gi')
    return [...whole.matchAll(words)].map((m) => ({ start: m.index, end: m.index + m[0].length }))
  })
  const spans = found
    .toSorted((a, b) => a.start - b.start || b.end - a.end)
    .reduce<Span[]>((kept, s) => {
      const last = kept.at(-1)
      if (last && s.start < last.end)
        return [...kept.slice(0, -1), { start: last.start, end: Math.max(last.end, s.end) }]
      return [...kept, s]
    }, [])
  return { text: whole, spans }
}
