import type { Case } from '../rule.ts'

/**
 * The facts of a recipe that rules turn on. A fact left out takes the default below where it has one, and is unknown where it has none.
 *
 * | fact | values | left out |
 * |---|---|---|
 * | route | comminuted, pumped, immersed, dry-rubbed | unknown |
 * | kind | fresh, cooked, fermented, dried | unknown |
 * | smoked, readyToEat | true, false | unknown |
 * | coldSmoked | smoked below 29 °C | false where not smoked or where cooked |
 * | longWarm | hours between 4 and 60 °C | false |
 * | bacon | bellies cured as bacon | false for comminuted |
 * | wholeCut | a piece, not a sausage | false for comminuted |
 * | reducedNitriteScheme, lacticCulture | schemes for bacon | unknown |
 * | heatTreated | cooked through at any step | true for cooked, false for the rest |
 * | sterilised | Fo above 3.00 | false |
 * | traditional | sold as a named traditional cured product (category 08.3.4) | true under a standard eu.08.3.4.*, else false |
 * | infantFood, cureMixedWithSpice | | false |
 * | toBeFried | meant to be fried or grilled hard | unknown |
 * | processProof | a validated process for this product is on file | unknown |
 * | species:<name> | the meat is of that species, or some of it is | none named: unknown |
 * | pork | holds pork or wild boar | from species, else unknown |
 * | porkTreated | each pork lot has a document of treatment or test | unknown |
 * | meatKind | pig, bird, other | from species |
 * | binderAdded, phosphateAdded, gdlAdded, fumaricAdded, antioxidantAdded | | true where such a measure is given above 0, else false |
 * | standard:<id> | sold under that standard | false |
 *
 * Derived, not given: cured, nitrateAdded and acceleratorAdded (from the measures), euCategory (from kind, heatTreated, sterilised,
 * traditional), rawPork (pork in what is eaten without a full cook).
 */
export type RecipeFacts = Case['facts']

type Described = {
  readonly kind?: string | undefined
  readonly smoked?: boolean | undefined
  readonly readyToEat?: boolean | undefined
  readonly route?: string | undefined
  readonly standards?: readonly string[] | undefined
}

const pigs = new Set(['pork', 'wild-boar'])
const birds = new Set(['chicken', 'turkey', 'duck', 'rabbit'])

/** What the species of the meat say; nothing where none is named. */
function ofSpecies(species: readonly string[]): RecipeFacts {
  if (species.length === 0) return {}
  const all = (of: ReadonlySet<string>): boolean => species.every((s) => of.has(s))
  return {
    meatKind: all(pigs) ? 'pig' : all(birds) ? 'bird' : 'other',
    pork: species.some((s) => pigs.has(s)),
  }
}

/** Facts of a recipe and of the species its meat is of, in the vocabulary of the rules. */
export function recipeFacts(recipe: Described, species: readonly string[] = []): RecipeFacts {
  const { kind, smoked, readyToEat, route, standards = [] } = recipe
  return {
    kind,
    smoked,
    readyToEat,
    route,
    ...ofSpecies(species),
    ...Object.fromEntries(standards.map((id) => [`standard:${id}`, true])),
  }
}

const SPECIES = 'species:'

const asked = [
  'route',
  'kind',
  'smoked',
  'readyToEat',
  'coldSmoked',
  'longWarm',
  'bacon',
  'wholeCut',
  'reducedNitriteScheme',
  'lacticCulture',
  'toBeFried',
  'processProof',
  'pork',
  'porkTreated',
  'meatKind',
  'cured',
  'nitrateAdded',
  'acceleratorAdded',
  'euCategory',
  'rawPork',
] as const
const unlessSaid = ['longWarm', 'sterilised', 'infantFood', 'cureMixedWithSpice'] as const

/** Known answers for facts that were left out and follow from others; see the table above. */
function defaults(facts: RecipeFacts): Record<string, string | boolean | undefined> {
  const { kind, smoked, route } = facts
  const named = Object.keys(facts).filter((k) => k.startsWith(SPECIES) && facts[k] === true)
  const traditionalRow = Object.keys(facts).some((k) => k.startsWith('standard:eu.08.3.4.') && facts[k] === true)
  const out: Record<string, string | boolean | undefined> = {
    ...Object.fromEntries(unlessSaid.map((k) => [k, false])),
    ...ofSpecies(named.map((k) => k.slice(SPECIES.length))),
    traditional: traditionalRow,
    traditionalRow,
  }
  if (smoked === false || kind === 'cooked') out['coldSmoked'] = false
  if (route === 'comminuted') Object.assign(out, { bacon: false, wholeCut: false })
  if (kind !== undefined) out['heatTreated'] = kind === 'cooked'
  return out
}

function categoryOf(facts: RecipeFacts): string | undefined {
  if (facts['traditional'] === true) return '08.3.4'
  if (facts['kind'] === 'fresh') return '08.2'
  if (facts['kind'] === undefined || facts['heatTreated'] === undefined) return undefined
  if (!facts['heatTreated']) return '08.3.1'
  return facts['sterilised'] === true ? '08.3.2-sterilised' : '08.3.2'
}

/** Pork in a product eaten without a full cook; undefined where that cannot be said. */
function isRawPork(facts: RecipeFacts): boolean | undefined {
  if (facts['pork'] === false || facts['kind'] === 'cooked' || facts['readyToEat'] === false) return false
  return facts['pork'] === true && facts['readyToEat'] === true && facts['kind'] !== undefined ? true : undefined
}

const definedOnly = (facts: RecipeFacts): RecipeFacts =>
  Object.fromEntries(Object.entries(facts).filter(([, v]) => v !== undefined))

/** Every fact a recipe rule may ask about: given, by default, derived, or named and unknown. */
export function completeFacts(given: RecipeFacts, derived: RecipeFacts, standardsAsked: Iterable<string>): RecipeFacts {
  const known = { ...defaults(given), ...definedOnly(derived), ...definedOnly(given) }
  return {
    ...Object.fromEntries(asked.map((k) => [k, undefined])),
    ...Object.fromEntries([...standardsAsked].map((k) => [k, false])),
    ...known,
    euCategory: given['euCategory'] ?? categoryOf(known),
    rawPork: given['rawPork'] ?? isRawPork(known),
  }
}
