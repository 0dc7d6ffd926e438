import { inDate, standingOf, type BatchFacts, type BatchInstrument } from './facts.ts'

/** Whether an instrument may be believed on a day; where it may, how far off its check allows it to be. */
export type Trust =
  | { readonly ok: true; readonly instrument: BatchInstrument; readonly tolerance?: number }
  | { readonly ok: false; readonly because: string; readonly settle: string }

type Facts = Pick<BatchFacts, 'instruments' | 'checks'>

/** ISO date so many days after another. */
const daysAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)

const unnamed = (what: string): Trust => ({
  ok: false,
  because: `the ${what} is not named`,
  settle: `say which ${what} it was`,
})

/**
 * Whether an instrument is within its checks on a day: the last check on or before it is good and not past. Without the checks themselves,
 * its standing on the batch's date is all there is.
 */
export function trustOn(facts: Facts, id: string | undefined, day: string, what: string): Trust {
  const instrument = id === undefined ? undefined : facts.instruments.find((i) => i.instrument === id)
  if (!instrument) return unnamed(what)
  const { name, checkEveryDays } = instrument
  const settle = `check ${name} and record it`
  if (instrument.inDoubt) return { ok: false, because: standingOf(instrument), settle }
  if (facts.checks === undefined || checkEveryDays === undefined)
    return inDate(instrument) ? { ok: true, instrument } : { ok: false, because: standingOf(instrument), settle }
  const last = facts.checks
    .filter((c) => c.instrument === id && c.on <= day)
    .reduce<NonNullable<Facts['checks']>[number] | undefined>((a, c) => (!a || c.on >= a.on ? c : a), undefined)
  if (!last) return { ok: false, because: `${name} (${id}) was not checked before ${day}`, settle }
  if (!last.good)
    return { ok: false, because: `${name} (${id}) was out of tolerance at its check of ${last.on}`, settle }
  if (daysAfter(last.on, Math.floor(checkEveryDays)) < day)
    return { ok: false, because: `${name} (${id}) was past its check on ${day} (last on ${last.on})`, settle }
  return { ok: true, instrument, tolerance: last.tolerance }
}

const methods = {
  buffer: { meter: 'pH meter', done: 'calibrated against a buffer' },
  'salt-standard': { meter: 'water activity meter', done: 'checked against a salt standard' },
} as const

/** Whether a meter was set against its standard on the very day of a reading: a check of that day, the last of them good. */
export function calibratedOn(facts: Facts, id: string | undefined, day: string, method: keyof typeof methods): Trust {
  const { meter, done } = methods[method]
  const instrument = id === undefined ? undefined : facts.instruments.find((i) => i.instrument === id)
  if (!instrument) return unnamed(meter)
  const settle = `a reading on a ${meter} ${done} the same day, and that check recorded`
  if (instrument.inDoubt) return { ok: false, because: standingOf(instrument), settle }
  const that = facts.checks?.findLast((c) => c.instrument === id && c.on === day && c.method === method)
  if (!that) return { ok: false, because: `${instrument.name} (${id}) was not ${done} on ${day}`, settle }
  if (!that.good)
    return { ok: false, because: `${instrument.name} (${id}) was out of tolerance at its check of ${day}`, settle }
  return { ok: true, instrument, tolerance: that.tolerance }
}
