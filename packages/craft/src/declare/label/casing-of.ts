import { figures } from '../../rules.ts'
import { casingKnown } from '../casing.ts'
import { contradicted, type NameClaim } from '../name-claim-facts.ts'
import { block } from './blocks.ts'
import type { LabelBlock, LabelInput } from './schema.ts'

type Casing = NonNullable<LabelInput['pack']['casing']>

/** The casing of a label: what the pack says of it, by the recipe's name where the pack gives none. */
export function casingOf({ pack, product }: LabelInput): Casing | undefined {
  if (pack.casing === undefined) return undefined
  const name = pack.casing.name ?? product.casing
  return { edible: pack.casing.edible, ...(name === undefined ? {} : { name }) }
}

/** Animals of the casing, as the pack and as the recipe name it. */
const speciesOf = ({ pack, product }: LabelInput): string[] =>
  [pack.casing?.name, product.casing].flatMap((name) => casingKnown({ edible: true, name: name ?? '' }).species ?? [])

/** A claim that nothing in the list speaks against, held against the animal of the casing as well. */
export function heldByCasing(claim: NameClaim, input: LabelInput): NameClaim {
  if (claim.standing !== 'unproved') return claim
  const { free, diets } = figures('nameClaimWords')
  const against =
    free.find((f) => `free of ${f.say}` === claim.says) ?? diets.find((d) => d.say === claim.says)?.notWith
  const hit = speciesOf(input).find((s) => against?.anyMeat === true || against?.species?.includes(s) === true)
  return hit === undefined
    ? claim
    : contradicted(claim.says, `its casing is of ${hit}`, 'take it out of the name, or fill it into another casing')
}

/** What stops a label in what is said of its casing. */
export function casingBlocks(input: LabelInput): LabelBlock[] {
  const casing = casingOf(input)
  if (casing === undefined) return []
  const [first, second] = speciesOf(input)
  return [
    ...(casing.edible && casingKnown(casing).kind === undefined
      ? [
          block(
            'casing-name',
            casing.name === undefined
              ? 'Nobody says what the casing is of'
              : `${JSON.stringify(casing.name)} does not say what the casing is of`,
            'name the casing with its animal or its stuff: hog casing, sheep casing, beef collagen casing',
          ),
        ]
      : []),
    ...(first !== undefined && second !== undefined && first !== second
      ? [
          block(
            'casing-other',
            `The label's casing is of ${first}, the recipe's of ${second}`,
            'name on the label the casing that was filled, or correct the recipe',
          ),
        ]
      : []),
  ]
}
