import { findMaterial } from '../materials/materials.ts'
import { figures, judge } from '../rules.ts'
import { declareAllergens, deniedIn, kindsMissing } from './allergens.ts'
import { casingLine } from './casing.ts'
import type { IngredientsInput, IngredientsOutput, Span } from './ingredients-schema.ts'
import { emphasise, entriesFor, merged, type Entry } from './label-entry.ts'
import { materialOfItem } from './label-item.ts'
import { roleOf } from './label-name.ts'
import type { PlaceLabelling } from './label-rules.ts'

const total = (entries: readonly Entry[]): number => entries.reduce((s, e) => s + e.kg, 0)

/** Water by what is left of it in the finished product, where the place asks for that. */
function withWater(entries: readonly Entry[], input: IngredientsInput, place: PlaceLabelling): Entry[] {
  if (place.water === 'formula' || input.finishedKg === undefined) return [...entries]
  const others = total(entries.filter((e) => e.role !== 'water'))
  const left = Math.max(0, input.finishedKg - others)
  return entries.flatMap((e) => {
    if (e.role !== 'water') return [e]
    const kg = Math.min(e.kg, left)
    return kg > 1e-9 ? [{ ...e, kg }] : []
  })
}

/** Everything that sweetens behind one word, most first, where the place asks for that; one sugar that says so itself stands alone. */
function sweetTogether(entries: readonly Entry[], place: PlaceLabelling): Entry[] {
  const { sugars } = place
  if (!sugars) return [...entries]
  const named = new RegExp(`^(?:${sugars.names.join('|')})$`, 'i')
  const sweet = entries
    .filter((e) => named.test(e.name) || e.materials.some((m) => findMaterial(m)?.category === 'sugar'))
    .toSorted((a, b) => b.kg - a.kg)
  if (sweet.length === 0 || (sweet.length === 1 && sweet[0]!.name.toLowerCase().includes(sugars.notAlone)))
    return [...entries]
  const text = `${sugars.word} (${sweet.map((e) => e.text).join(', ')})`
  return [...entries.filter((e) => !sweet.includes(e)), { ...merged(sweet), name: sugars.word, text }]
}

/** Spices, then herbs, under one word, where together they stay within the place's share. */
function grouped(entries: readonly Entry[], input: IngredientsInput, place: PlaceLabelling, basisKg: number): Entry[] {
  if (!input.groupSpices) return [...entries]
  return (['spices', 'herbs'] as const).reduce<Entry[]>(
    (list, kind) => {
      const { word, upToPct, notBy } = place[kind]
      // One that carries an allergen is named, wherever a group word would hide it.
      const together = list.filter(
        (e) =>
          `${e.role}s` === kind &&
          e.allergens.length === 0 &&
          e.text === e.name &&
          !e.materials.some((m) => notBy.includes(m)),
      )
      if (together.length < 2 || (100 * total(together)) / basisKg > upToPct) return list
      const one = merged(together)
      const rest = list.filter((e) => !together.includes(e))
      const already = rest.find((e) => e.text === word)
      const group: Entry = { ...one, name: word, text: word }
      return already ? [...rest.filter((e) => e !== already), merged([already, group])] : [...rest, group]
    },
    [...entries],
  )
}

/**
 * List of ingredients for the label of a place: descending by weight at mixing, water by the place's rule, cures as their constituents,
 * compound ingredients with their own list, additives as the place names them, allergens set off.
 *
 * @source Regulation (EU) 1169/2011, Articles 18 and 21, Annex VII; 21 CFR 101.4(a)(2); 9 CFR 317.2(f)
 */
export function ingredients(input: IngredientsInput): IngredientsOutput {
  const { jurisdiction, items, finishedKg } = input
  const place = figures('labelling').places[jurisdiction]!
  const mixKg = items.reduce((s, i) => s + i.kg, 0)
  const placed = withWater(entriesFor(input), input, place)
  const water = placed.find((e) => e.role === 'water')
  const waterPct = water && (100 * water.kg) / (finishedKg ?? mixKg)
  const mayLeaveOut =
    waterPct !== undefined &&
    place.waterFreePct !== undefined &&
    (place.waterFreeBelow ? waterPct < place.waterFreePct - 1e-9 : waterPct <= place.waterFreePct + 1e-9) &&
    (place.waterFreeClasses === undefined || place.waterFreeClasses.includes(input.productClass ?? ''))
  const leaveOut = input.leaveOutWater === true && mayLeaveOut
  const kept = leaveOut ? placed.filter((e) => e.role !== 'water') : placed
  const basisKg = finishedKg ?? mixKg
  const entries = grouped(sweetTogether(kept, place), input, place, basisKg).toSorted(
    (a, b) => b.kg - a.kg || a.from[0]! - b.from[0]!,
  )
  const printed = entries.map((e) => {
    const { text, spans } = emphasise(e.text, e.named, place.byReference)
    return {
      text: place.capitalFirst ? text.slice(0, 1).toUpperCase() + text.slice(1) : text,
      name: e.name,
      kg: e.kg,
      pct: (100 * e.kg) / (e.role === 'water' ? basisKg : mixKg),
      allergens: [...e.allergens],
      named: e.named.map((n) => ({ allergen: n.allergen, say: [...n.say] })),
      emphasised: spans,
      from: [...e.from],
    }
  })
  const clause = input.minorClause !== false && place.minorPhrase !== undefined && place.minorPct !== undefined
  const minorAt = clause ? printed.findIndex((p) => p.pct <= place.minorPct! + 1e-9) : -1
  const joined = join(printed, minorAt > 0 ? minorAt : -1, place.minorPhrase ?? '')
  const allergens = declareAllergens({ jurisdictions: [jurisdiction], items: items.filter((i) => i.kg > 0) })
  const compound = entries.filter(
    (e) => e.unlisted && !((e.role === 'spice' || e.role === 'herb') && (100 * e.kg) / basisKg < place.compoundFreePct),
  )
  return {
    jurisdiction,
    heading: place.heading,
    items: printed,
    text: joined.text,
    emphasised: joined.spans,
    textCapitals: capitals(joined.text, joined.spans),
    ...(allergens.places[0]!.statement === undefined ? {} : { contains: allergens.places[0]!.statement }),
    statements: casingLines(input),
    notes: notesOf(input, waterPct, mayLeaveOut, leaveOut),
    findings: judge('label', {
      jurisdictions: [jurisdiction],
      items: items.filter((i) => i.kg > 0).length,
      noAllergenSource: allergens.unknown,
      denied: deniedIn(items.filter((i) => i.kg > 0)),
      kindNotNamed: kindsMissing(items.filter((i) => i.kg > 0)),
      list: {
        compoundWithoutList: compound.map((e) => e.name),
        additivesWithoutClass: entries.filter((e) => e.classMissing).map((e) => e.name),
        waterLeftOutAgainstRule: input.leaveOutWater === true && !mayLeaveOut && water !== undefined,
      },
    }),
  }
}

/** What the label says of the casing, from the animals of the meat in it. */
function casingLines({ casing, items }: IngredientsInput): string[] {
  if (!casing) return []
  const meats = items.flatMap((i) => {
    const m = materialOfItem(i)
    const species = i.kg > 0 && (roleOf(i) === 'meat' || roleOf(i) === 'fat') ? (i.species ?? m?.species) : undefined
    return species === undefined ? [] : [species]
  })
  const line = casingLine(casing, [...new Set(meats)])
  return line === undefined ? [] : [line]
}

function join(
  items: readonly { text: string; emphasised: readonly Span[] }[],
  minorAt: number,
  phrase: string,
): { text: string; spans: Span[] } {
  return items.reduce<{ text: string; spans: Span[] }>(
    (done, item, i) => {
      const before = `${i === 0 ? '' : ', '}${i === minorAt ? `${phrase} ` : ''}`
      const at = done.text.length + before.length
      return {
        text: done.text + before + item.text,
        spans: [...done.spans, ...item.emphasised.map((s) => ({ start: s.start + at, end: s.end + at }))],
      }
    },
    { text: '', spans: [] },
  )
}

/** Text with its spans in capitals. */
export const capitals = (text: string, spans: readonly Span[]): string =>
  spans.reduceRight((t, s) => t.slice(0, s.start) + t.slice(s.start, s.end).toUpperCase() + t.slice(s.end), text)

function notesOf(
  { casing, finishedKg }: IngredientsInput,
  waterPct: number | undefined,
  mayLeaveOut: boolean,
  leftOut: boolean,
): string[] {
  return [
    ...(waterPct === undefined
      ? []
      : [
          `added water is ${Number(waterPct.toFixed(2))} % of the ${finishedKg === undefined ? 'mix' : 'finished product'}${
            leftOut ? ' and is left out' : mayLeaveOut ? ' and may be left out' : ''
          }`,
        ]),
    ...(casing && !casing.edible ? ['that a casing cannot be eaten is to be said: Annex VI C, from memory'] : []),
  ]
}
