import { findMaterial } from '../materials/materials.ts'
import { figures } from '../rules.ts'
import type { Allergen } from './label-rules.ts'
import { isMechanicallySeparated } from './label-name.ts'
import { blanked, plainName, saidAt, wordPattern, type HeldBy, type Word } from './name-claim-words.ts'

/** One thing that went in. */
export type ClaimItem = {
  readonly material: string
  readonly kg: number
  /** Its own name and those of its parts. */
  readonly texts: readonly string[]
}

/** What a name is held against. */
export type ClaimFacts = {
  readonly items: readonly ClaimItem[]
  readonly listText: string
  readonly allergens: readonly Allergen[]
  readonly cured: boolean
  readonly kind: string
  readonly smoked: boolean
  readonly readyToEat: boolean
  readonly heatTreated?: boolean | undefined
  readonly frozen: boolean
  /** Meat by species as declared, percent, where the place asks for it. */
  readonly declaredPct?: Readonly<Record<string, number>>
}

/** Something a name says: contradicted by what went in, borne out by it, or not to be shown by any list. */
export type NameClaim = {
  readonly says: string
  readonly standing: 'contradicted' | 'borne out' | 'unproved'
  readonly because: string
  readonly settle?: string
}

export type NameClaimsQuestion = { readonly place: string; readonly claims: readonly NameClaim[] }

const meats = ['pork', 'beef', 'veal', 'lamb', 'goat', 'chicken', 'turkey', 'duck', 'game']
const materialOf = (i: ClaimItem) => findMaterial(i.material)
/** Words of an item that a name may take up: what the table calls it, and its own name and list. */
const textOf = (i: ClaimItem): string => [materialOf(i)?.name ?? '', ...i.texts].join(', ').toLowerCase()
const starts = (ids: readonly string[] | undefined, material: string): boolean =>
  ids?.some((id) => material.startsWith(id)) === true

/** Flesh that is named by its animal; bacon and salt pork are. */
const isFlesh = (i: ClaimItem): boolean => {
  const m = materialOf(i)
  return m !== undefined && meats.includes(m.category) && !isMechanicallySeparated(m)
}

const isOf = (by: HeldBy, i: ClaimItem): boolean => {
  const m = materialOf(i)
  if (starts(by.notMaterials, i.material)) return false
  return (
    starts(by.materials, i.material) ||
    (m?.species !== undefined && by.species?.includes(m.species) === true) ||
    (m !== undefined && by.categories?.includes(m.category) === true) ||
    (by.anyMeat === true && isFlesh(i)) ||
    (by.additive === true && figures('labelling').additiveOf[i.material] !== undefined)
  )
}

/** What of a product is what `by` says: names of items, an allergen, words of the list. */
function heldIn(by: HeldBy, facts: ClaimFacts): string[] {
  const items = facts.items.filter((i) => i.kg > 0 && isOf(by, i)).map((i) => materialOf(i)?.name ?? i.material)
  const carried = (by.allergens ?? []).filter((a) => facts.allergens.includes(a))
  const listed = (by.inList ?? []).flatMap((p) => new RegExp(p, 'iu').exec(facts.listText)?.[0] ?? [])
  const cured = by.cured === true && facts.cured ? ['nitrite or nitrate'] : []
  return [...new Set([...items, ...carried, ...listed, ...cured])]
}

const contradicted = (says: string, because: string, settle: string): NameClaim => ({
  says,
  standing: 'contradicted',
  because,
  settle,
})
const unproved = (says: string, because: string, settle: string): NameClaim => ({
  says,
  standing: 'unproved',
  because,
  settle,
})
const borne = (says: string): NameClaim => ({ says, standing: 'borne out', because: 'what went in agrees' })

const before =
  /(?:(?:free (?:from|of)|without(?: any)?|no|zero|non|sans|sin|ohne|senza|zonder|vrij van) (?:any )?)((?:added |artificial )?[\p{L}]+(?: ajout[ée]e?s?)?)/giu
const behind = /(?<![\p{L}\d])([\p{L}]+) ?(?:free|frei(?:e[mnrs]?)?|vrij)(?!\p{L})(?! (?:range|from|of)\b)/giu

/** What a name says a product is free of. Returns the claims and the name with them taken out. */
function freeOf(name: string, facts: ClaimFacts): { claims: NameClaim[]; rest: string } {
  const { free, unknownFree, documents } = figures('nameClaimWords')
  const own = documents.flatMap((d) => saidAt(name, d))
  const open = blanked(name, own)
  const found = [...open.matchAll(before), ...open.matchAll(behind)].map((m) => ({
    what: m[1]!,
    start: m.index,
    end: m.index + m[0].length,
  }))
  const claims = found.map(({ what }) => {
    const known = free.find((f) => new RegExp(`^(?:${f.words.join('|')})$`, 'iu').test(what))
    const says = `free of ${known?.say ?? what}`
    const holds = known ? heldIn(known, facts) : []
    if (holds.length > 0) return contradicted(says, `it holds ${holds.join(', ')}`, 'take it out of the name')
    const document = known?.document ?? unknownFree
    return unproved(
      says,
      `nothing in the list says otherwise, and no list shows it; it rests on a document: ${document}`,
      `name the document: ${document}`,
    )
  })
  // Claims about the rearing of animals keep their words for the reading after this one.
  return { claims, rest: blanked(name, found) }
}

/** Animals a name names, and those of its meat it does not. */
function animals(name: string, facts: ClaimFacts): { claims: NameClaim[]; rest: string; named: readonly string[] } {
  const { animals: all, groups, notMeat, flavour } = figures('nameClaimWords')
  const open = name.replaceAll(wordPattern(notMeat), (m) => '.'.repeat(m.length))
  const asFlavour = (end: number): boolean =>
    new RegExp(`^ (?:${flavour.join('|')})(?!\\p{L})`, 'iu').test(open.slice(end))
  let rest = open
  const read = (w: Word) => {
    const at = saidAt(rest, w)
    rest = blanked(rest, at)
    return at
  }
  // The longer names first: wild boar before anything else, groups last.
  const said = [...all, ...groups].flatMap((w) => {
    const at = read(w)
    return at.length === 0 ? [] : [{ w, flavoured: at.every(({ end }) => asFlavour(end)) }]
  })
  const animalsOf = (w: Word) =>
    'of' in w ? all.filter((a) => (w.of as readonly string[]).includes(a.say)) : all.filter((a) => a === w)
  // Skin alone is not the bird.
  const { notMeat: skins } = figures('labelling')
  const present = (w: Word): boolean =>
    animalsOf(w).some((a) => facts.items.some((i) => i.kg > 0 && !skins.includes(i.material) && isOf(a, i)))
  const claims = said.map(({ w, flavoured }) => {
    if (present(w)) return borne(w.say)
    if (flavoured)
      return unproved(
        `${w.say} as a flavour`,
        `no ${w.say} went in`,
        'say what gives the flavour, and that the name cannot be taken for the meat',
      )
    return contradicted(w.say, `no ${w.say} went in`, 'name the meat that is in it')
  })
  const named = said.filter((s) => !s.flavoured).flatMap(({ w }) => animalsOf(w))
  if (said.length === 0) return { claims, rest, named: [] }
  const unnamed = [
    ...new Set(
      facts.items
        .filter((i) => i.kg > 0 && isFlesh(i) && !named.some((a) => isOf(a, i)))
        .map((i) => all.find((a) => isOf(a, i))?.say ?? materialOf(i)!.name),
    ),
  ]
  return {
    claims:
      unnamed.length === 0 || claims.every((c) => c.standing !== 'borne out')
        ? claims
        : [
            ...claims,
            contradicted(
              said.map(({ w }) => w.say).join(' and '),
              `it holds ${unnamed.join(' and ')} as well, which the name leaves out`,
              `name ${unnamed.join(' and ')} too, or leave the animals out of the name`,
            ),
          ],
    rest,
    named: named.map((a) => a.say),
  }
}

/** An ingredient a name names, and the items that are it. */
export type NamedIngredient = { readonly say: string; readonly items: readonly number[]; readonly flavoured: boolean }

/** Ingredients other than meat that a name names, with the items that bear it out. */
export function namedIngredients(name: string, items: readonly ClaimItem[]): NamedIngredient[] {
  const { ingredients, flavour, notMeat } = figures('nameClaimWords')
  const flavoured = new RegExp(`^ (?:${flavour.join('|')})(?!\\p{L})`, 'iu')
  let rest = plainName(name).replaceAll(wordPattern(notMeat.slice(1)), (m) => '.'.repeat(m.length))
  return ingredients.flatMap((w) => {
    const at = saidAt(rest, w)
    if (at.length === 0) return []
    const all = rest
    rest = blanked(rest, at)
    const is = w.is.map((p) => new RegExp(`(?<!\\p{L})${p}`, 'iu'))
    return [
      {
        say: w.say,
        flavoured: at.every(({ end }) => flavoured.test(all.slice(end))),
        items: items.flatMap((i, n) =>
          i.kg > 0 &&
          (is.some((p) => p.test(textOf(i))) || w.categories?.includes(materialOf(i)?.category ?? '') === true)
            ? [n]
            : [],
        ),
      },
    ]
  })
}

function ingredientClaims(rest: string, facts: ClaimFacts): NameClaim[] {
  return namedIngredients(rest, facts.items).map(({ say, items, flavoured }) => {
    if (items.length > 0) return borne(say)
    return flavoured
      ? unproved(`${say} as a flavour`, `no ${say} went in`, `say what gives the flavour of ${say}`)
      : contradicted(say, `no ${say} went in`, `take ${say} out of the name`)
  })
}

/** Percents a name gives of an animal, of meat, or of something no list shows. */
function percents(name: string, facts: ClaimFacts): NameClaim[] {
  const { animals: all } = figures('nameClaimWords')
  const totalKg = facts.items.reduce((s, i) => s + i.kg, 0)
  return [...name.matchAll(/(\d+(?:[.,]\d+)?) ?% (?:of )?(\p{L}+)/giu)].map(([, figure, word]) => {
    const pct = Number(figure!.replace(',', '.'))
    const animal = all.find((a) => saidAt(word!, a).length > 0)
    const says = `${figure} % ${animal?.say ?? word}`
    if (!animal && !/^(?:meat|viande|fleisch|carne|vlees)$/iu.test(word!))
      return unproved(says, 'no list shows it', 'name the analysis or the calculation it rests on')
    const own = facts.items.filter((i) => i.kg > 0 && (animal ? isOf(animal, i) : isFlesh(i)))
    const ingoing = (100 * own.reduce((s, i) => s + i.kg, 0)) / totalKg
    const declared = animal?.species?.flatMap((s) => facts.declaredPct?.[s] ?? [])[0]
    const is = declared === undefined ? ingoing : Math.min(ingoing, declared)
    return pct > is + 1e-6
      ? contradicted(says, `${Number(is.toFixed(1))} % is declared or went in`, 'say no more than is in it')
      : borne(says)
  })
}

/** Kinds a name says: cured, cooked, dried, fresh … */
function kindClaims(name: string, facts: ClaimFacts): NameClaim[] {
  return figures('nameClaimWords').kinds.flatMap((k) => {
    if (saidAt(name, k).length === 0) return []
    const { needs } = k
    const heated = needs.orHeated === true && facts.heatTreated === true
    const wrong = [
      ...(needs.kinds && !needs.kinds.includes(facts.kind) && !heated
        ? [`its recipe is of the kind ${facts.kind}`]
        : []),
      ...(needs.cured !== undefined && needs.cured !== facts.cured
        ? [facts.cured ? 'it holds nitrite or nitrate' : 'it holds neither nitrite nor nitrate']
        : []),
      ...(needs.smoked === true && !facts.smoked ? ['its recipe is not smoked'] : []),
      ...(needs.readyToEat === true && !facts.readyToEat ? ['its recipe is not one eaten as sold'] : []),
      ...(needs.notFrozen === true && facts.frozen ? ['it is sold frozen'] : []),
    ]
    return wrong.length === 0
      ? [borne(k.say)]
      : [contradicted(k.say, wrong.join(' and '), `take "${k.say}" out of the name`)]
  })
}

/** A name that ends in a piece of meat is of that piece alone. */
function pieceClaims(name: string, facts: ClaimFacts): NameClaim[] {
  return figures('nameClaimWords').endsInMeat.flatMap((p) => {
    if (!saidAt(name, p).some(({ end }) => end === name.length)) return []
    const others = facts.items.filter((i) => i.kg > 0 && isFlesh(i) && !starts(p.materials, i.material))
    return others.length === 0
      ? []
      : [
          contradicted(
            p.say,
            `it is made of ${[...new Set(others.map((i) => materialOf(i)!.name))].join(', ')}`,
            'name it as what it is',
          ),
        ]
  })
}

function dietClaims(name: string, facts: ClaimFacts): NameClaim[] {
  return figures('nameClaimWords').diets.flatMap((d) => {
    if (saidAt(name, d).length === 0) return []
    const holds = heldIn(d.notWith, facts)
    return holds.length > 0
      ? [contradicted(d.say, `it holds ${holds.join(', ')}`, `take "${d.say}" out of the name`)]
      : [unproved(d.say, 'no list shows it; it rests on a certificate', 'name the certificate and who gave it')]
  })
}

const documentClaims = (name: string): NameClaim[] =>
  figures('nameClaimWords').documents.flatMap((d) =>
    saidAt(name, d).length === 0
      ? []
      : [
          unproved(
            d.say,
            `no list shows it; it rests on a document: ${d.document}`,
            `name the document: ${d.document}`,
          ),
        ],
  )

/**
 * Everything a name says of what is in a product, held against what went in. Words it does not know say nothing here.
 *
 * @source Regulation (EU) 1169/2011, Articles 7(1) and 17; 9 CFR 317.8(a); Safe Food for Canadians Regulations, 199(1)(b)
 */
export function nameClaims(name: string, facts: ClaimFacts): NameClaim[] {
  const plain = plainName(name)
  const { claims: free, rest: open } = freeOf(plain, facts)
  const { claims: ofAnimals, rest } = animals(open, facts)
  return [
    ...free,
    ...ofAnimals,
    ...ingredientClaims(rest, facts),
    ...percents(plain, facts),
    ...kindClaims(open, facts),
    ...pieceClaims(open, facts),
    ...dietClaims(open, facts),
    ...documentClaims(plain),
  ]
}

/** Animals a name names, by the words of the findings. */
export const animalsNamed = (name: string, facts: ClaimFacts): readonly string[] =>
  animals(freeOf(plainName(name), facts).rest, facts).named
