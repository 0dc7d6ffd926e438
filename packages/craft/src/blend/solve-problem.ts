import { assemble, type Assembled, type Problem } from './assemble.ts'
import { addedWaterOf, breachOf, MOST_BREACH_PCT } from './check.ts'
import { clashOf, freeing } from './clash.ts'
import { compositionOf, fatSdOf } from './composition-of.ts'
import { pricesOf } from './price.ts'
import { solveProgram, type Solved } from './program.ts'
import { largestZ, type Batch } from './requirement.ts'
import type { BlendMaterial } from './schema.ts'
import { told, toldMoves } from './wording.ts'

type Weighed = { readonly material: BlendMaterial; readonly kg: number }

/** Shares below this are the solver's rounding of nothing. */
const NOTHING = 1e-11

function weigh(problem: Problem, a: Assembled, solved: Solved): Weighed[][] {
  const parts: Weighed[][] = problem.batches.map(() => [])
  a.columns.forEach((c, j) => {
    const b = problem.batches[c.batch]!
    const material = b.materials[c.material]!
    const x = Math.abs(solved.x[j]!) < NOTHING ? 0 : solved.x[j]!
    const kg = a.program.integer[j] ? Math.round(x) * material.wholeUnitsKg! : x * c.shareOfOne * b.kg
    parts[c.batch]!.push({ material, kg })
  })
  return parts
}

/** What one batch came out as, from its weights. */
function describe(batch: Batch, parts: readonly Weighed[]) {
  const total = parts.reduce((s, p) => s + p.kg, 0)
  const present = parts
    .filter((p) => p.kg > 0)
    .map(({ material: m, kg }) => ({ id: m.id, kg, composition: m.composition, fatSdPct: m.fatSdPct }))
  const { composition, unknown } = compositionOf(present)
  const sd = fatSdOf(present)
  return {
    lines: parts.map(({ material, kg }) => ({
      id: material.id,
      kg,
      pct: (100 * kg) / total,
      ...(material.wholeUnitsKg === undefined ? {} : { units: Math.round(kg / material.wholeUnitsKg) }),
    })),
    totalKg: total,
    costPerKg: parts.reduce((s, p) => s + p.kg * p.material.costPerKg, 0) / total,
    composition,
    addedWaterPct: addedWaterOf(parts),
    ...(sd === undefined ? {} : { fatSdPct: sd }),
    ...(unknown.length === 0 ? {} : { unknown }),
    batch,
  }
}

function checkedOf(problem: Problem, parts: readonly Weighed[][], solved: Solved) {
  const each = problem.batches.map((b, k) => breachOf(b, parts[k]!))
  const totalKg = problem.batches.reduce((s, b) => s + b.kg, 0)
  let worst = Math.max(...each.map((e) => e.worstBreachPct))
  const outOfMass = each.map((e, k) =>
    Math.max(0, 100 * (Math.abs(e.massGapKg) / problem.batches[k]!.kg - problem.tolerance)),
  )
  worst = Math.max(worst, ...outOfMass)
  const used = new Map<string, number>()
  for (const p of parts.flat()) used.set(p.material.id, (used.get(p.material.id) ?? 0) + p.kg)
  for (const r of problem.requirements)
    if (r.side === 'available') worst = Math.max(worst, (100 * ((used.get(r.of) ?? 0) - r.value)) / totalKg)
  const massGapKg = each.reduce((m, e) => (Math.abs(e.massGapKg) > Math.abs(m) ? e.massGapKg : m), 0)
  return {
    worstBreachPct: Math.max(0, worst),
    massGapKg,
    ...(solved.dualGap === undefined ? {} : { dualGapPerKg: solved.dualGap }),
  }
}

/** Solve a problem whole: weights, prices, the check of every limit; or what clashes and what would free it. */
export function solveProblem(problem: Problem) {
  const a = assemble(problem)
  const solved = solveProgram(a.program)
  if (solved.status === 'infeasible') {
    const again = solveProgram(a.program, { findClash: true })
    const clash = clashOf(problem, a, again)
    const conflict = clash.map((n) => told(problem, n))
    return {
      status: 'infeasible' as const,
      because: `no blend meets all of: ${conflict.map((c) => c.text).join('; ')}`,
      conflict,
      relax: toldMoves(problem, freeing(problem, clash)),
    }
  }
  if (solved.status === 'unsolved')
    return {
      status: 'unsolved' as const,
      because:
        'the search ended without an answer that could be proved; try fewer whole-box materials, or a batch tolerance',
    }
  const parts = weigh(problem, a, solved)
  const checked = checkedOf(problem, parts, solved)
  if (!(checked.worstBreachPct <= MOST_BREACH_PCT))
    return {
      status: 'unsolved' as const,
      because: `the solver's blend breaks a limit by ${checked.worstBreachPct} points when computed again from its weights`,
      checked,
    }
  const totalKg = problem.batches.reduce((s, b) => s + b.kg, 0)
  const extraCost = solved.plainCost === undefined ? 0 : Math.max(0, solved.cost - solved.plainCost)
  const batches = problem.batches.map((batch, k) => {
    const d = describe(batch, parts[k]!)
    const z = largestZ(batch)
    const held = batch.confidencePct !== undefined && batch.limits.some((l) => l.of === 'fat')
    const confidence = {
      probabilityPct: batch.confidencePct ?? 0,
      z,
      marginPct: z * (d.fatSdPct ?? 0),
      costPerKg: (extraCost * totalKg) / batch.kg,
    }
    return held ? { ...d, confidence } : d
  })
  return {
    status: 'optimal' as const,
    because:
      solved.dualGap === undefined
        ? 'the cheapest blend in whole boxes that meets every limit'
        : 'the cheapest blend that meets every limit',
    batches,
    checked,
    prices: pricesOf(problem, a, solved),
    totalCost: batches.reduce((s, b) => s + b.costPerKg * b.totalKg, 0),
  }
}
