import type { Finding } from '../../finding.ts'
import { findMaterial } from '../../materials/materials.ts'
import type { IngredientsOutput } from '../ingredients-schema.ts'
import { figures, judge } from '../../rules.ts'
import { isMechanicallySeparated } from '../label-name.ts'
import type { ClaimFacts, NameClaim } from '../name-claim-facts.ts'
import { animalsNamed, nameClaims } from '../name-claims.ts'
import { usesName } from '../name-words.ts'
import { productName, type NameOutput } from '../product-name.ts'
import { qualifying, type QualifyingFacts, type QualifyingOutput } from '../qualifying.ts'
import { heldByCasing } from './casing-of.ts'
import { meatSpeciesOf } from './meat-quid.ts'
import type { LabelInput } from './schema.ts'
import { statementOf } from './statement-of.ts'

/** Reserved names the label's name uses, held against the composition. */
function reservedIn(input: LabelInput, cured: boolean, name: string): NameOutput['names'] {
  const { product, place, items, packedOn } = input
  const species = [...new Set(items.flatMap((i) => (i.kg > 0 ? (meatSpeciesOf(i.material) ?? []) : [])))]
  if (species.length === 0) return []
  const used = figures('reservedNames').filter((n) => usesName(n, name, species))
  return productName({
    jurisdictions: [place],
    kind: product.kind,
    smoked: product.smoked,
    cured,
    species,
    measures: product.measures ?? {},
    on: packedOn,
  }).names.filter((n) => used.some((u) => u.id === n.standard))
}

/** What the names of a label are held against. */
function claimFactsOf(
  { items, pack, product, batch }: LabelInput,
  list: IngredientsOutput,
  cured: boolean,
  quid: Readonly<Record<string, number>>,
): ClaimFacts {
  return {
    items: items.map((i) => {
      const { statement } = statementOf(i, pack.statements ?? [], batch !== undefined)
      return {
        material: i.material,
        kg: i.kg,
        texts: [
          ...(statement?.name === undefined ? [] : [statement.name]),
          ...(statement?.parts ?? []).map((p) => p.name),
        ],
      }
    }),
    listText: list.text,
    allergens: [...new Set(list.items.flatMap((i) => i.allergens))],
    cured,
    kind: product.kind,
    smoked: product.smoked,
    readyToEat: product.readyToEat,
    heatTreated: product.heatTreated,
    frozen: pack.storage === 'frozen',
    declaredPct: quid,
  }
}

/** A reserved name of one kind of animal, used of a product of others: its standard would not even be asked. */
function reservedOfOthers({ place, product, items }: LabelInput, facts: ClaimFacts, name: string): NameClaim[] {
  const species = [...new Set(items.flatMap((i) => (i.kg > 0 ? (meatSpeciesOf(i.material) ?? []) : [])))]
  const named = animalsNamed(name, facts)
  return figures('reservedNames').flatMap((n) => {
    const { onlySpecies, kinds } = n
    if (onlySpecies === undefined || n.namesSpecies !== true || !n.jurisdictions.includes(place)) return []
    if ((kinds !== undefined && !kinds.includes(product.kind)) || !usesName(n, name, species)) return []
    // A name that names another animal beside it is another name.
    if (named.some((a) => !onlySpecies.includes(a.replace(' ', '-')))) return []
    const others = species.filter((s) => !onlySpecies.includes(s))
    return others.length === 0
      ? []
      : [
          {
            says: n.name,
            standing: 'contradicted' as const,
            because: `kept for ${onlySpecies.join(' and ')} alone; it holds ${others.join(' and ')}`,
            settle: 'call it otherwise, or leave the other meat out',
          },
        ]
  })
}

/** Everything the names of a label say in all its languages, each thing once. */
function claimsOf(input: LabelInput, facts: ClaimFacts, name: string): NameClaim[] {
  const same = name.trim().toLowerCase()
  const others = (input.pack.languages ?? []).flatMap((l) => [
    ...(l.name === undefined ? [] : [l.name]),
    ...(l.words ?? []).filter((w) => w.of.trim().toLowerCase() === same).map((w) => w.is),
  ])
  const all = [...reservedOfOthers(input, facts, name), ...[name, ...others].flatMap((n) => nameClaims(n, facts))].map(
    (c) => heldByCasing(c, input),
  )
  return [...new Map(all.map((c) => [`${c.says} ${c.standing}`, c])).values()]
}

/** What the words that go with a name turn on, from the recipe or the batch and what its maker says. */
function factsOf(
  input: LabelInput,
  list: IngredientsOutput,
  cured: boolean,
  judged: NameOutput['names'],
  name: string,
) {
  const { product, pack } = input
  const used = input.items.filter((i) => i.kg > 0).flatMap((i) => findMaterial(i.material) ?? [])
  const some = (category: string) => used.some((m) => m.category === category)
  // A sausage in a casing does not look like a whole cut.
  const cut = product.cased ? false : undefined
  const fermented = product.kind === 'fermented'
  const facts: QualifyingFacts = {
    smoked: product.smoked,
    smokeFlavoured: some('smoke'),
    cooked: product.kind === 'cooked',
    curedItalian: cured && /\bitalian\b/i.test(name),
    curedByStandardWithoutNitrite: judged.some((n) => n.asNamed.startsWith('Uncured ')),
    defrosted: product.defrosted ?? pack.defrosted,
    looksLikeCut: product.looksLikeCut ?? pack.looksLikeCut ?? cut,
    formedFromPieces: product.formedFromPieces ?? pack.formedFromPieces ?? cut,
    mechanicallySeparated: used.some(isMechanicallySeparated),
    otherAnimalProtein: product.otherAnimalProtein ?? pack.otherAnimalProtein,
    offal: some('offal') || some('blood'),
    sulphited: list.items.some((i) => i.allergens.includes('sulphite')),
    sweetener: /\bsweetener\b/i.test(list.text),
    sugars: some('sugar'),
    casingInedible: pack.casing ? !pack.casing.edible : product.cased === false ? false : undefined,
    casingOtherAnimal: list.statements.some((s) => s.startsWith('packed in')),
    fermentedNotHeated: fermented ? (product.heatTreated === undefined ? undefined : !product.heatTreated) : false,
    fermentedHeated: fermented ? product.heatTreated : false,
  }
  return Object.fromEntries(Object.entries(facts).filter(([, v]) => v !== undefined)) as QualifyingFacts
}

/** Text a reserved name brings; of several the one of the first, which is the narrowest. */
const statementsOf = (judged: NameOutput['names']): readonly string[] =>
  figures('reservedNames').find((n) => n.statements !== undefined && judged.some((j) => j.standard === n.id))
    ?.statements ?? []

export type LabelNaming = {
  /** Text the reserved name it uses has to carry. */
  readonly statements: readonly string[]
  readonly beside: readonly string[]
  readonly qualifying: QualifyingOutput['words']
  readonly findings: readonly Finding[]
}

/** Reserved names the label uses that the composition does not allow, and the words that go with the name. */
export function nameOf(
  input: LabelInput,
  list: IngredientsOutput,
  cured: boolean,
  name: string,
  quid: Readonly<Record<string, number>> = {},
): LabelNaming {
  const claims = claimsOf(input, claimFactsOf(input, list, cured, quid), name)
  const judged = reservedIn(input, cured, name)
  const addedWaterPct = input.product.measures?.['addedWaterPct']
  const words = qualifying({
    place: input.place,
    name,
    facts: factsOf(input, list, cured, judged, name),
    listText: list.text,
    statements: list.statements,
    ...(addedWaterPct === undefined ? {} : { addedWaterPct: Math.min(100, Math.max(0, addedWaterPct)) }),
  })
  const frozen = input.pack.storage === 'frozen' && !name.toLowerCase().includes('frozen')
  return {
    statements: statementsOf(judged),
    beside: [...words.beside, ...(frozen ? ['frozen'] : [])],
    qualifying: words.words,
    // A name that several standards reserve keeps all of them: the strictest counts.
    findings: [
      ...judged.flatMap((n) => (n.composition === 'pass' ? [] : n.findings)),
      ...words.findings,
      ...judge('nameClaims', { place: input.place, claims }),
    ],
  }
}
