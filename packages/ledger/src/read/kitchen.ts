import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import { checkedInstruments, proving, type JudgedCheck } from './checks.ts'
import { daysAfter, factsOf, recorded, type RecordedFact } from './facts-of.ts'

export type KitchenFacts = RecordedFact<'kitchen.set'>
export type PersonFacts = RecordedFact<'person.add'>

/** An instrument with its last good or bad check and when the next is due, as it stands on a date. */
export type InstrumentFacts = RecordedFact<'instrument.add'> & {
  /** The last check that says something of it. */
  readonly lastCheck?: JudgedCheck
  /** A later check, or the only one, that says nothing of it, and why. */
  readonly provesNothing?: { readonly on: string; readonly because: string }
  /** Day on which the next check is due; absent where it was never checked. */
  readonly nextDue?: string
  readonly standing: 'in-date' | 'due' | 'overdue' | 'never-checked' | 'out-of-tolerance' | 'retired'
}

export const kitchenOf = async (store: Store): Promise<KitchenFacts | undefined> =>
  (await factsOf(store, 'kitchen.set')).at(-1)

/**
 * The kitchen as it was told on a day: what was entered last by its end, corrected since or not, so that what a kitchen sets itself holds from
 * the day it set it. Before its first day, as it stood by the end of that. What was withdrawn never was.
 */
export async function kitchenOn(store: Store, on: string): Promise<KitchenFacts | undefined> {
  const rows = await store.read
    .selectFrom('entry as e')
    .leftJoin('superseded as s', 's.seq', 'e.seq')
    .select(['e.seq', 'e.text', 'e.hash', 'e.at'])
    .where('e.kind', '=', 'kitchen.set')
    .where((w) => w.or([w('s.how', 'is', null), w('s.how', '=', 'corrected')]))
    .orderBy('e.seq')
    .execute()
  const first = rows[0]?.at.slice(0, 10) ?? on
  const row = rows.findLast((r) => r.at.slice(0, 10) <= (on < first ? first : on))
  return row && recorded<'kitchen.set'>(fromText(row.text, row.hash), row.seq)
}

export const peopleOf = (store: Store): Promise<PersonFacts[]> => factsOf(store, 'person.add')

/** Days before the due date from which an instrument stands on the list of things to do. */
const dueSoonDays = 3

/** The latest of some checks on or before a day. */
const lastOn = (checks: readonly JudgedCheck[], on: string): JudgedCheck | undefined =>
  checks
    .filter((c) => c.on <= on)
    .reduce<JudgedCheck | undefined>((last, c) => (!last || c.on >= last.on ? c : last), undefined)

function instrumentOn(
  instrument: RecordedFact<'instrument.add'>,
  checks: readonly JudgedCheck[],
  on: string,
): InstrumentFacts {
  const last = lastOn(proving(checks), on)
  const latest = lastOn(checks, on)
  const empty =
    latest?.provesNothing === undefined
      ? {}
      : { provesNothing: { on: latest.on, because: `a check that proves nothing: ${latest.provesNothing}` } }
  if (!last) return { ...instrument, ...empty, standing: instrument.retired ? 'retired' : 'never-checked' }
  const nextDue = daysAfter(last.on, Math.floor(instrument.checkEveryDays))
  const standing = instrument.retired
    ? 'retired'
    : !last.withinTolerance
      ? 'out-of-tolerance'
      : nextDue < on
        ? 'overdue'
        : nextDue <= daysAfter(on, Math.min(dueSoonDays, instrument.checkEveryDays - 1))
          ? 'due'
          : 'in-date'
  return { ...instrument, lastCheck: last, ...empty, nextDue, standing }
}

/** Instruments as they stand on a date: some of them, or all. */
export async function instrumentsOf(store: Store, on: string, only?: readonly string[]): Promise<InstrumentFacts[]> {
  return (await checkedInstruments(store, only)).map(({ instrument, checks }) => instrumentOn(instrument, checks, on))
}

/** One instrument with all its checks, oldest first. */
export async function instrumentOf(
  store: Store,
  id: string,
  on: string,
): Promise<(InstrumentFacts & { readonly checks: readonly JudgedCheck[] }) | undefined> {
  const [found] = await checkedInstruments(store, id)
  return found && { ...instrumentOn(found.instrument, found.checks, on), checks: found.checks }
}
