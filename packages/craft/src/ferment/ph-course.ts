/** One measured pH on a clock in seconds. */
export type PhPoint = {
  readonly at: number
  readonly ph: number
  /** The marked piece it was read of. */
  readonly piece?: string
  /** Step of the making it was read at. */
  readonly step?: string
  /** Largest error of the meter, ± pH. */
  readonly tolerance: number
  /** Whether its meter was calibrated that day. */
  readonly counts: boolean
}

/** Where a batch stands at a reading: by which of its readings, and which of those it rests on does not count. */
export type StandingLevel<R extends PhPoint> = { readonly reading: R; readonly highest: R; readonly weak?: R }

/** Readings taken within this many seconds of each other are of one sampling; a choice of ours. */
const ONE_SAMPLING_S = 60 * 60
/** What was read of a piece once lapses after this, seconds, where pieces never read before were; a choice of ours. */
const LAPSES_S = 4 * 3600
/** A higher reading said to be of the drying still speaks of the ripening for this long, seconds; later, mould may raise it. A choice of ours. */
const STILL_RIPENING_S = 72 * 3600

const nameOf = (r: PhPoint): string => r.piece ?? ''
const beside = <R extends PhPoint>(readings: readonly R[], r: R): R[] =>
  readings.filter((x) => Math.abs(x.at - r.at) <= ONE_SAMPLING_S)

/**
 * Whether a reading no longer holds a batch at a later sampling: its piece was read once, as one that is cut is, and since then as many pieces
 * were read that had never been before. One that lags beside others is not passed over by reading those again.
 */
function lapsed<R extends PhPoint>(readings: readonly R[], old: R, now: R): boolean {
  if (now.at - old.at < LAPSES_S || readings.filter((x) => nameOf(x) === nameOf(old)).length > 1) return false
  const first = (name: string): number => readings.find((x) => nameOf(x) === name)!.at
  const sampled = beside(readings, now).map(nameOf)
  const fresh = new Set(sampled.filter((name) => Math.abs(first(name) - now.at) <= ONE_SAMPLING_S))
  return fresh.size >= new Set(beside(readings, old).map(nameOf)).size
}

/**
 * Where a batch stood at each reading, oldest first: the highest of all that was measured within an hour of it, before or after, and of the
 * last reading of every marked piece. One fast piece ends nothing, in whatever order they were read, and one that lags holds the batch back
 * until it is measured again.
 *
 * @param readings in the order taken
 */
export function standingLevels<R extends PhPoint>(readings: readonly R[]): StandingLevel<R>[] {
  const latest = new Map<string, R>()
  return readings.map((reading) => {
    latest.set(nameOf(reading), reading)
    const standing = [...latest.values()].filter((x) => !lapsed(readings, x, reading))
    const highest = [...standing, ...beside(readings, reading)].reduce((a, b) =>
      b.ph + b.tolerance > a.ph + a.tolerance ? b : a,
    )
    const weak = [...standing, highest].find((s) => !s.counts)
    return { reading, highest, ...(weak === undefined ? {} : { weak }) }
  })
}

/** Whether a later sampling, taken before the ripening was over, is above a pH that was reached. */
export const reopened = <L extends { readonly at: number; readonly step?: string | undefined }>(
  levels: readonly L[],
  reached: L,
  above: (later: L) => boolean,
): boolean =>
  levels.some(
    (k) =>
      k.at > reached.at &&
      ((k.step !== 'dry' && k.step !== 'pack') || k.at - reached.at <= STILL_RIPENING_S) &&
      above(k),
  )
