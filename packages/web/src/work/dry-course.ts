import { parseOrThrow } from '@forcemeat/craft/calculation'
import { course } from '@forcemeat/craft/dry/course'
import { courseInput, type CourseInput, type CourseOutput } from '@forcemeat/craft/dry/course-schema'
import {
  changedAir,
  courseInputAt,
  forecasts,
  type AirChange,
  type Drying,
  type Forecast,
} from '@forcemeat/craft/dry/outlook'

export type CourseRequest = { readonly drying: Drying; readonly change?: AirChange }

export type CourseResult = {
  readonly course: CourseOutput
  readonly stages: CourseInput['stages']
  readonly changed?: CourseOutput
  readonly loggedTo?: number
  readonly filledDays: number
  readonly clampedDays: number
  readonly ms: number
}

/** The course as things stand, and beside it the course after a change of the air. @throws InvalidInput */
export function courseOf({ drying, change }: CourseRequest): CourseResult {
  const begun = performance.now()
  const { input, air } = courseInputAt(drying)
  const read = parseOrThrow(courseInput, input)
  const stands = course(read)
  const changed = change && course({ ...read, stages: changedAir(read.stages, change) })
  return {
    course: stands,
    stages: read.stages,
    ...(changed ? { changed } : {}),
    ...(air.loggedTo === undefined ? {} : { loggedTo: air.loggedTo }),
    filledDays: air.filledDays,
    clampedDays: air.clampedDays,
    ms: performance.now() - begun,
  }
}

export type ForecastRequest = { readonly drying: Drying; readonly days: readonly number[] }

/** What was foretold after each of some weighings. */
export const forecastsOf = ({ drying, days }: ForecastRequest): Forecast[] => forecasts(drying, days)
