import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import type { Fault } from '@forcemeat/craft/calculation'
import type { AirChange, Drying, Forecast } from '@forcemeat/craft/dry/outlook'
import { dryLine } from '../../work/dry-client.ts'
import type { CourseResult } from '../../work/dry-course.ts'
import { TaskRefused } from '../../work/line.ts'

/** Weighings whose forecast is made anew; each takes a fit of its own. */
const MOST_FORECASTS = 12

/** The course of a drying, reckoned off the page's thread; while a newer one is reckoned the older stays in sight. */
export function useCourse(drying: Drying | undefined, change: AirChange | undefined) {
  const state = useMemo(
    () => ({
      result: signal<CourseResult | undefined>(undefined),
      busy: signal(false),
      faults: signal<readonly Fault[]>([]),
    }),
    [],
  )
  const line = useMemo(() => dryLine('course'), [])
  useEffect(() => line.stop, [])
  useEffect(() => {
    if (!drying) {
      state.busy.value = false
      return
    }
    state.busy.value = true
    line.ask(change ? { drying, change } : { drying }).then(
      (result) => {
        state.result.value = result
        state.faults.value = []
        state.busy.value = false
      },
      (error: unknown) => {
        state.busy.value = false
        if (error instanceof TaskRefused) state.faults.value = error.faults
      },
    )
  }, [drying, change])
  return state
}

/** What was foretold after each weighing, the latest dozen; comes in one after the other. */
export function useForecasts(drying: Drying | undefined) {
  const found = useMemo(() => signal<readonly Forecast[]>([]), [])
  const line = useMemo(() => dryLine('forecasts'), [])
  useEffect(() => line.stop, [])
  useEffect(() => {
    let stale = false
    const days = (drying?.losses ?? []).map((w) => w.day).slice(-MOST_FORECASTS)
    const reckon = async (): Promise<void> => {
      const all: Forecast[] = []
      for (const day of days) {
        all.push(...(await line.ask({ drying: drying!, days: [day] })))
        if (stale) return
        found.value = [...all]
      }
      if (days.length === 0) found.value = []
    }
    // A drying the course refuses is told of by the course itself.
    reckon().catch(() => undefined)
    return () => {
      stale = true
    }
  }, [drying])
  return found
}
