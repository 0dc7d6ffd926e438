import type { BatchFacts } from './facts.ts'
import type { CentreLog, LotTreatment } from './slow-facts.ts'

/** A clock that names no zone may run so far behind UTC, hours; and ahead. A day of a place begins so much earlier in UTC at the most. */
const ZONES_H = { behind: 12, ahead: 14 } as const
/** What was typed and the log's own clock may differ by so much, hours: an hour where the log says its zone, else any zone on earth. */
const APART_H = { said: 1, unsaid: 15 } as const

const epoch = (instant: string): number => Date.parse(instant) / 1000
const inUtc = (seconds: number): string => new Date(seconds * 1000).toISOString()
const spell = (seconds: number): string => inUtc(seconds).slice(0, 16).replace('T', ' ')
const whole = (hours: number): string => String(Number(hours.toFixed(1)))

/** The first and last reading of a centre log, seconds from 1970; where it bears no date, by what was typed. */
type Ran = { readonly from: number; readonly until: number; readonly zone: 'said' | 'unsaid'; readonly dated: boolean }

const lengthH = ({ log }: CentreLog): number => (log.at(-1)?.hour ?? 0) - (log[0]?.hour ?? 0)

function ranOf(t: LotTreatment, log: CentreLog): Ran | undefined {
  const seconds = lengthH(log) * 3600
  const { startsAt, endsAt, zone = 'said' } = log
  if (startsAt !== undefined || endsAt !== undefined)
    return { from: startsAt ?? endsAt! - seconds, until: endsAt ?? startsAt! + seconds, zone, dated: true }
  if (t.from !== undefined) return { from: epoch(t.from), until: epoch(t.from) + seconds, zone: 'said', dated: false }
  if (t.until !== undefined)
    return { from: epoch(t.until) - seconds, until: epoch(t.until), zone: 'said', dated: false }
  return undefined
}

/** When a freezing ended: as typed or as its log says, whichever is later, at the latest a clock without a zone may mean. */
export function endOf(t: LotTreatment, log: CentreLog | undefined): string | undefined {
  const ran = log && ranOf(t, log)
  const logged = ran && inUtc(ran.until + (ran.zone === 'unsaid' ? ZONES_H.behind * 3600 : 0))
  return [t.until, logged]
    .filter((x) => x !== undefined)
    .toSorted((a, b) => Date.parse(a) - Date.parse(b))
    .at(-1)
}

/** The lot a lot's meat first was, with the day it was there: of a part the whole it came off, of rework the day it was taken out of its batch. */
function firstHere(facts: BatchFacts, lot: string): { readonly lot: string; readonly on: string } | undefined {
  const known = new Map([...(facts.ancestry?.lots ?? []), ...facts.lots].map((l) => [l.lot, l]))
  const seen = new Set<string>()
  let node = known.get(lot)
  while (node?.origin && 'lot' in node.origin && !seen.has(node.lot)) {
    seen.add(node.lot)
    const whole = known.get(node.origin.lot)
    if (!whole) break
    node = whole
  }
  return node
}

export type Clash = { readonly because: string; readonly settle?: string }

/** A log or a date from before the meat was here is of other meat, or of a freezer nobody here has seen. */
function beforeArrival(facts: BatchFacts, t: LotTreatment, ran: Ran | undefined): Clash | undefined {
  const here = firstHere(facts, t.lot)
  if (!here) return undefined
  const came = `before ${here.lot} came in on ${here.on}`
  if (t.on < here.on) return { because: `it is dated ${t.on}, ${came}` }
  const midnight = epoch(`${here.on}T00:00:00Z`)
  const anywhere = midnight - ZONES_H.ahead * 3600
  if (ran && ran.from < (ran.zone === 'unsaid' ? midnight : anywhere))
    return { because: `its log begins ${inUtc(ran.from).slice(0, 10)}, ${came}` }
  return t.from !== undefined && epoch(t.from) < anywhere
    ? { because: `it began ${t.from.slice(0, 10)}, ${came}` }
    : undefined
}

/** What was typed of its begin and end, against the log itself. */
function againstTyped(t: LotTreatment, log: CentreLog, ran: Ran): Clash | undefined {
  const settle = 'the treatment corrected: its begin and end as the log has them, or the log of this freezing'
  const [from, until] = [t.from && epoch(t.from), t.until && epoch(t.until)]
  const slack = APART_H[ran.zone] * 3600
  if (!ran.dated)
    return from && until && ran.until > until + slack
      ? {
          because: `the log is of ${whole(lengthH(log))} h, and ${whole((until - from) / 3600)} h were typed`,
          settle,
        }
      : undefined
  if (from && ran.from < from - slack)
    return { because: `its log begins ${spell(ran.from)}, and ${spell(from)} was typed`, settle }
  if (until && ran.until > until + slack)
    return { because: `its log ends ${spell(ran.until)}, and ${spell(until)} was typed`, settle }
  return undefined
}

/**
 * What the dates of a freezing say against it: before its meat was here, another time than was typed, or a log nobody can place. Such a
 * freezing proves nothing.
 */
export function clashOf(facts: BatchFacts, t: LotTreatment, log: CentreLog | undefined): Clash | undefined {
  const ran = log && ranOf(t, log)
  if (log && !ran)
    return {
      because: 'the log of the centre bears no date, and nobody said when it began',
      settle: 'when its first reading was taken: the treatment corrected with its begin',
    }
  return beforeArrival(facts, t, ran) ?? (log && ran ? againstTyped(t, log, ran) : undefined)
}
