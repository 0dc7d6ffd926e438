import type { CourseOutput, DryingPiece } from '@forcemeat/craft/dry/course-schema'
import { number, percent } from '../../ui/figures.ts'

type Target = DryingPiece['target']
export type Reached = { readonly name: string; readonly words: string; readonly day: number | undefined }

/** The day the likely course first has each target, the last of them last: that one decides the date. */
export function reached({ series }: Pick<CourseOutput, 'series'>, target: Target): readonly Reached[] {
  const first = (met: (r: CourseOutput['series'][number]) => boolean): number | undefined => series.find(met)?.day
  const { weightLossPct: loss, aw, moistureToProtein: ratio } = target
  const all: Reached[] = [
    ...(loss === undefined
      ? []
      : [{ name: 'weight loss', words: `${percent(loss)} weight loss`, day: first((r) => r.weightLossPct >= loss) }]),
    ...(aw === undefined
      ? []
      : [{ name: 'water activity', words: `water activity ${number(aw, 3)}`, day: first((r) => r.aw <= aw) }]),
    ...(ratio === undefined
      ? []
      : [
          {
            name: 'moisture to protein',
            words: `moisture to protein ${number(ratio, 3)}`,
            day: first((r) => r.moistureToProtein <= ratio),
          },
        ]),
  ]
  return all.toSorted((a, b) => (a.day ?? Infinity) - (b.day ?? Infinity))
}

/** The target that is met last, where there are several. */
export const deciding = (course: Pick<CourseOutput, 'series'>, target: Target): Reached | undefined => {
  const all = reached(course, target)
  return all.length > 1 ? all.at(-1) : undefined
}

/** Which target the date waits for, in a sentence; nothing where there is only one. */
export function decidingWords(course: Pick<CourseOutput, 'series'>, target: Target): string | undefined {
  const all = reached(course, target)
  const last = all.at(-1)
  if (all.length < 2 || !last) return undefined
  const before = all
    .slice(0, -1)
    .map((r) => (r.day === undefined ? `${r.words} is not reached` : `${r.words} by day ${number(r.day, 3)}`))
    .join(', ')
  return `The date waits for ${last.words}; ${before}.`
}
