import type { Finding } from '../../finding.ts'
import { findMaterial } from '../../materials/materials.ts'
import type { IngredientsOutput } from '../ingredients-schema.ts'
import { figures } from '../../rules.ts'
import { isMechanicallySeparated } from '../label-name.ts'
import { usesName } from '../name-words.ts'
import { productName, type NameOutput } from '../product-name.ts'
import { qualifying, type QualifyingFacts, type QualifyingOutput } from '../qualifying.ts'
import { meatSpeciesOf } from './meat-quid.ts'
import type { LabelInput } from './schema.ts'

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

export type LabelNaming = {
  readonly beside: readonly string[]
  readonly qualifying: QualifyingOutput['words']
  readonly findings: readonly Finding[]
}

/** Reserved names the label uses that the composition does not allow, and the words that go with the name. */
export function nameOf(input: LabelInput, list: IngredientsOutput, cured: boolean, name: string): LabelNaming {
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
    beside: [...words.beside, ...(frozen ? ['frozen'] : [])],
    qualifying: words.words,
    // A name that several standards reserve keeps all of them: the strictest counts.
    findings: [...judged.flatMap((n) => (n.composition === 'pass' ? [] : n.findings)), ...words.findings],
  }
}
