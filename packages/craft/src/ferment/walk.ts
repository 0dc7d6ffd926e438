import { statedMinutes } from '../heat/reading.ts'

export type ChamberReading = { readonly hour: number; readonly tempC: number | null }
/** A stretch of a log: straight from one temperature to another, or a hole with the temperatures known at its two ends. */
export type Stretch = {
  readonly from: number
  readonly to: number
  readonly a: number
  readonly b: number
  readonly hole: boolean
}

/** Stretches of a log up to an hour. A missing reading, or a step longer than the log's usual spacing, is a hole. */
export function stretches(log: readonly ChamberReading[], until = Infinity): Stretch[] {
  const times = [...new Set(log.map((r) => r.hour * 60))]
  const joinable = statedMinutes(times) / 60
  const found: Stretch[] = []
  let last: { hour: number; tempC: number } | undefined
  let missed = false
  for (const { hour, tempC } of log) {
    if (tempC === null) {
      missed = true
      continue
    }
    if (last && hour > last.hour) {
      const to = Math.min(hour, until)
      if (to > last.hour) {
        const share = (to - last.hour) / (hour - last.hour)
        const hole = missed || hour - last.hour > joinable
        found.push({
          from: last.hour,
          to,
          a: last.tempC,
          b: hole ? tempC : last.tempC + share * (tempC - last.tempC),
          hole,
        })
      }
    }
    if (hour >= until) break
    last = { hour, tempC }
    missed = false
  }
  return found
}

/** Integral of a rate over a straight stretch, in steps no longer than a quarter of a degree. */
export function integrate({ from, to, a, b }: Stretch, rate: (tempC: number) => number): number {
  const steps = Math.max(1, Math.ceil(Math.abs(b - a) / 0.25))
  let sum = 0
  for (let i = 0; i < steps; i++) sum += rate(a + ((b - a) * (i + 0.5)) / steps)
  return (sum * (to - from)) / steps
}
