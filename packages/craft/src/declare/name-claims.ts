import { figures } from '../rules.ts'
import {
  borne,
  contradicted,
  isAnimalPart,
  isBareFat,
  isFlesh,
  isOf,
  materialOf,
  unproved,
  type ClaimFacts,
  type NameClaim,
} from './name-claim-facts.ts'
import { freeOf } from './name-claim-free.ts'
import { namedIngredients } from './name-claim-ingredients.ts'
import { dietClaims, documentClaims, kindClaims, pieceClaims } from './name-claim-kinds.ts'
import { blanked, plainName, saidAt, wordPattern, type Word } from './name-claim-words.ts'

/** The animal is named for its fat, its rind or its blood. */
const asPart = (after: string): boolean =>
  /^ (?:back ?|leaf )?(?:fat|lard|rind|skin|crackling|scratching|blood|suet|tallow|dripping)s?(?!\p{L})/iu.test(after)

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
    return at.length === 0
      ? []
      : [
          {
            w,
            flavoured: at.every(({ end }) => asFlavour(end)),
            asPart: at.every(({ end }) => asPart(open.slice(end))),
          },
        ]
  })
  const animalsOf = (w: Word) =>
    'of' in w ? all.filter((a) => (w.of as readonly string[]).includes(a.say)) : all.filter((a) => a === w)
  // Skin alone is not the bird.
  const { notMeat: skins } = figures('labelling')
  const own = (w: Word) =>
    facts.items.filter((i) => i.kg > 0 && !skins.includes(i.material) && animalsOf(w).some((a) => isOf(a, i)))
  const claims = said.map(({ w, flavoured, asPart: part }) => {
    const of = own(w)
    if (of.length > 0 && !part && of.every(isBareFat))
      return unproved(
        w.say,
        `what of ${w.say} is in it is ${of.map((i) => materialOf(i)!.name.toLowerCase()).join(' and ')} alone`,
        `say whether the name is understood of it, or name it as what it is`,
      )
    if (of.length > 0) return borne(w.say)
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
  // Bacon, ham or lard that is named as such is named.
  const asIngredient = new Set(namedIngredients(rest, facts.items).flatMap((n) => n.items))
  const unnamed = [
    ...new Set(
      facts.items
        .filter((_, n) => !asIngredient.has(n))
        .filter((i) => i.kg > 0 && isAnimalPart(i) && !named.some((a) => isOf(a, i)))
        .map((i) => {
          const animal = all.find((a) => isOf(a, i))?.say
          const m = materialOf(i)!
          return animal === undefined || !isFlesh(i) ? m.name.replace(/^[A-Z]/, (c) => c.toLowerCase()) : animal
        }),
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

export { namedIngredients }

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
  return [...name.matchAll(/(\d+(?:[.,]\d+)?) ?(?:%|per ?cent) (?:of )?(\p{L}+)/giu)].map(([, figure, word]) => {
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

/** Names of houses, places and firms that hold a word for meat or an ingredient: a person says what they are. */
function houses(name: string): { claims: NameClaim[]; rest: string } {
  const { animals: all, groups, houses: words } = figures('nameClaimWords')
  const found = saidAt(name, { words }).filter(({ start, end }) => {
    const said = name.slice(start, end)
    return [...all, ...groups].some((w) => saidAt(said, w).length > 0) || namedIngredients(said, []).length > 0
  })
  return {
    claims: found.map(({ start, end }) =>
      unproved(
        name.slice(start, end),
        'it holds a word for a meat or an ingredient, and reads as the name of a house, a place or a firm',
        'write: it is a proper name, because …',
      ),
    ),
    rest: blanked(name, found),
  }
}

/**
 * Everything a name says of what is in a product, held against what went in. Words it does not know say nothing here.
 *
 * @source Regulation (EU) 1169/2011, Articles 7(1) and 17; 9 CFR 317.8(a); Safe Food for Canadians Regulations, 199(1)(b)
 */
export function nameClaims(name: string, facts: ClaimFacts): NameClaim[] {
  const plain = plainName(name)
  const { claims: proper, rest: own } = houses(plain)
  const { claims: free, rest: open } = freeOf(own, facts)
  const { claims: ofAnimals, rest } = animals(open, facts)
  return [
    ...proper,
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
  animals(freeOf(houses(plainName(name)).rest, facts).rest, facts).named
