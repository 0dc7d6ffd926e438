import { assemble, type Problem } from './assemble.ts'
import { solveProgram } from './program.ts'

/** Slack that is the solver's rounding, points. */
const HELD_PCT = 1e-7
/** Rounds after which the set known is given as it is. */
const MOST_ROUNDS = 150
/** Beyond this many a set is only held against the smallest ones, of up to `FEW`: the search would take longer than it helps a reader. */
const MOST_IN_SET = 8
const FEW = 2

/** Requirements that a blend which meets `picked` leaves unmet; undefined where no blend meets them. */
function unmet(problem: Problem, picked: ReadonlySet<number>): number[] | undefined {
  const others = [...problem.requirements.keys()].filter((n) => !picked.has(n))
  const boxes = others.filter((n) => problem.requirements[n]!.side === 'whole')
  const elastic = new Set(others.filter((n) => problem.requirements[n]!.side !== 'whole'))
  const a = assemble(problem, { held: new Set([...picked, ...elastic]), elastic })
  const solved = solveProgram(a.program)
  if (solved.status === 'infeasible') return undefined
  if (solved.status !== 'optimal') return []
  return [...boxes, ...[...a.slack].flatMap(([n, column]) => (solved.x[column]! > HELD_PCT ? [n] : []))]
}

/** Tries of the search for a least set, in all. */
const MOST_TRIES = 100_000

type Tries = { left: number }

/** A set of at most `size` with one of each group; undefined where there is none, or the tries are used up. */
function hitting(
  groups: readonly (readonly number[])[],
  size: number,
  tries: Tries,
  picked: readonly number[] = [],
): number[] | undefined {
  if (tries.left-- <= 0) return undefined
  const missed = groups.find((g) => !g.some((n) => picked.includes(n)))
  if (missed === undefined) return [...picked]
  if (picked.length === size) return undefined
  for (const n of missed) {
    const found = hitting(groups, size, tries, [...picked, n])
    if (found) return found
  }
  return undefined
}

function leastHitting(groups: readonly (readonly number[])[], most: number, tries: Tries): number[] | undefined {
  for (let size = 0; size <= most; size++) {
    const found = hitting(groups, size, tries)
    if (found) return found
  }
  return undefined
}

/**
 * A smallest set of requirements that cannot hold together, from one that is known. Any such set has to take one of what each
 * possible blend leaves unmet; the least set that does so is either impossible itself, and then the smallest there is, or met by a blend that
 * leaves something else unmet.
 */
export function smallestClash(problem: Problem, known: readonly number[]): readonly number[] {
  if (known.length <= 1) return known
  const most = known.length > MOST_IN_SET ? FEW : known.length - 1
  const groups: number[][] = []
  const tries = { left: MOST_TRIES }
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const picked = leastHitting(groups, most, tries)
    if (picked === undefined) return known
    const left = unmet(problem, new Set(picked))
    if (left === undefined) return picked.toSorted((x, y) => x - y)
    if (left.length === 0) return known
    groups.push(left)
  }
  return known
}
