import type { CourseInput } from './course-schema.ts'
import { productOf } from './product.ts'
import { readyDay, type Fit, type Ready } from './ready.ts'

const SAME_PCT = 1e-9

/** When a loss was met, as the weighings show it: after the one day and by the other. */
export type MetBetween = { readonly afterDay: number; readonly byDay: number; readonly lossPct: number }

/** The loss at which every target that is a loss of water is met, percent; moisture to protein is one in other words. */
function lossWanted({ composition, target }: Pick<CourseInput, 'composition' | 'target'>): number | undefined {
  const wanted = [
    ...(target.weightLossPct === undefined ? [] : [target.weightLossPct]),
    ...(target.moistureToProtein === undefined
      ? []
      : [composition.waterPct - target.moistureToProtein * composition.proteinPct]),
  ]
  return wanted.length === 0 ? undefined : Math.max(...wanted)
}

/** Between which weighings the loss wanted was met; undefined where none has met it, or no loss is wanted. */
export function metBetween(input: Pick<CourseInput, 'composition' | 'target' | 'weighings'>): MetBetween | undefined {
  const { weighings = [] } = input
  const wanted = lossWanted(input)
  if (wanted === undefined) return undefined
  const at = weighings.findIndex((w) => w.weightLossPct >= wanted - SAME_PCT)
  if (at < 0) return undefined
  return { afterDay: weighings[at - 1]?.day ?? 0, byDay: weighings[at]!.day, lossPct: wanted }
}

/** The likely day by a straight line between the two weighings. */
function straight(
  { weighings = [] }: Pick<CourseInput, 'weighings'>,
  { afterDay, byDay, lossPct }: MetBetween,
): number {
  const at = weighings.findIndex((w) => w.day === byDay)
  const [from, to] = [weighings[at - 1]?.weightLossPct ?? 0, weighings[at]!.weightLossPct]
  const share = to > from ? (lossPct - from) / (to - from) : 1
  return afterDay + Math.max(0, Math.min(1, share)) * (byDay - afterDay)
}

/**
 * Ready day where a weighing has met the loss wanted: what was weighed stands whatever the course computes, so the loss was met between two
 * weighings, and only a water activity wanted beside it is still foretold.
 */
export function readyByWeighing(
  input: CourseInput,
  fit: Fit,
  foretold: Ready | undefined,
  met: MetBetween,
): Ready | undefined {
  const { stages, target, weighings } = input
  const within = (day: number): number => Math.max(met.afterDay, Math.min(met.byDay, day))
  const likelyLoss = straight(input, met)
  // Without a water activity the course foretells the loss alone, and says where between the weighings it lies.
  const course = target.aw === undefined ? foretold : undefined
  const loss = {
    early: within(course?.early ?? met.afterDay),
    likely: within(course?.likely ?? likelyLoss),
    late: within(course?.late ?? met.byDay),
  }
  if (target.aw === undefined) return loss
  const product = productOf({ ...input, target: { aw: target.aw } })
  const aw = readyDay({ product, stages }, fit, weighings?.at(-1)?.day ?? 0)
  if (aw === undefined) return undefined
  return {
    early: Math.max(loss.early, aw.early),
    likely: Math.max(loss.likely, aw.likely),
    ...(aw.late === undefined ? {} : { late: Math.max(loss.late, aw.late) }),
  }
}
