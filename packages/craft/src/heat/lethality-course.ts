import { createDeathIntegral, type DeathRate } from './death-integral.ts'

/**
 * Log reduction reached by each minute of a core log, for a plot: never falls. Points further apart than `joinedMinutes` earn nothing
 * across the step.
 */
export function lethalityCourse(
  points: readonly { readonly minute: number; readonly tempC: number }[],
  rate: DeathRate,
  joinedMinutes: number,
): { readonly minute: number; readonly logReduction: number }[] {
  const integral = createDeathIntegral(rate, joinedMinutes)
  return points.map(({ minute, tempC }) => {
    integral.push(minute, tempC)
    return { minute, logReduction: integral.minutes() / rate.dMinutes }
  })
}
