import { figures } from '../rules.ts'
import {
  contradicted,
  heldIn,
  isOf,
  materialOf,
  unproved,
  type ClaimFacts,
  type NameClaim,
} from './name-claim-facts.ts'
import { namedIngredients } from './name-claim-ingredients.ts'
import { blanked, saidAt, wordPattern } from './name-claim-words.ts'

const thing = '(?:(?:added|artificial|tree) )?\\p{L}+(?: ajout[ée]e?s?)?'
const joint =
  '(?: ?, ?(?:and |or |& )?| (?:and|or|nor|&|et|ou|ni|und|oder|noch|y|o|e|né|en|of) (?:no |sans |sin |ohne )?)'
const joints = new RegExp(joint, 'iu')
const before = new RegExp(
  `(?<![\\p{L}\\d])(?:free (?:from|of)|without(?: any)?|no|zero|non|sans|sin|ohne|senza|zonder|vrij van) (?:any )?(${thing}(?:${joint}${thing})*)`,
  'giu',
)
const behind = new RegExp(
  `(?<![\\p{L}\\d])(${thing}(?:${joint}${thing})*?) ?(?:free|frei(?:e[mnrs]?)?|vrij)(?!\\p{L})(?! (?:range|from|of)(?!\\p{L}))`,
  'giu',
)
/** Ways to say that a thing is free of gluten without the word. */
const forGluten = /(?<![\p{L}\d])(?:g ?f|(?:coeliac|celiac)s?(?: (?:friendly|safe))?)(?![\p{L}\d])/giu

type Kind = 'listed' | 'animal' | 'ingredient' | 'unknown'

const listedOf = (what: string) =>
  figures('nameClaimWords').free.find((f) => new RegExp(`^(?:${f.words.join('|')})$`, 'iu').test(what))
const animalsOf = (what: string) => {
  const { animals, groups } = figures('nameClaimWords')
  const of = groups.filter((g) => saidAt(what, g).length > 0).flatMap((g) => g.of)
  return animals.filter((a) => of.includes(a.say) || saidAt(what, a).length > 0)
}
const kindOf = (what: string): Kind => {
  if (animalsOf(what).length > 0) return 'animal'
  const listed = listedOf(what)
  if (listed?.allergens !== undefined) return 'listed'
  if (namedIngredients(what, []).length > 0) return 'ingredient'
  return listed ? 'listed' : 'unknown'
}

/** The things of a list in their order, each with its place in it. */
function thingsOf(list: string): { what: string; at: number }[] {
  const all = list.split(joints)
  let at = 0
  return all.map((what) => {
    const start = list.indexOf(what, at)
    at = start + what.length
    return { what, at: start }
  })
}

/** "Without gluten, pork and leek link": what goes on with meat or with what else is in it is the product. */
function forward(list: string, atEnd: boolean): { whats: string[]; length: number } {
  const all = thingsOf(list)
  const first = kindOf(all[0]!.what)
  const stop = all.findIndex(({ what, at }, n) => {
    if (n === 0 || /(?:nor|or|ni|oder|noch|ou|né)[^,]*$/iu.test(list.slice(all[n - 1]!.at, at))) return false
    const kind = kindOf(what)
    if (kind === 'listed' || (kind !== 'unknown' && kind === first)) return false
    return kind === 'unknown' || !atEnd
  })
  const kept = stop === -1 ? all : all.slice(0, stop)
  const last = kept.at(-1)!
  return { whats: kept.map((k) => k.what), length: last.at + last.what.length }
}

/** "Pork and leek, gluten and dairy free": read from its end, as far as it is a list of such things. */
function backward(list: string): { whats: string[]; from: number } {
  const all = thingsOf(list)
  const last = all.at(-1)!
  const kept = [last]
  for (const t of all.slice(0, -1).toReversed()) {
    const own = kindOf(t.what)
    const next = kept[0]!
    const link = list.slice(t.at + t.what.length, next.at)
    const byComma = kept.length === 1 && link.trim() === ','
    const listed = own === 'listed' && !(byComma && namedIngredients(t.what, []).length > 0)
    if (!listed && !(own !== 'unknown' && own === kindOf(last.what) && !byComma)) break
    kept.unshift(t)
  }
  return { whats: kept.map((k) => k.what), from: kept[0]!.at }
}

/** What of a product is the thing a name says it is free of, and whether anything could be looked for. */
function held(what: string, facts: ClaimFacts): { says: string; holds: string[]; looked: boolean } {
  const known = listedOf(what)
  const beasts = animalsOf(what)
  const called = namedIngredients(what, facts.items)
  const used = facts.items.filter((i) => i.kg > 0)
  const named = (n: number) => materialOf(facts.items[n]!)?.name ?? facts.items[n]!.material
  const holds = [
    ...(known ? heldIn(known, facts) : []),
    ...beasts.flatMap((a) => used.filter((i) => isOf(a, i)).map((i) => materialOf(i)?.name ?? i.material)),
    ...(known ? [] : called.flatMap((c) => c.items.map(named))),
    ...(known || beasts.length > 0 ? [] : (facts.listText.match(wordPattern([what])) ?? [])),
  ]
  return {
    says: `free of ${known?.say ?? beasts[0]?.say ?? called[0]?.say ?? what}`,
    holds: [...new Set(holds)],
    looked: known !== undefined || beasts.length > 0 || called.length > 0,
  }
}

/** What a name says a product is free of. Returns the claims and the name with them taken out. */
export function freeOf(name: string, facts: ClaimFacts): { claims: NameClaim[]; rest: string } {
  const { unknownFree, documents } = figures('nameClaimWords')
  // Claims about the rearing of animals keep their words for the reading after this one.
  const open = blanked(
    name,
    documents.flatMap((d) => saidAt(name, d)),
  )
  const ahead = [...open.matchAll(before)].map((m) => {
    const start = m.index + m[0].length - m[1]!.length
    const { whats, length } = forward(m[1]!, m.index + m[0].length === open.length)
    return { whats, start: m.index, end: start + length }
  })
  const after = [...blanked(open, ahead).matchAll(behind)].map((m) => {
    const { whats, from } = backward(m[1]!)
    return { whats, start: m.index + from, end: m.index + m[0].length }
  })
  const short = [...open.matchAll(forGluten)].map((m) => ({
    whats: ['gluten'],
    start: m.index,
    end: m.index + m[0].length,
  }))
  const found = [...ahead, ...after, ...short]
  const claims = [...new Set(found.flatMap((f) => f.whats))].map((what) => {
    const { says, holds, looked } = held(what, facts)
    if (holds.length > 0) return contradicted(says, `it holds ${holds.join(', ')}`, 'take it out of the name')
    const document = listedOf(what)?.document ?? unknownFree
    return unproved(
      says,
      `${looked ? 'nothing in the list says otherwise, and no list shows it' : 'what went in could not be searched for it'}; it rests on a document: ${document}`,
      `name the document: ${document}`,
    )
  })
  return { claims, rest: blanked(name, found) }
}
