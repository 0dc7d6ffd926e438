import type { Store } from '../dialect/store.ts'
import { daysAfter, factsOf, type RecordedFact } from './facts-of.ts'

export type KitchenFacts = RecordedFact<'kitchen.set'>
export type PersonFacts = RecordedFact<'person.add'>

/** An instrument with its last good or bad check and when the next is due, as it stands on a date. */
export type InstrumentFacts = RecordedFact<'instrument.add'> & {
  readonly lastCheck?: RecordedFact<'instrument.check'> & {
    /** Reading less reference, in the unit of the check. */
    readonly error: number
    readonly withinTolerance: boolean
  }
  /** Day on which the next check is due; absent where it was never checked. */
  readonly nextDue?: string
  readonly standing: 'in-date' | 'due' | 'overdue' | 'never-checked' | 'out-of-tolerance' | 'retired'
}

export const kitchenOf = async (store: Store): Promise<KitchenFacts | undefined> =>
  (await factsOf(store, 'kitchen.set')).at(-1)

export const peopleOf = (store: Store): Promise<PersonFacts[]> => factsOf(store, 'person.add')

/** Days before the due date from which an instrument stands on the list of things to do. */
const dueSoonDays = 3

type Check = RecordedFact<'instrument.check'>

/** The latest of some checks on or before a day. */
export const lastOn = (checks: readonly Check[], on: string): Check | undefined =>
  checks
    .filter((c) => c.on <= on)
    .reduce<Check | undefined>((last, c) => (!last || c.on >= last.on ? c : last), undefined)

/** Whole units of the last place a check is given in, so that 0.3 − 0.1 is not held against a tolerance of 0.2. */
const rounded = (x: number): number => Number(x.toFixed(9))

export function instrumentOn(
  instrument: RecordedFact<'instrument.add'>,
  checks: readonly Check[],
  on: string,
): InstrumentFacts {
  const last = lastOn(checks, on)
  if (!last) return { ...instrument, standing: instrument.retired ? 'retired' : 'never-checked' }
  const error = rounded(last.reading - last.reference)
  const withinTolerance = Math.abs(error) <= last.tolerance
  const nextDue = daysAfter(last.on, Math.floor(instrument.checkEveryDays))
  const standing = instrument.retired
    ? 'retired'
    : !withinTolerance
      ? 'out-of-tolerance'
      : nextDue < on
        ? 'overdue'
        : nextDue <= daysAfter(on, Math.min(dueSoonDays, instrument.checkEveryDays - 1))
          ? 'due'
          : 'in-date'
  return { ...instrument, lastCheck: { ...last, error, withinTolerance }, nextDue, standing }
}

/** Instruments as they stand on a date: some of them, or all. */
export async function instrumentsOf(store: Store, on: string, only?: readonly string[]): Promise<InstrumentFacts[]> {
  const instruments = await factsOf(store, 'instrument.add', only)
  const checks = Map.groupBy(await factsOf(store, 'instrument.check', only), (c) => c.instrument)
  return instruments.map((i) => instrumentOn(i, checks.get(i.instrument) ?? [], on))
}

/** One instrument with all its checks, oldest first. */
export async function instrumentOf(
  store: Store,
  id: string,
  on: string,
): Promise<(InstrumentFacts & { readonly checks: readonly RecordedFact<'instrument.check'>[] }) | undefined> {
  const [instrument] = await factsOf(store, 'instrument.add', id)
  if (!instrument) return undefined
  const checks = await factsOf(store, 'instrument.check', id)
  return { ...instrumentOn(instrument, checks, on), checks }
}
