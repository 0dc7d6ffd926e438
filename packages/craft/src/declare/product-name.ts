import { z } from 'zod'
import { findingSchema, overall } from '../finding.ts'
import { recipeKinds } from '../recipe/schema.ts'
import { figures, judge } from '../rules.ts'
import { isoDate, list, oneOf, pct, text } from '../schema.ts'

/** A reserved name, and what the product must be for the name to come into question. */
export type ReservedName = {
  readonly id: string
  readonly name: string
  readonly jurisdictions: readonly string[]
  /** Only meat of these species, all of it. */
  readonly onlySpecies?: readonly string[]
  /** True where the name itself names them, so that it is misused of anything else. */
  readonly namesSpecies?: boolean
  /** Some meat of one of these. */
  readonly someSpecies?: readonly string[]
  readonly kinds?: readonly string[]
  readonly smoked?: boolean
  /** Cured by its standard: without nitrite it is named with "Uncured" before it. */
  readonly cured?: boolean
  /** Sets of words a name on a label uses it by, in any order; `*burger` is any word that ends so. */
  readonly said: readonly string[]
  /** Sets of words that make it another name. */
  readonly saidNot?: readonly string[]
  /** Text that stands beside the name on a label. */
  readonly statements?: readonly string[]
  /** Species in the product that make it another standard's name. */
  readonly saidNotOf?: readonly string[]
}

export type NameQuestion = {
  readonly standard: string
  readonly jurisdiction: string
  readonly kind: string
  readonly smoked: boolean
  readonly species: readonly string[]
  readonly measures: Readonly<Record<string, number>>
  readonly on: string
}

const measureNames = [
  'fatPct',
  'rawFatPct',
  'proteinPct',
  'meatProteinPct',
  'addedWaterPct',
  'formulaWaterPct',
  'meatPct',
  'declaredMeatPct',
  'meatAndFatPct',
  'skeletalMeatPct',
  'liverPct',
  'poultryPct',
  'collagenOfProteinPct',
  'fatFreeMeatPct',
  'binderPct',
  'strongBinderPct',
] as const

const measures = Object.fromEntries(measureNames.map((m) => [m, pct().optional()])) as Record<
  (typeof measureNames)[number],
  z.ZodOptional<ReturnType<typeof pct>>
>

export const nameInput = z.strictObject({
  jurisdictions: list(oneOf(['US', 'EU', 'GB', 'CA', 'AU-NZ']), { min: 1, max: 5 }).optional(),
  kind: oneOf(recipeKinds),
  smoked: z.boolean(),
  /** Whether it holds nitrite or nitrate. */
  cured: z.boolean(),
  /** Species of all the meat in it. */
  species: list(text(40), { min: 1, max: 12 }),
  /** Percent by mass, in the words of the composition rules; one that is left out is not known. */
  measures: z.strictObject(measures),
  /** Day whose law is asked for. */
  on: isoDate(),
})

export const nameOutput = z.strictObject({
  names: z.array(
    z.strictObject({
      standard: z.string(),
      name: z.string(),
      jurisdiction: z.string(),
      /** Of the composition only: what else a standard asks for is not judged here. */
      composition: z.enum(['pass', 'fail', 'cannot-tell']),
      /** The name as it would stand, with a word the law asks for before it. */
      asNamed: z.string(),
      findings: z.array(findingSchema),
    }),
  ),
  caution: z.string(),
})
export type NameInput = z.infer<typeof nameInput>
export type NameOutput = z.infer<typeof nameOutput>

function inQuestion(n: ReservedName, { kind, smoked, species }: NameInput): boolean {
  return (
    (n.kinds === undefined || n.kinds.includes(kind)) &&
    (n.smoked === undefined || n.smoked === smoked) &&
    (n.onlySpecies === undefined || species.every((s) => n.onlySpecies!.includes(s))) &&
    (n.someSpecies === undefined || species.some((s) => n.someSpecies!.includes(s)))
  )
}

const order = { pass: 0, 'cannot-tell': 1, fail: 2 }

/** Reserved names that the composition of a product allows, place by place, with the findings behind each. */
export function productName(input: NameInput): NameOutput {
  const { jurisdictions = ['US', 'EU', 'GB', 'CA', 'AU-NZ'], kind, smoked, species, cured, on } = input
  const known = Object.fromEntries(Object.entries(input.measures).filter(([, v]) => v !== undefined)) as Record<
    string,
    number
  >
  const names = figures('reservedNames')
    .filter((n) => inQuestion(n, input))
    .flatMap((n) =>
      n.jurisdictions
        .filter((j) => (jurisdictions as readonly string[]).includes(j))
        .map((jurisdiction) => {
          const findings = judge('name', {
            standard: n.id,
            jurisdiction,
            kind,
            smoked,
            species,
            measures: known,
            on,
          })
          return {
            standard: n.id,
            name: n.name,
            jurisdiction,
            composition: overall(findings),
            asNamed: n.cured === true && !cured ? `Uncured ${n.name}` : n.name,
            findings,
          }
        }),
    )
  return {
    names: names.toSorted((a, b) => order[a.composition] - order[b.composition]),
    caution:
      'Composition only. What else a standard asks for (cuts, seasoning, process, place) and how the label shows the name are to be read in it.',
  }
}
