import { joinableMinutes } from '@forcemeat/craft/heat/reading'
import { inTurn, type ChamberLog } from './chamber.ts'

/** Relative humidity of the air at an instant, ms since 1970; null ends a stretch that may be joined. */
export type HumidityPoint = { readonly at: number; readonly rhPct: number | null }
type Read = { readonly at: number; readonly rhPct: number }

const readOf = (chain: readonly ChamberLog[]): Read[] =>
  chain.flatMap((l) => l.points.flatMap(({ at, rhPct }) => (rhPct === null ? [] : [{ at, rhPct }])))

const joinableMs = (read: readonly Read[]): number =>
  60_000 * joinableMinutes([...new Set(read.map((p) => p.at / 60_000))])

/** What of `more` was read where `known` was silent: before it, after it, or in a step too long to be joined. */
function where(known: readonly Read[], more: readonly Read[]): Read[] {
  const joinable = joinableMs(known)
  let next = 0
  return more.filter(({ at }) => {
    while (next < known.length && known[next]!.at < at) next += 1
    const [before, after] = [known[next - 1], known[next]]
    if (after?.at === at) return false
    return !before || !after || after.at - before.at > joinable
  })
}

/**
 * The humidity about a batch along the logs its temperature is taken from: as these logs have it themselves, and where they are silent as any
 * other log has it. A sensor of its own is read at instants of its own: those stand, and are put into no temperature's row, where they would
 * leave holes.
 */
export function humidityAlong(chain: readonly ChamberLog[], logs: readonly ChamberLog[]): HumidityPoint[] {
  const others = logs.filter((l) => !chain.includes(l) && l.points.some((p) => p.rhPct !== null))
  const read = inTurn(others, 'rhPct').reduce<Read[]>((known, other) => {
    const more = where(known, readOf(other))
    return more.length === 0 ? known : [...known, ...more].toSorted((a, b) => a.at - b.at)
  }, readOf(chain))
  const joinable = joinableMs(read)
  return read.flatMap((p, i): HumidityPoint[] => {
    const next = read[i + 1]
    return next && next.at - p.at > joinable ? [p, { at: next.at - 1, rhPct: null }] : [p]
  })
}
