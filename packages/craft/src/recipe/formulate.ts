import { stated } from '../blend/composition-of.ts'
import { checkLimits, halvesOf, pointOf, type Batch, type Half, type Requirement } from '../blend/requirement.ts'
import type { BlendLimit, BlendMaterial } from '../blend/schema.ts'
import { solveProblem } from '../blend/solve-problem.ts'
import { InvalidInput, type Fault } from '../calculation.ts'
import { computeRecipe } from './compute.ts'
import type { FormulateInput, Formulated } from './formulate-schema.ts'
import { isOtherProtein } from './identity.ts'
import { partsOf, type Part } from './lines.ts'
import { lossOf } from './measures.ts'
import type { Recipe } from './schema.ts'

type Share = { readonly part: Part; readonly pct: number; readonly minPct: number; readonly maxPct: number }

/** Target on the meat block itself, percent of the raw mix. */
const MEAT = 'meat'
/** How far inside a target the recipe is sought, points: more than the rounding of its shares can move it. */
const INSIDE_PCT = 1e-7
/** Most a share or target may be off when computed again from the recipe, points. */
const MOST_GAP_PCT = 1e-5

/** Every material of the recipe, and those it may take besides, with the share it may have. @throws InvalidInput naming what is missing */
function sharesOf(input: FormulateInput): Share[] {
  const { recipe, allow } = input
  const inRecipe = new Set([...recipe.meat, ...recipe.additions].map((s) => s.material))
  const added = allow.filter((a) => !inRecipe.has(a.material)).map((a) => ({ material: a.material, pct: 0 }))
  // New materials are looked up among the additions; the table says which of them is meat.
  const { parts } = partsOf({ ...input, recipe: { ...recipe, additions: [...recipe.additions, ...added] } })
  const faults: Fault[] = []
  const seen = new Set<string>()
  const shares = parts.map((p): Share => {
    const id = p.material.id
    if (seen.has(id)) faults.push({ path: 'recipe', message: `holds ${id} twice; allowed: each material in one place` })
    seen.add(id)
    const pct = (100 * p.kg) / input.meatKg
    const rule = allow.find((a) => a.material === id)
    const role = inRecipe.has(id) ? p.role : p.material.meatBlock ? 'meat' : 'addition'
    if (p.costPerKg === undefined)
      faults.push({
        path: 'prices',
        message: `hold none for ${id}; the cheapest recipe needs one of every material (0 where it is free)`,
      })
    return {
      part: { ...p, role },
      pct,
      minPct: rule ? (rule.minPct ?? 0) : pct,
      maxPct: rule ? (rule.maxPct ?? 1000) : pct,
    }
  })
  if (faults.length > 0) throw new InvalidInput(faults)
  return shares
}

/** A part as the blend takes it. Figures no target needs may be blank; those one needs are checked by `checkLimits`. */
function materialOf({ part: p }: Share): BlendMaterial {
  const known = Object.fromEntries(
    (['waterPct', 'proteinPct', 'fatPct', 'collagenPct', 'saltPct'] as const).flatMap((c) => {
      const v = stated(p.composition, c)
      return v === undefined ? [] : [[c, v]]
    }),
  )
  return {
    id: p.material.id,
    composition: known as BlendMaterial['composition'],
    costPerKg: p.costPerKg!,
    ...(p.fatSdPct === undefined ? {} : { fatSdPct: p.fatSdPct }),
    ...(p.material.species === undefined ? {} : { species: p.material.species }),
    ...(isOtherProtein(p) ? { protein: 'other' as const } : {}),
  }
}

/**
 * A target a hair inside itself, so that the recipe written down with rounded shares still holds it. One that leaves no room stays.
 */
function inward(t: BlendLimit): BlendLimit {
  if (t.minPct !== undefined && t.maxPct !== undefined && t.maxPct - t.minPct < 4 * INSIDE_PCT) return t
  return {
    of: t.of,
    ...(t.minPct === undefined ? {} : { minPct: t.minPct + INSIDE_PCT }),
    ...(t.maxPct === undefined ? {} : { maxPct: t.maxPct - INSIDE_PCT }),
  }
}

/** A limit on the finished product as a limit on the raw mix, what is lost being water alone. */
function raw(target: BlendLimit, keep: number): BlendLimit {
  const limit = inward(target)
  if (limit.of === 'collagenInProtein') return limit
  const lost = ['water', 'addedWater', 'fatPlusAddedWater'].includes(limit.of) ? 100 * (1 - keep) : 0
  return {
    of: limit.of,
    ...(limit.minPct === undefined ? {} : { minPct: limit.minPct * keep + lost }),
    ...(limit.maxPct === undefined ? {} : { maxPct: limit.maxPct * keep + lost }),
  }
}

/** Meat as percent of the raw mix. */
function meatRequirements(target: BlendLimit, shares: readonly Share[]): Requirement[] {
  const held = inward(target)
  const asked = (side: 'min' | 'max', value: number | undefined): Requirement[] => {
    const bound = side === 'max' ? held.maxPct : held.minPct
    if (value === undefined || bound === undefined) return []
    const sign = side === 'max' ? 1 : -1
    const half: Half = {
      coefficients: shares.map((s) => (s.part.role === 'meat' ? sign * 100 : 0)),
      bound: sign * bound,
      sign,
    }
    return [{ of: MEAT, side, value, unit: '%', batch: 0, basis: 'raw mix', halves: [half] }]
  }
  return [...asked('min', target.minPct), ...asked('max', target.maxPct)]
}

function targetsOf(targets: readonly BlendLimit[], batch: Batch, keep: number, loses: boolean): Requirement[] {
  return targets.flatMap((t) =>
    (['min', 'max'] as const).flatMap((side): Requirement[] => {
      const value = side === 'min' ? t.minPct : t.maxPct
      if (value === undefined) return []
      const point = pointOf(t.of, batch).pointAt ?? (() => keep)
      const basis = loses && t.of !== 'collagenInProtein' ? { basis: 'finished product' } : {}
      return [
        {
          of: t.of,
          side,
          value,
          unit: '%',
          batch: 0,
          halves: halvesOf(raw(t, keep), side, batch, false),
          ...basis,
          pointAt: point,
        },
      ]
    }),
  )
}

/** Shares of the meat block a material must keep within: 100·x − pct·Σ meat ≤ 0, and the other way round. */
function recipeRequirements(shares: readonly Share[], allowed: ReadonlySet<string>): Requirement[] {
  return shares.flatMap((s, i) => {
    const half = (pct: number, sign: 1 | -1): Half => ({
      coefficients: shares.map((o, k) => sign * ((k === i ? 100 : 0) - (o.part.role === 'meat' ? pct : 0))),
      bound: 0,
      sign,
    })
    const meat = (x: readonly number[]) => shares.reduce((sum, o, k) => (o.part.role === 'meat' ? sum + x[k]! : sum), 0)
    const asked = (side: 'min' | 'max', value: number): Requirement => ({
      of: s.part.material.id,
      side,
      value,
      unit: '%',
      batch: 0,
      basis: 'meat block',
      halves: [half(value, side === 'max' ? 1 : -1)],
      pointAt: meat,
      ...(allowed.has(s.part.material.id) ? {} : { fixed: true }),
    })
    return [...(s.minPct > 0 ? [asked('min', s.minPct)] : []), ...(s.maxPct < 1000 ? [asked('max', s.maxPct)] : [])]
  })
}

const costRequirement = (max: number, materials: readonly BlendMaterial[]): Requirement => ({
  of: 'cost',
  side: 'max',
  value: max,
  unit: 'money per kg',
  batch: 0,
  halves: [{ coefficients: materials.map((m) => m.costPerKg), bound: max - INSIDE_PCT, sign: 1 }],
})

/** Shares rounded to eight decimals, which no scale sees; what rounding leaves over goes to the largest meat part. */
function recipeWith(recipe: Recipe, shares: readonly Share[], pctOf: ReadonlyMap<string, number>): Recipe {
  const round = (x: number) => Number(x.toFixed(8))
  const listed = (role: Part['role'], old: Recipe['meat'] | Recipe['additions']) =>
    shares
      .filter((s) => s.part.role === role)
      .flatMap((s) => {
        const id = s.part.material.id
        const before = old.find((o) => o.material === id)
        const pct = round(pctOf.get(id)!)
        return before || pct > 0 ? [{ ...before, material: id, pct }] : []
      })
  const meat = listed('meat', recipe.meat)
  const largest = meat.reduce((a, b) => (b.pct > a.pct ? b : a))
  const rest = 100 - meat.reduce((s, m) => s + m.pct, 0)
  return {
    ...recipe,
    meat: meat.map((m) => (m === largest ? { ...m, pct: round(m.pct + rest) } : m)),
    additions: listed('addition', recipe.additions),
  }
}

/**
 * The cheapest recipe whose finished product meets the targets, changing only what is allowed to change; or which targets and which fixed
 * shares clash, and how far a target would have to move.
 *
 * @throws InvalidInput where a material is not known, has no price, or lacks a figure a target needs
 */
export function formulateRecipe(input: FormulateInput): Formulated {
  const { recipe, targets, allow, confidencePct, maxCostPerKg } = input
  const shares = sharesOf(input)
  const materials = shares.map(materialOf)
  const loss = lossOf(recipe) ?? 0
  const keep = 1 - loss / 100
  if (keep <= 0)
    throw new InvalidInput([
      { path: 'recipe', message: 'loses everything in cooking and drying; allowed: a loss that leaves something' },
    ])
  const limits = targets.filter((t) => t.of !== MEAT).map((t) => raw(t, keep))
  const batch: Batch = { id: undefined, kg: 1, materials, limits, confidencePct, path: 'targets' }
  checkLimits(batch, materials)
  const requirements = [
    ...targetsOf(
      targets.filter((t) => t.of !== MEAT),
      batch,
      keep,
      loss > 0,
    ),
    ...targets.filter((t) => t.of === MEAT).flatMap((t) => meatRequirements(t, shares)),
    ...(maxCostPerKg === undefined ? [] : [costRequirement(maxCostPerKg, materials)]),
    ...recipeRequirements(shares, new Set(allow.map((a) => a.material))),
  ]
  const solved = solveProblem({ batches: [batch], requirements, tolerance: 0 })
  if (solved.status !== 'optimal') return { ...solved, changes: [], prices: [] }
  const lines = solved.batches[0]!.lines
  const meatKg = shares.reduce((s, o, k) => (o.part.role === 'meat' ? s + lines[k]!.kg : s), 0)
  const pctOf = new Map(lines.map((l) => [l.id, (100 * l.kg) / meatKg]))
  const meatPct = (100 * meatKg) / lines.reduce((s, l) => s + l.kg, 0)
  const off = Math.max(
    ...shares.map((s) =>
      Math.max(s.minPct - pctOf.get(s.part.material.id)!, pctOf.get(s.part.material.id)! - s.maxPct),
    ),
    ...targets
      .filter((t) => t.of === MEAT)
      .map((t) => Math.max((t.minPct ?? 0) - meatPct, meatPct - (t.maxPct ?? 100))),
  )
  if (off > MOST_GAP_PCT)
    return {
      status: 'unsolved',
      because: `the recipe found is ${off} points off when computed again`,
      changes: [],
      prices: [],
    }
  const made = recipeWith(recipe, shares, pctOf)
  const { targets: _t, allow: _a, confidencePct: _c, maxCostPerKg: _m, ...rest } = input
  return {
    status: 'optimal',
    because: 'the cheapest recipe that meets every target with the changes allowed',
    recipe: made,
    changes: shares.flatMap((s) => {
      const afterPct = pctOf.get(s.part.material.id)!
      return Math.abs(afterPct - s.pct) > 1e-6 ? [{ material: s.part.material.id, beforePct: s.pct, afterPct }] : []
    }),
    computed: computeRecipe({ ...rest, recipe: made }),
    costPerKg: solved.batches[0]!.costPerKg,
    prices: solved.prices,
    checked: solved.checked,
  }
}
