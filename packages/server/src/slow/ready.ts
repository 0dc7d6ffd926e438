import type { CourseInput, CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { courseInputAt } from '@forcemeat/craft/dry/outlook'
import type { DryView } from './dry-view.ts'

export const DAY_MS = 86_400_000

/** The date a day of the course falls on, UTC. */
export const dateAt = ({ start }: Pick<DryView, 'start'>, day: number): string =>
  new Date(Date.parse(start) + day * DAY_MS).toISOString().slice(0, 10)

/** What `dry.course` is asked of a batch, on every page and paper alike: the air it had and will have, its weighings, and the targets not met as measured. */
export function courseInputOf({ piece, left, planned, log, marked }: DryView): CourseInput | undefined {
  if (!piece || planned.length === 0) return undefined
  return courseInputAt({ ...piece, target: left, planned, log, losses: marked.losses }).input
}

type Dates = { readonly early: string; readonly likely: string; readonly late?: string }

/** The ready day of a course as dates. */
export const datesOf = (
  view: Pick<DryView, 'start'>,
  { early, likely, late }: NonNullable<CourseOutput['readyDay']>,
): Dates => ({
  early: dateAt(view, early),
  likely: dateAt(view, likely),
  ...(late === undefined ? {} : { late: dateAt(view, late) }),
})

/** The day of the last of the figures that met the targets, where every target is met as measured: then nothing is left to foretell. */
export function metOn(view: DryView): string | undefined {
  const { met, left, marked, aws, moistureToProtein } = view
  if (met.length === 0 || Object.keys(left).length > 0) return undefined
  const last = { weightLossPct: marked.losses.at(-1), aw: aws.at(-1), moistureToProtein: moistureToProtein.at(-1) }
  return dateAt(view, Math.max(...met.map((m) => last[m.of]?.day ?? 0)))
}
