import { OTHER_PROTEIN_COUNTED_PCT, WATER_PER_PROTEIN } from './measure.ts'
import { confidenceZ, largestZ, type Batch } from './requirement.ts'

/** Largest breach, in points, of a solution the solver calls exact; beyond it the blend is not given. */
export const MOST_BREACH_PCT = 1e-6

type Weighed = { readonly material: Batch['materials'][number]; readonly kg: number }

const sum = (parts: readonly Weighed[], f: (m: Weighed['material']) => number): number =>
  parts.reduce((s, p) => (p.kg === 0 ? s : s + p.kg * f(p.material)), 0)

type Wet = {
  readonly kg: number
  readonly material: {
    readonly composition: { readonly waterPct?: number | undefined; readonly proteinPct?: number | undefined }
    readonly protein?: 'meat' | 'other' | undefined
  }
}

/** Added water of weighed parts, percent; NaN where a part gives no water or protein. @source 9 CFR 318.22(b): AW = W − 4·(P − max(P₂ − 1, 0)). */
export function addedWaterOf(parts: readonly Wet[]): number {
  let [total, water, protein, other] = [0, 0, 0, 0]
  for (const { kg, material: m } of parts) {
    if (kg === 0) continue
    total += kg
    water += kg * (m.composition.waterPct ?? Number.NaN)
    protein += kg * (m.composition.proteinPct ?? Number.NaN)
    if (m.protein === 'other') other += kg * (m.composition.proteinPct ?? Number.NaN)
  }
  const counted = protein / total - Math.max(other / total - OTHER_PROTEIN_COUNTED_PCT, 0)
  return water / total - WATER_PER_PROTEIN * counted
}

/** A limit's measure computed from the weights by its definition, without the solver's rows. */
function measured(of: string, parts: readonly Weighed[], total: number, kgOf: ReadonlyMap<string, number>): number {
  switch (of) {
    case 'fat':
      return sum(parts, (m) => m.composition.fatPct) / total
    case 'protein':
      return sum(parts, (m) => m.composition.proteinPct) / total
    case 'water':
      return sum(parts, (m) => m.composition.waterPct) / total
    case 'collagen':
      return sum(parts, (m) => m.composition.collagenPct!) / total
    case 'salt':
      return sum(parts, (m) => m.composition.saltPct!) / total
    case 'addedWater':
      return addedWaterOf(parts)
    case 'fatPlusAddedWater':
      return sum(parts, (m) => m.composition.fatPct) / total + addedWaterOf(parts)
    case 'collagenInProtein':
      return (100 * sum(parts, (m) => m.composition.collagenPct!)) / sum(parts, (m) => m.composition.proteinPct)
    default:
      return (100 * (kgOf.get(of) ?? 0)) / total
  }
}

/** Largest breach in points of anything asked of one batch, and how far its mass is from its target. */
export function breachOf(
  batch: Batch,
  parts: readonly Weighed[],
): { readonly worstBreachPct: number; readonly massGapKg: number } {
  const total = sum(parts, () => 1)
  const sd =
    largestZ(batch) === 0
      ? 0
      : Math.sqrt(parts.reduce((s, p) => s + ((p.kg / total) * (p.material.fatSdPct ?? 0)) ** 2, 0))
  // What there is of each material and of each species, by name.
  const kgOf = new Map<string, number>()
  const add = (name: string, kg: number) => kgOf.set(name, (kgOf.get(name) ?? 0) + kg)
  for (const { material: m, kg } of parts) {
    if (kg === 0) continue
    add(m.id, kg)
    if (m.species !== undefined && m.species !== m.id) add(m.species, kg)
  }
  let worst = 0
  const take = (breach: number) => {
    // A breach that cannot be computed is the worst there is.
    worst = Number.isNaN(breach) ? Infinity : Math.max(worst, breach)
  }
  for (const limit of batch.limits) {
    // A ratio to no protein at all has nothing to breach.
    if (limit.of === 'collagenInProtein' && sum(parts, (m) => m.composition.proteinPct) === 0) continue
    const value = measured(limit.of, parts, total, kgOf)
    const margin = confidenceZ(limit, batch.confidencePct) * sd
    if (limit.maxPct !== undefined) take(value + margin - limit.maxPct)
    if (limit.minPct !== undefined) take(limit.minPct - (value - margin))
  }
  for (const { material: m, kg } of parts) {
    const share = (100 * kg) / batch.kg
    take(-share)
    if (m.minPct !== undefined) take(m.minPct - share)
    if (m.maxPct !== undefined) take(share - m.maxPct)
    if (m.wholeUnitsKg !== undefined)
      take((100 * Math.abs(kg - Math.round(kg / m.wholeUnitsKg) * m.wholeUnitsKg)) / batch.kg)
  }
  return { worstBreachPct: worst, massGapKg: total - batch.kg }
}
