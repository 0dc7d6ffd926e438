import { findMaterial } from '@forcemeat/craft/materials/materials'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import { lossOf } from '@forcemeat/craft/recipe/measures'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { isKnown, spanOf } from '../measure.ts'
import { asWeighed } from '../recipe/measures.ts'
import type { Measure } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { reworkOf } from './rework-of.ts'
import type { Ancestry } from './slow-facts.ts'
import { weighedLines, withScales, type WeighedLine } from './weights.ts'

export type Span = { readonly low: number; readonly high: number }
export type Amount = Span & { readonly value: number }

/** What each measure is divided by: meat block, everything weighed in, or the finished weight. */
const onMeat = [
  'nitritePpm',
  'nitritePpmIon',
  'nitratePpm',
  'nitratePpmIon',
  'nitriteSaltsPpm',
  'nitrateSaltsPpm',
  'erythorbatePpm',
  'ascorbatePpm',
  'acceleratorSaltsPpm',
  'acceleratorAcidsPpm',
  'gdlPct',
] as const
const onMix = ['binderPct', 'strongBinderPct'] as const
const onFinished = ['phosphatePct', 'phosphateP2O5Ppm', 'phosphateAsDisodiumPct'] as const
/** Measures that count what rework brings. */
export const countedWithRework: readonly string[] = [...onMeat, ...onMix, ...onFinished]

/** A product of which nobody said how much it loses may have lost this much, percent; common practice, no source. */
const MOST_LOSS_PCT = 60

/** A batch as weighed, its additives apart from the rework in it. Amounts are the measures times what they are divided by. */
export type OwnAdditives = {
  readonly batch: string
  /** Meat block, rework left out. */
  readonly meatKg: number
  /** Everything weighed in, rework too. */
  readonly totalKg: number
  readonly finishedKg: number
  readonly rework: readonly { readonly lot: string; readonly kg: number }[]
  readonly amounts: Readonly<Record<string, Amount | undefined>>
  readonly measures: Readonly<Record<string, Measure>>
  readonly basisOf: (name: string) => 'meat' | 'mix' | 'finished'
  /** Meat block by the lines, rework that counts as meat in it. */
  readonly allMeatKg: number
  readonly finishedPctOfMeatBlock?: number
  /** Kilograms weighed in behind one kilogram of it, at most: where it was taken as rework after all its loss. */
  readonly mostFactor: number
  /** By how much a figure of the finished product may lie above the one reckoned here: where nobody said what is lost. */
  readonly mostConcentrated: number
}

const basisOf = (name: string): 'meat' | 'mix' | 'finished' =>
  (onMix as readonly string[]).includes(name)
    ? 'mix'
    : (onFinished as readonly string[]).includes(name)
      ? 'finished'
      : 'meat'

/** Lots of rework weighed in, and planned where a line was not weighed. */
const reworkIn = (lines: readonly WeighedLine[], rework: ReadonlyMap<string, unknown>) =>
  lines.flatMap(({ line, kg, parts }) => {
    const each = parts.length > 0 ? parts.map((p) => ({ lot: p.lot, kg: p.kg })) : [{ lot: line.lot, kg }]
    return each.flatMap((p) =>
      p.lot !== undefined && p.kg > 0 && rework.has(p.lot) ? [{ lot: p.lot, kg: p.kg, material: line.material }] : [],
    )
  })

/** The additives of a batch, from its measures with the error of its scales. */
export function additivesOf(
  batch: string,
  computed: RecipeComputed,
  measured: Readonly<Record<string, Measure>>,
  lines: readonly WeighedLine[],
  facts: BatchFacts,
  recipe: Recipe,
): OwnAdditives {
  const rework = reworkIn(lines, reworkOf({ ...facts, lots: [...facts.lots, ...(facts.ancestry?.lots ?? [])] }))
  const { meatKg: allMeatKg, totalKg, finishedKg } = computed.totals
  const meatIds = new Set(computed.lines.filter((l) => l.role === 'meat').map((l) => l.material))
  const meatKg = allMeatKg - rework.reduce((sum, r) => sum + (meatIds.has(r.material) ? r.kg : 0), 0)
  const salts = {
    nitriteSaltsPpm: asWeighed(measured['nitriteSaltsPpm'], measured['nitritePpm']),
    nitrateSaltsPpm: asWeighed(measured['nitrateSaltsPpm'], measured['nitratePpm']),
  }
  const measures = Object.fromEntries(
    countedWithRework.flatMap((name) => {
      const m = name in salts ? salts[name as keyof typeof salts] : measured[name]
      return m === undefined ? [] : [[name, m] as const]
    }),
  )
  const lossPct = lossOf(recipe) ?? (recipe.kind === 'fresh' ? 0 : MOST_LOSS_PCT)
  const mostFactor = 100 / (100 - lossPct)
  const finished = measured['finishedPctOfMeatBlock']
  const kgOf = { meat: allMeatKg, mix: totalKg, finished: finishedKg ?? totalKg }
  const amounts = Object.fromEntries(
    Object.entries(measures).map(([name, m]) => {
      if (!isKnown(m)) return [name, undefined]
      const { low, high } = spanOf(m)
      const kg = kgOf[basisOf(name)]
      return [name, { value: m.value * kg, low: low * kg, high: high * kg }]
    }),
  )
  return {
    batch,
    meatKg,
    totalKg,
    finishedKg: kgOf.finished,
    rework,
    amounts,
    measures,
    basisOf,
    allMeatKg,
    ...(finished && isKnown(finished) ? { finishedPctOfMeatBlock: finished.value } : {}),
    mostFactor,
    mostConcentrated: finishedKg === undefined ? mostFactor : 1,
  }
}

type Origin = Ancestry['batches'][number]

/** The additives of a batch that rework came out of, or why they are not known. */
export function ownOf(
  origin: Origin,
  made: NonNullable<Origin['made']>,
  facts: BatchFacts,
): OwnAdditives | { readonly unknown: string } {
  const known = [...facts.lots, ...(facts.ancestry?.lots ?? [])]
  const lines = weighedLines({ ...made, lots: known })
  if (lines.reduce((s, l) => s + l.kg, 0) <= 0) return { unknown: 'it weighs nothing' }
  const waiting = lines.filter((l) => l.parts.length === 0 && l.line.targetKg > 0)
  if (waiting.length > 0) return { unknown: `not weighed: ${waiting.map((l) => l.line.material).join(', ')}` }
  const strange = lines.filter((l) => !findMaterial(l.line.material))
  if (strange.length > 0)
    return { unknown: `in no table of materials: ${strange.map((l) => l.line.material).join(', ')}` }
  const { recipeBody, instruments } = made
  if (!lines.some((l) => l.kg > 0 && findMaterial(l.line.material)!.meatBlock)) return { unknown: 'it holds no meat' }
  const computed = computeRecipe({
    recipe: recipeBody,
    meatKg: made.meatKg,
    lines: lines.map((l) => ({ material: l.line.material, kg: l.kg })),
    on: origin.on,
  })
  const whole: BatchFacts = { ...facts, ...made, batch: origin.batch, on: origin.on }
  const measures = withScales(computed.measures, lines, { ...whole, instruments }, findMaterial)
  return additivesOf(origin.batch, computed, measures, lines, facts, recipeBody)
}
