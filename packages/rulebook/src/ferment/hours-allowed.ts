import type { Source } from '@forcemeat/craft/source'
import { degreeHourSystems } from '../../data/ferment/degree-hours.ts'

export type PlannedStage = { readonly hours: number; readonly tempC: number }

/** What a published system of degree-hours leaves a planned fermentation. */
export type HoursAllowed = {
  readonly jurisdiction: string
  /** The rule that judges the batch's own log. */
  readonly rule: string
  readonly highestC: number
  readonly baseC: number
  readonly limit: number
  /** Of `limit` and `planned`. */
  readonly unit: string
  /** Whether the limit itself is still allowed. */
  readonly limitIncluded: boolean
  /** Hours at the highest planned temperature; missing where that does not count at all. */
  readonly hoursAtHighest?: number
  /** Degree-hours of all planned stages. */
  readonly planned: number
  /** Hour of the plan at which the limit is used up; missing where the plan ends before. */
  readonly usedUpAtHour?: number
  readonly source: Source
}

/**
 * Hours a planned fermentation has before its degree-hours are used up, by each published system, its class taken by the highest temperature
 * of the whole plan. Nothing where no stage is planned.
 */
export function hoursAllowed(stages: readonly PlannedStage[]): HoursAllowed[] {
  if (stages.length === 0) return []
  const highestC = Math.max(...stages.map((s) => s.tempC))
  return degreeHourSystems.map((system) => {
    const own = (c: number): number => Number((system.celsius ? c : c * 1.8 + 32).toFixed(9))
    const highest = own(highestC)
    const band = system.classes.find((k) => highest < k.upTo || (k.edgeIncluded && highest <= k.upTo))!
    const rate = (c: number): number => Math.max(0, own(c) - system.base)
    let [used, at] = [0, 0]
    let usedUpAtHour: number | undefined
    for (const { hours, tempC } of stages) {
      const more = rate(tempC) * hours
      if (usedUpAtHour === undefined && used + more > band.limit) usedUpAtHour = at + (band.limit - used) / rate(tempC)
      used += more
      at += hours
    }
    return {
      jurisdiction: system.rule.jurisdiction,
      rule: system.rule.id,
      highestC,
      baseC: system.celsius ? system.base : (system.base - 32) / 1.8,
      limit: band.limit,
      unit: system.rule.unit,
      limitIncluded: system.limitIncluded,
      ...(rate(highestC) > 0 ? { hoursAtHighest: band.limit / rate(highestC) } : {}),
      planned: used,
      ...(usedUpAtHour === undefined ? {} : { usedUpAtHour }),
      source: band.source,
    }
  })
}
