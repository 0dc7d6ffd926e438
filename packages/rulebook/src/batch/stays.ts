import { keptCold } from '../../data/ferment/air.ts'
import type { BatchFacts } from './facts.ts'
import type { Placement } from './slow-facts.ts'

/** A batch in one place, from an entry of where it was put to the next; without a room it hung in none. */
export type Stay = Omit<Placement, 'at'> & {
  /** Seconds from 1970; the last one has no end. */
  readonly from: number
  readonly until: number
}

/** A span of time, seconds from 1970. */
export type Interval = readonly [from: number, until: number]

/** What one log says of itself. */
export type Logged = { readonly purpose: string; readonly startsAt: number; readonly endsAt: number }

export const epoch = (instant: string): number => Date.parse(instant) / 1000
/** An instant in words, UTC. */
export const spoken = (at: number): string => new Date(at * 1000).toISOString().slice(0, 16).replace('T', ' ')

/** A log that begins this close to a move belongs to the room it was moved to, s; a choice of ours. */
const AT_THE_MOVE_S = 3600

export function staysOf({ placements = [] }: Pick<BatchFacts, 'placements'>): Stay[] {
  const inOrder = placements.toSorted((a, b) => epoch(a.at) - epoch(b.at))
  return inOrder.map(({ at, ...rest }, i) => ({
    ...rest,
    from: epoch(at),
    until: inOrder[i + 1] ? epoch(inOrder[i + 1]!.at) : Infinity,
  }))
}

/** A room for keeping cold by its name and by what it is set to. */
export const keepsCold = ({ purpose, tempC }: Pick<Stay, 'purpose' | 'tempC'>): boolean =>
  (purpose === 'cold' || purpose === 'freeze') && tempC !== undefined && tempC <= keptCold.upToC
const hangs = (s: Stay): boolean => s.room !== undefined && !keepsCold(s)

/** The room a log is taken to be of: the one the batch hung in when it begins, a drying's log rather one that dries. */
function roomOf(stays: readonly Stay[], { purpose, startsAt, endsAt }: Logged): Stay | undefined {
  const met = stays.filter((s) => hangs(s) && s.from < endsAt && s.until > startsAt)
  const begins = stays.findLast((s) => s.from <= startsAt + AT_THE_MOVE_S)
  const ownKind = met.find((s) => s.purpose === purpose)
  if (purpose === 'dry' && begins?.purpose !== 'dry' && ownKind) return ownKind
  if (begins && (hangs(begins) || (purpose === 'dry' && begins.room !== undefined))) return begins
  return ownKind ?? (begins ? met[0] : undefined)
}

/**
 * When each log speaks of the batch: while it was in the room the log is taken to be of, and before anything is recorded of where it was. Two
 * logs that run on side by side past a move may be of one room each, and both stand. Without a room on record a log stands throughout.
 */
export function timesOf(stays: readonly Stay[], logs: readonly Logged[]): readonly (readonly Interval[])[] {
  if (!stays.some(hangs)) return logs.map(() => [[-Infinity, Infinity]])
  const first = stays[0]!.from
  const rooms = logs.map((l) => roomOf(stays, l))
  const unlogged = stays.filter((s) => hangs(s) && !rooms.some((r) => r?.room === s.room))
  const souring = logs.some((l) => l.purpose === 'ferment')
  return logs.map((log, i) => {
    const room = rooms[i]
    const unrecorded: Interval[] =
      log.startsAt < first && !(log.purpose === 'dry' && souring && room) ? [[-Infinity, first]] : []
    const mine = stays.filter((s) => room !== undefined && s.room === room.room)
    const shared = unlogged.filter((s) => {
      const beside = logs.filter(
        (l, k) =>
          l.purpose === log.purpose && rooms[k]?.room === room?.room && l.startsAt < s.from && l.endsAt > s.from,
      )
      return beside.length > 1 && beside.includes(log)
    })
    return [...unrecorded, ...[...mine, ...shared].map((s): Interval => [s.from, s.until])].toSorted(
      (a, b) => a[0] - b[0],
    )
  })
}

/** Where the batch was and no log was, until an instant: what is not known of its air. */
export function unseenStays(
  stays: readonly Stay[],
  seen: readonly { readonly startsAt: number; readonly endsAt: number }[],
  [from, until]: Interval,
): string[] {
  if (!stays.some(hangs)) return []
  return stays
    .filter((s) => !keepsCold(s) && s.from > from && s.from < until)
    .filter((s) => !seen.some((l) => l.startsAt <= s.from + AT_THE_MOVE_S && l.endsAt > s.from + 1))
    .map((s) =>
      s.room === undefined
        ? `from ${spoken(s.from)} on it hung in no room that is recorded`
        : `from ${spoken(s.from)} on it hung in ${s.room}, of which there is no log`,
    )
}
