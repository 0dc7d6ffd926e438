import { standingOfCheck, type CheckStanding } from '@forcemeat/rulebook/process/instrument-check'
import type { Store } from '../dialect/store.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'

/** A check with what it shows of its instrument. */
export type JudgedCheck = RecordedFact<'instrument.check'> & CheckStanding

type Instrument = RecordedFact<'instrument.add'>

/** Some instruments, or all, with their checks, oldest entry first, each judged where it is read: by the instrument and kitchen as they stand. */
export async function checkedInstruments(
  store: Store,
  only?: string | readonly string[],
): Promise<{ readonly instrument: Instrument; readonly checks: readonly JudgedCheck[] }[]> {
  const [instruments, checks, kitchens] = [
    await factsOf(store, 'instrument.add', only),
    Map.groupBy(await factsOf(store, 'instrument.check', only), (c) => c.instrument),
    await factsOf(store, 'kitchen.set'),
  ]
  const altitudeM = kitchens.at(-1)?.altitudeM
  return instruments.map((instrument) => ({
    instrument,
    checks: (checks.get(instrument.instrument) ?? []).map((c) => ({
      ...c,
      ...standingOfCheck(instrument, c, altitudeM),
    })),
  }))
}

/** Checks that say something of their instrument: the others stand as if they had not been made. */
export const proving = (checks: readonly JudgedCheck[]): JudgedCheck[] =>
  checks.filter((c) => c.provesNothing === undefined)
