import { createDropoutFilter, type Doubt } from './dropout.ts'
import { HEAD_ROWS, joiningOf, keepsPace, NEAR_STEPS, type Joining, type Reading } from './reading.ts'

/** Why nobody knows the core between two readings. */
export type HoleReason = 'no-reading' | 'probe-out' | 'spike' | 'long-step'
/** How a reading hangs together with the one before: on a straight line, or across a hole. */
export type Link = 'first' | 'line' | HoleReason

export type CoreSink = (minute: number, tempC: number, link: Link, leap?: Doubt['leap']) => void

export type CoreWalkOptions = {
  readonly maxGapMinutes?: number
  /** Take every sudden fall and rise as the core's own. */
  readonly acceptFalls?: boolean
}

/** The walk's part of wider options. */
export const walkOptions = ({ maxGapMinutes, acceptFalls }: CoreWalkOptions): CoreWalkOptions => ({
  ...(maxGapMinutes === undefined ? {} : { maxGapMinutes }),
  ...(acceptFalls === undefined ? {} : { acceptFalls }),
})

const SAME_MINUTES = 1e-9

type Row = { readonly t: number; readonly x: number; readonly house: number }

/**
 * The one walk over a core log, whole or streaming: which readings are believed and which of them are joined. A missing reading always
 * breaks the line; so do a probe out of the product and a step longer than the log's usual pace, and the pace beside it, allow. Memory is
 * constant.
 */
export function createCoreWalk(sinks: readonly CoreSink[], { maxGapMinutes, acceptFalls = false }: CoreWalkOptions) {
  let joining: Joining | undefined = maxGapMinutes === undefined ? undefined : joiningOf([], maxGapMinutes)
  const head: Row[] = []
  // Rows held back until the steps after them are known, and the steps before them.
  const coming: Row[] = []
  const gone: number[] = []
  let lastRow = NaN
  // Ends of steps that nothing joins, not yet passed by a reading.
  const broken: number[] = []
  let missing = false
  let last = NaN
  const filter = createDropoutFilter(
    {
      reading: (t, x, gap, doubt) => {
        const { byHand } = joining!
        let long = false
        while (broken.length > 0 && broken[0]! <= t) long = broken.shift()! > last || long
        const link: Link = Number.isNaN(last)
          ? 'first'
          : (doubt?.why ?? (gap ? 'no-reading' : long ? (byHand ? 'long-step' : 'no-reading') : 'line'))
        for (const sink of sinks) sink(t, x, link, doubt?.leap)
        last = t
      },
    },
    acceptFalls,
  )
  const row = (t: number, x: number, house: number): void => {
    if (x !== x) {
      missing = true
      return
    }
    filter.push(t, x, missing, house)
    missing = false
  }
  const first = ({ given, minutes }: Joining): void => {
    const { t, x, house } = coming.shift()!
    const step = t - lastRow
    // Only a long step has to show whose pace it keeps.
    const paced = (): boolean =>
      keepsPace(
        step,
        gone,
        coming.map((r, i) => r.t - (i === 0 ? t : coming[i - 1]!.t)),
      )
    if (step > minutes + SAME_MINUTES && (given === true || !paced())) broken.push(t)
    if (step === step && gone.push(step) > NEAR_STEPS) gone.shift()
    lastRow = t
    row(t, x, house)
  }
  const take = (r: Row): void => {
    coming.push(r)
    if (coming.length > NEAR_STEPS) first(joining!)
  }
  const settle = (): Joining => {
    joining ??= joiningOf(head.map((r) => r.t))
    for (const r of head) take(r)
    head.length = 0
    return joining
  }
  return {
    /** One row: its minute, the core (NaN where it gave no reading), the house beside it where one is logged. */
    push: (t: number, x: number, house = NaN): void => {
      if (joining !== undefined) return take({ t, x, house })
      head.push({ t, x, house })
      if (head.length >= HEAD_ROWS) settle()
    },
    /** Hand on what is held back; call once. `out` where the log ends with the probe out. */
    end: (): { joining: Joining; out: Doubt | undefined } => {
      const how = settle()
      while (coming.length > 0) first(how)
      return { joining: how, out: filter.end() }
    },
  }
}

/** Walk a whole log. */
export function walkLog(log: readonly Reading[], sinks: readonly CoreSink[], options: CoreWalkOptions) {
  const walk = createCoreWalk(sinks, options)
  for (const { minute, coreC } of log) walk.push(minute, coreC ?? NaN)
  return walk.end()
}
