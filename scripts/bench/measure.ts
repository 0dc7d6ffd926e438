import { cpus, totalmem } from 'node:os'

export type Line = {
  readonly measure: string
  readonly unit: string
  readonly median: number
  readonly min: number
  readonly max: number
  readonly runs: number
  /** What it has to stay under (or over, where `atLeast`). */
  readonly limit?: number
  readonly atLeast?: boolean
}

const machine = `${cpus()[0]?.model.trim() ?? 'unknown processor'}, ${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.version}`

const tidy = (x: number): number => Number(x.toPrecision(4))

/** Print one measure as a JSON line. */
export function report(line: Line): void {
  const { limit, atLeast } = line
  const met = limit === undefined ? {} : { met: atLeast ? line.median >= limit : line.median <= limit }
  console.log(
    JSON.stringify({ ...line, median: tidy(line.median), min: tidy(line.min), max: tidy(line.max), ...met, machine }),
  )
}

/** Median, least and greatest of some figures. */
export function summary(figures: readonly number[]): Pick<Line, 'median' | 'min' | 'max' | 'runs'> {
  const sorted = figures.toSorted((a, b) => a - b)
  const half = Math.floor(sorted.length / 2)
  const median = sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2
  return { median, min: sorted[0]!, max: sorted.at(-1)!, runs: sorted.length }
}

/** Time a piece of work many times after a warm-up, in milliseconds. */
export function timed(work: () => unknown, { runs = 30, warmUp = 3 }: { runs?: number; warmUp?: number } = {}) {
  for (let i = 0; i < warmUp; i++) work()
  return summary(
    Array.from({ length: runs }, () => {
      const begun = performance.now()
      work()
      return performance.now() - begun
    }),
  )
}

/** A repeatable source of numbers in [0, 1): mulberry32. */
export function seeded(seed: number): () => number {
  let a = seed >>> 0
  return () => {
    a = (a + 0x6d2b79f5) >>> 0
    let t = Math.imul(a ^ (a >>> 15), 1 | a)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}
