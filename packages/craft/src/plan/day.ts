const DAY_MS = 86_400_000

/** Days from one ISO date to another. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS)

/** ISO date `n` days after another. */
export const dayAfter = (from: string, n: number): string =>
  new Date(Date.parse(from) + n * DAY_MS).toISOString().slice(0, 10)
