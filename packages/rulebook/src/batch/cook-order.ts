import type { BatchFacts, CurveChannel } from './facts.ts'
import { gramsOf } from './grams.ts'
import { calibratedOn } from './instrument-days.ts'
import { dayOf } from './local-day.ts'
import type { AirChannel, SlowLogs } from './slow-facts.ts'
import { dries, isSlow } from './slow-kind.ts'

/**
 * Surface water activity at or above which germs gain no resistance to heat before a moist cook: FSIS-GD-2021-14, p. 46–47 (do not dry before
 * the cook).
 */
export const MOIST_AW = 0.96
/** A piece that has lost so much of its weight has begun to dry, %. A choice of ours. */
const DRIED_LOSS_PCT = 10
/** A water activity measured so long before the heat still speaks of it, seconds. A choice of ours. */
const STILL_MOIST_S = 24 * 3600
/** A clock that names no zone may run so far ahead of UTC, and behind, seconds. */
const ZONE_S = { ahead: 14 * 3600, behind: 12 * 3600 } as const

type Starts = NonNullable<AirChannel['starts']>

const epoch = (instant: string): number => Date.parse(instant) / 1000
const day = (at: number): string => new Date(at * 1000).toISOString().slice(0, 10)
const earliest = (all: readonly Starts[]): Starts | undefined => all.toSorted((a, b) => a.at - b.at)[0]

/** When the batch was hung to dry by the record of its rooms, else when the first log of its drying begins. */
function dryingBegins(facts: BatchFacts, air: readonly AirChannel[]): Starts | undefined {
  const hung = (facts.placements ?? []).filter((p) => p.purpose === 'dry').map((p) => epoch(p.at))
  if (hung.length > 0) return { at: Math.min(...hung), zone: 'said' }
  const drying = new Set(facts.curves.filter((c) => c.purpose === 'dry').map((c) => c.seq))
  return earliest(air.flatMap((a) => (drying.has(a.seq) && a.starts ? [a.starts] : [])))
}

/** Whether one moment may have been after another, by the clocks they are known on. */
const mayFollow = (later: Starts, earlier: Starts): boolean =>
  later.at + (later.zone === earlier.zone || later.zone === 'said' ? 0 : ZONE_S.behind) >
  earlier.at - (later.zone === earlier.zone || earlier.zone === 'said' ? 0 : ZONE_S.ahead)

/** What was measured before a moment and says that the product had begun to dry: its water activity, or the weight it had lost. */
export function measuredDry(facts: BatchFacts, at: number): { readonly dry?: string; readonly moist?: true } {
  const before = (facts.measures ?? [])
    .filter((m) => m.value !== undefined && epoch(m.taken) < at)
    .toSorted((a, b) => epoch(a.taken) - epoch(b.taken))
  const aw = before.findLast((m) => m.what === 'aw')
  if (aw) {
    const trust = calibratedOn(facts, aw.instrument, dayOf(facts, aw.taken), 'salt-standard', aw.value)
    if (aw.value! < MOIST_AW) return { dry: `its water activity was ${aw.value} on ${aw.taken.slice(0, 10)}` }
    if (trust.ok && aw.value! - (trust.tolerance ?? 0) >= MOIST_AW && at - epoch(aw.taken) <= STILL_MOIST_S)
      return { moist: true }
  }
  const pieces = Map.groupBy(
    before.flatMap((m) => {
      const g = m.what === 'weight' && m.piece !== undefined ? gramsOf(m.value!, m.unit) : undefined
      return g === undefined || g <= 0 ? [] : [{ piece: m.piece!, g }]
    }),
    (w) => w.piece,
  )
  for (const [piece, weighed] of pieces) {
    const lost = 100 * (1 - weighed.at(-1)!.g / weighed[0]!.g)
    if (lost >= DRIED_LOSS_PCT) return { dry: `${piece} had lost ${lost.toFixed(0)} % of its weight` }
  }
  return {}
}

const RESISTS = 'germs dried first stand more heat than the tables are made for (FSIS-GD-2021-14, p. 46–47)'
export const SETTLE_ORDER = `the cook before the drying; or a water activity of ${MOIST_AW} or more by a meter checked that day, within a day before the heat; or a study of this very process`

/** What speaks against heat of a product from a moment on, or of unknown time. */
function dryAt(facts: BatchFacts, begins: Starts | undefined, drying: Starts | undefined): string | undefined {
  if (!begins) {
    const dried = drying !== undefined || (dries(facts) && measuredDry(facts, Infinity).dry !== undefined)
    return dried ? `nothing says whether the cook came before the drying: its log bears no date; ${RESISTS}` : undefined
  }
  const { dry, moist } = measuredDry(facts, begins.at)
  if (dry !== undefined) return `the cook came when ${dry}: ${RESISTS}`
  if (moist || !drying || !mayFollow(begins, drying)) return undefined
  return `the cook of ${day(begins.at)} came after the drying began on ${day(drying.at)}${begins.zone === drying.zone ? '' : ', as far as a clock without a zone can tell'}: ${RESISTS}`
}

/**
 * Why the heat of a batch proves nothing by the lethality tables: its product had dried before, or may have. One cook that came before the
 * drying is enough.
 */
export function cookedDry(
  facts: BatchFacts,
  channels: readonly CurveChannel[],
  { air = [] }: SlowLogs,
): string | undefined {
  if (!isSlow(facts)) return undefined
  const drying = dryingBegins(facts, air)
  const cooks = facts.curves.filter((c) => c.purpose === 'cook' || c.purpose === 'cook-and-chill')
  const against = cooks.map((c) =>
    dryAt(facts, earliest(channels.flatMap((x) => (x.seq === c.seq && x.starts ? [x.starts] : []))), drying),
  )
  return against.every((a) => a !== undefined) ? against[0] : undefined
}
