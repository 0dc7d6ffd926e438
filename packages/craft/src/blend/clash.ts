import { assemble, sharesOf, type Assembled, type Problem } from './assemble.ts'
import { solveProgram, type Solved } from './program.ts'
import { smallestClash } from './smallest-clash.ts'

/** Requirements the solver's infeasible subsystem points at. Columns name both their bounds: the filter drops what is not needed. */
function candidates(a: Assembled, clash: NonNullable<Solved['clash']>): Set<number> {
  const owners = [
    ...clash.rows.map((r) => a.rowOwner[r]!),
    ...clash.cones.map((c) => a.coneOwner[c]!),
    ...clash.columns.flatMap((j) => [a.lowerOwner[j] ?? -1, a.upperOwner[j] ?? -1]),
  ]
  return new Set(owners.filter((o) => o >= 0))
}

const impossible = (problem: Problem, held: ReadonlySet<number>): boolean =>
  solveProgram(assemble(problem, { held }).program).status === 'infeasible'

/** Drop whatever can be dropped with the rest still impossible, in halves first so that a long list costs few solves. */
function thin(problem: Problem, start: ReadonlySet<number>): Set<number> {
  const kept = new Set(start)
  for (let size = Math.ceil(kept.size / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    const items = [...kept]
    for (let i = 0; i < items.length; i += size) {
      const chunk = items.slice(i, i + size)
      const rest = new Set([...kept].filter((k) => !chunk.includes(k)))
      if (impossible(problem, rest)) for (const c of chunk) kept.delete(c)
    }
  }
  return kept
}

/**
 * A smallest set of requirements that cannot hold together: found from the solver's subsystem, proved by leaving out each in turn, from both
 * ends of the list, and then held against every smaller set.
 */
export function clashOf(problem: Problem, a: Assembled, solved: Solved): readonly number[] {
  const all = new Set(problem.requirements.keys())
  const named = solved.clash ? candidates(a, solved.clash) : all
  const start = named.size < all.size && impossible(problem, named) ? named : all
  const forward = thin(problem, start)
  if (forward.size <= 1) return [...forward]
  const backward = forward.size === 2 ? forward : thin(problem, new Set([...start].toReversed()))
  const found = [...(backward.size < forward.size ? backward : forward)].toSorted((x, y) => x - y)
  return smallestClash(problem, found)
}

/** Where a requirement would have to stand for the blend to exist. */
export type Move = { readonly requirement: number; readonly to: number }

/** Smallest move taken for one: below it a slack is the solver's rounding. */
const LEAST_MOVE_PCT = 1e-7

function movesOf(problem: Problem, elastic: ReadonlySet<number>): readonly Move[] | undefined {
  const a = assemble(problem, { elastic })
  const solved = solveProgram(a.program)
  if (solved.status !== 'optimal') return undefined
  const totalKg = problem.batches.reduce((s, b) => s + b.kg, 0)
  return [...a.slack].flatMap(([n, column]) => {
    const slack = solved.x[column]!
    if (slack < LEAST_MOVE_PCT) return []
    const r = problem.requirements[n]!
    if (r.side === 'available') return [{ requirement: n, to: r.value + (slack / 100) * totalKg }]
    const ratio = r.pointAt?.(sharesOf(problem, a, solved.x, r.batch!)) ?? 1
    return [{ requirement: n, to: r.side === 'max' ? r.value + slack / ratio : r.value - slack / ratio }]
  })
}

/**
 * What would free an impossible blend: each clashing requirement moved alone, where that is enough, and the set of moves with
 * the fewest points in all. Whole boxes are kept: they are a fact of the lot, not a choice.
 */
export function freeing(
  problem: Problem,
  clash: readonly number[],
): { readonly alone: readonly Move[]; readonly together: readonly Move[] } {
  const movable = (n: number) => {
    const r = problem.requirements[n]!
    return r.side !== 'whole' && r.fixed !== true
  }
  const alone = clash.filter(movable).flatMap((n) => movesOf(problem, new Set([n])) ?? [])
  const together = movesOf(problem, new Set([...problem.requirements.keys()].filter(movable))) ?? []
  return { alone, together }
}
