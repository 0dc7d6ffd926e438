import { InvalidInput } from '../calculation.ts'
import { compositionSchema } from '../composition.ts'
import type { DryingPiece, DryingStage } from '../dry/course-schema.ts'
import { computeRecipe } from '../recipe/compute.ts'
import type { RecipeComputed, RecipeComputeInput } from '../recipe/compute-schema.ts'
import type { Recipe } from '../recipe/schema.ts'

/** Parts whose composition nobody knows may make up this share of the mix and be left out of a forecast: cultures, traces. An assumption. */
const MOST_UNKNOWN_PCT = 1
/** What tables may add up to over 100 % before nobody believes them. An assumption. */
const MOST_OVER_PCT = 2
/** Humidity of a fermenting room whose recipe says none; common practice, no source. */
const USUAL_FERMENT_RH_PCT = 90

export type PieceOf =
  | { readonly piece: DryingPiece; readonly mixKg: number; readonly notes: readonly string[] }
  | { readonly missing: string; readonly mixKg?: number }

type Mix = Pick<RecipeComputeInput, 'recipe' | 'meatKg' | 'lots' | 'lines'>

/** The piece a recipe, or the lines weighed for it, makes to be dried: diameter, composition as stuffed, targets. Says what is missing where there is none. */
export function dryingPieceOf(input: Mix): PieceOf {
  const { recipe } = input
  let computed: RecipeComputed
  try {
    computed = knownMix(input)
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return { missing: error.faults.map((f) => `${f.path} ${f.message}`).join('; ') }
  }
  const mixKg = computed.totals.totalKg
  const diameterMm = recipe.casing?.calibreMm
  if (diameterMm === undefined) return { missing: 'the recipe names no casing, so the diameter is not known', mixKg }
  const { dry } = recipe
  if (!dry) return { missing: 'the recipe says nothing of drying', mixKg }
  const {
    waterPct,
    proteinPct,
    fatPct,
    carbohydratePct,
    saltPct = computed.cure.addedSaltPctOfTotal,
  } = computed.composition
  const read = compositionSchema.safeParse({
    waterPct,
    proteinPct,
    fatPct,
    ...(carbohydratePct === undefined ? {} : { carbohydratePct }),
    saltPct,
  })
  if (!read.success) {
    const of = new Set(
      computed.unknown
        .filter((u) => ['waterPct', 'proteinPct', 'fatPct'].includes(u.component))
        .flatMap((u) => u.materials),
    )
    return { missing: `the composition of ${[...of].join(', ') || 'the mix'} is not known`, mixKg }
  }
  const left = input.recipe.meat.length + input.recipe.additions.length - computed.lines.length
  return {
    piece: { diameterMm, composition: read.data, target: targetOf(dry) },
    mixKg,
    notes: left > 0 && !input.lines ? ['parts of unknown composition are left out of the forecast'] : [],
  }
}

const targetOf = (dry: NonNullable<Recipe['dry']>): DryingPiece['target'] => ({
  ...(dry.lossPct > 0 ? { weightLossPct: dry.lossPct } : {}),
  ...(dry.targetAw === undefined ? {} : { aw: dry.targetAw }),
  ...(dry.targetMoistureToProtein === undefined ? {} : { moistureToProtein: dry.targetMoistureToProtein }),
})

/** A mix as a forecast takes it: without the small parts, such as cultures, whose water, protein or fat nobody knows. @throws InvalidInput */
export function knownMix(input: Mix): RecipeComputed {
  const computed = withoutUnknown(input, computeRecipe(input))
  return { ...computed, composition: withinHundred(computed.composition) }
}

type Shares = RecipeComputed['composition']

/** Components of a food table are means of their own and may add up to a little over 100 %; then all are made smaller alike. */
function withinHundred(c: Shares): Shares {
  const { waterPct = 0, proteinPct = 0, fatPct = 0, carbohydratePct = 0, ashPct = 0, saltPct = 0 } = c
  const sum = waterPct + proteinPct + fatPct + carbohydratePct + Math.max(ashPct, saltPct)
  if (sum <= 100 || sum > 100 + MOST_OVER_PCT) return c
  return Object.fromEntries(Object.entries(c).flatMap(([k, v]) => (v === undefined ? [] : [[k, (v * 100) / sum]])))
}

function withoutUnknown(input: Mix, computed: RecipeComputed): RecipeComputed {
  const needed = ['waterPct', 'proteinPct', 'fatPct']
  const unknown = new Set(computed.unknown.filter((u) => needed.includes(u.component)).flatMap((u) => u.materials))
  const share = computed.lines.reduce((s, l) => (unknown.has(l.material) ? s + l.pctOfTotal : s), 0)
  if (unknown.size === 0 || share > MOST_UNKNOWN_PCT) return computed
  const lines = computed.lines
    .filter((l) => !unknown.has(l.material))
    .map((l) => ({ material: l.material, kg: l.kg, ...(l.lot === undefined ? {} : { lot: l.lot }) }))
  return lines.length === 0 ? computed : computeRecipe({ ...input, lines })
}

/** Days a recipe ferments before it dries; 0 where it says nothing of it. */
export const fermentDays = ({ ferment }: Recipe): number =>
  (ferment?.stages ?? []).reduce((s, x) => s + x.hours, 0) / 24

/** The air a recipe plans from stuffing on: fermentation, then drying. Empty where it plans none. */
export function plannedStages({ ferment, dry }: Recipe): DryingStage[] {
  return [
    ...(ferment?.stages ?? []).flatMap((s): DryingStage[] =>
      s.tempC > 45 ? [] : [{ days: s.hours / 24, tempC: s.tempC, rhPct: s.rhPct ?? USUAL_FERMENT_RH_PCT }],
    ),
    ...(dry?.stages ?? []),
  ]
}

/** Spans shorter than this say nothing of drying, days. */
const SHORTEST = 0.01

/** The part of some stages up to a day; the last one goes on where they end before. */
export function upTo(stages: readonly DryingStage[], day: number): DryingStage[] {
  let from = 0
  const cut = stages.flatMap((s) => {
    const days = Math.min(s.days, day - from)
    from += s.days
    return days > SHORTEST ? [{ ...s, days }] : []
  })
  const last = cut.at(-1)
  if (last && from < day - SHORTEST) cut[cut.length - 1] = { ...last, days: last.days + day - from }
  return cut
}
