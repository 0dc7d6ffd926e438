import type { DryingPiece } from './course-schema.ts'

type Target = DryingPiece['target']

/** The last measured figures of a drying product; loss as the mean of its marked pieces. */
export type MeasuredEnd = {
  readonly weightLossPct?: number
  readonly aw?: number
  readonly moistureToProtein?: number
}

export type TargetMet = { readonly of: keyof MeasuredEnd; readonly target: number; readonly measured: number }

/** Whether a figure is on the far side of its target. */
const reached = {
  weightLossPct: (x: number, target: number) => x >= target,
  aw: (x: number, target: number) => x <= target,
  moistureToProtein: (x: number, target: number) => x <= target,
} as const

/**
 * Targets that no measured figure has met yet, and those one has: what was measured stands whatever the course computes, so only the first are
 * left to be forecast. Whether the instrument may be believed is judged elsewhere.
 */
export function targetsLeft(target: Target, measured: MeasuredEnd): { left: Target; met: TargetMet[] } {
  const met: TargetMet[] = []
  const left: Record<string, number> = {}
  for (const of of Object.keys(reached) as (keyof MeasuredEnd)[]) {
    const [aim, x] = [target[of], measured[of]]
    if (aim === undefined) continue
    if (x !== undefined && reached[of](x, aim)) met.push({ of, target: aim, measured: x })
    else left[of] = aim
  }
  return { left, met }
}
