import { findMaterial } from '../../materials/materials.ts'
import { figures } from '../../rules.ts'
import { wordsFor } from '../label-name.ts'
import { isFlesh, isOf, type ClaimFacts, type ClaimItem, type NameClaim } from '../name-claim-facts.ts'
import { animalsNamed, namedIngredients, nameClaims } from '../name-claims.ts'
import { block } from './blocks.ts'
import type { LabelBlock } from './schema.ts'
import type { Stated } from './statement-of.ts'

const plainWords = (text: string): string[] =>
  text
    .toLowerCase()
    .normalize('NFKD')
    .split(/[^\p{L}]+/u)
    .filter((w) => w.length >= 3)
/** Whether two words are forms of one: the first four letters, or all of a shorter one, agree. */
const alike = (a: string, b: string): boolean => a.slice(0, 4) === b.slice(0, 4)

/** A name that has no word in common with what the table calls the material, in the list or in the store. */
function isStrange(name: string, material: string, place: string): boolean {
  const m = findMaterial(material)
  if (m === undefined) return false
  const words = figures('labelling').names[material]
  const known = plainWords([m.name, material, words ? wordsFor(words, place) : ''].join(' '))
  return !plainWords(name).some((w) => known.some((k) => alike(w, k)))
}

/** What a name says of its own material alone: kinds of product are no matter of a material. */
function saidOf(name: string, own: ClaimItem, allergens: ClaimFacts['allergens']): NameClaim[] {
  const kinds = new Set(figures('nameClaimWords').kinds.map((k) => k.say))
  const facts: ClaimFacts = {
    items: [own],
    listText: own.texts.join(', '),
    allergens,
    cured: false,
    kind: 'fresh',
    smoked: true,
    readyToEat: true,
    frozen: false,
  }
  return nameClaims(name, facts).filter((c) => !kinds.has(c.says))
}

const isAnimal = (says: string): boolean =>
  [...figures('nameClaimWords').animals, ...figures('nameClaimWords').groups].some((a) => says.includes(a.say))

/** Flesh whose name leaves out the animal it is of. */
function animalLeftOut(name: string, own: ClaimItem): string | undefined {
  if (!isFlesh(own) || namedIngredients(name, [own]).some((n) => n.items.length > 0)) return undefined
  const animal = figures('nameClaimWords').animals.find((a) => isOf(a, own))
  if (animal === undefined) return undefined
  const facts = { items: [own], listText: '', allergens: [], cured: false, kind: '', smoked: false }
  return animalsNamed(name, { ...facts, readyToEat: false, frozen: false }).includes(animal.say)
    ? undefined
    : animal.say
}

function blocksOfOne({ item, statement }: Stated, place: string): LabelBlock[] {
  if (statement === undefined) return []
  const { material } = item
  const parts = statement.parts ?? []
  const own: ClaimItem = { material, kg: item.kg, texts: parts.map((p) => p.name) }
  const { name } = statement
  const claims = [
    ...(name === undefined ? [] : saidOf(name, own, statement.allergens).map((c) => ({ ...c, name }))),
    // A part of a compound is not the material: of the animals it names only those of a meat are held.
    ...parts.flatMap((p) =>
      saidOf(p.name, own, statement.allergens)
        .filter((c) => isFlesh(own) || c.standing === 'unproved' || !isAnimal(c.says))
        .map((c) => ({ ...c, name: p.name })),
    ),
  ]
  const said = (standing: NameClaim['standing']) => claims.filter((c) => c.standing === standing)
  const list = (all: typeof claims) =>
    [...new Set(all.map((c) => `${JSON.stringify(c.name)} says "${c.says}": ${c.because}`))].join('; ')
  const [wrong, open] = [said('contradicted'), said('unproved')]
  const leftOut = name === undefined ? undefined : animalLeftOut(name, own)
  const settle = `give ${material} in its supplier's statement the name of what it is`
  return [
    ...(wrong.length > 0
      ? [block(`supplier-name:${material}`, `The supplier's statement for ${material}: ${list(wrong)}`, settle)]
      : leftOut === undefined
        ? []
        : [
            block(
              `supplier-name:${material}`,
              `The supplier's statement calls ${material} ${JSON.stringify(name)}, which does not say ${leftOut}`,
              settle,
            ),
          ]),
    ...(open.length > 0
      ? [
          block(
            `supplier-name-document:${material}`,
            `The supplier's statement for ${material}: ${list(open)}`,
            [...new Set(open.flatMap((c) => c.settle ?? []))].join('; '),
            'person',
          ),
        ]
      : []),
    ...(name !== undefined && wrong.length === 0 && leftOut === undefined && isStrange(name, material, place)
      ? [
          block(
            `supplier-name-other:${material}`,
            `The supplier's statement calls ${material} ${JSON.stringify(name)}, which has no word in common with it`,
            `say that it is ${findMaterial(material)?.name ?? material} under another name, or correct the statement`,
            'person',
          ),
        ]
      : []),
  ]
}

/**
 * What stops a label in the names its suppliers' statements give: each is held against its own material, by the table's species and by what
 * the name claims.
 *
 * @source Regulation (EU) 1169/2011, Articles 7(1) and 17
 */
export const supplierNameBlocks = (stated: readonly Stated[], place: string): LabelBlock[] => [
  ...new Map(stated.flatMap((s) => blocksOfOne(s, place)).map((b) => [`${b.id} ${b.what}`, b])).values(),
]
