import { pieceInput, type DryingPiece } from '../../dry/course-schema.ts'
import type { Part } from '../lines.ts'
import type { Recipe } from '../schema.ts'
import { partsIfKnown, stuffedMix, type Missing, type MixInput, type StuffedMix } from './stuffed-mix.ts'

export type DryingPieceOf = {
  /** As it begins to dry: of the casing, or after the cook. */
  readonly diameterMm?: number
  /** As it begins to dry, as far as it is known. */
  readonly composition: StuffedMix['composition']
  /** Empty where the recipe says nothing of drying. */
  readonly target: DryingPiece['target']
  /** Absent where `missing` names something. */
  readonly piece?: DryingPiece
  readonly missing: readonly Missing[]
  readonly notes: readonly string[]
}

/** Share of the stuffed weight that the cook before the drying leaves; all of it where there is none. */
const leftByCook = ({ cook }: Pick<Recipe, 'cook'>): number => 1 - (cook?.lossPct ?? 0) / 100

/** The mix after a cook that took water alone. */
function afterCook(c: StuffedMix['composition'], left: number): StuffedMix['composition'] {
  const lost = 100 * (1 - left)
  return Object.fromEntries(
    Object.entries(c).map(([k, v]) => [k, (k === 'waterPct' ? Math.max(0, v - lost) : v) / left]),
  )
}

/** What a recipe asks of its drying, each as the course takes it. */
const targetOf = (dry: Recipe['dry']): DryingPiece['target'] =>
  dry === undefined
    ? {}
    : {
        ...(dry.lossPct > 0 ? { weightLossPct: dry.lossPct } : {}),
        ...(dry.targetAw === undefined ? {} : { aw: dry.targetAw }),
        ...(dry.targetMoistureToProtein === undefined ? {} : { moistureToProtein: dry.targetMoistureToProtein }),
      }

/**
 * The piece that parts make to be dried: diameter of the casing, composition, targets of the recipe. What is cooked before it dries is taken as
 * it comes from the cook, less the water it lost there. Says what is missing where there is no piece.
 */
export function dryingPieceOf(recipe: Recipe, parts: readonly Part[]): DryingPieceOf {
  const mix = stuffedMix(parts)
  const left = leftByCook(recipe)
  const composition = left === 1 ? mix.composition : afterCook(mix.composition, left)
  // Water weighs about what the mix does: the section shrinks as the weight does.
  const calibre = recipe.casing?.calibreMm
  const diameterMm = calibre === undefined ? undefined : calibre * Math.sqrt(left)
  const found = {
    ...(diameterMm === undefined ? {} : { diameterMm }),
    composition,
    target: targetOf(recipe.dry),
    notes: mix.notes,
  }
  const missing: Missing[] = [
    ...(diameterMm === undefined
      ? [{ because: 'the recipe names no casing, so the diameter is not known', settle: 'the calibre of the casing' }]
      : []),
    ...mix.missing,
  ]
  if (missing.length > 0) return { ...found, missing }
  const read = pieceInput.safeParse({ diameterMm, composition, target: found.target })
  if (read.success) return { ...found, piece: read.data, missing: [] }
  const { path, message } = read.error.issues[0]!
  return {
    ...found,
    missing: [{ because: `${path.join('.')} ${message}`, settle: 'figures within what the model was made for' }],
  }
}

/** The piece a recipe at a size, or the lines weighed for it, makes to be dried. A material or lot that is not known is named as missing. */
export function dryingPieceFrom(input: MixInput): DryingPieceOf {
  const { parts, missing } = partsIfKnown(input)
  return missing.length > 0
    ? { composition: {}, target: targetOf(input.recipe.dry), missing, notes: [] }
    : dryingPieceOf(input.recipe, parts)
}

/** What is missing, in one line. */
export const missingWords = (missing: readonly Missing[]): string => missing.map((m) => m.because).join('; ')
