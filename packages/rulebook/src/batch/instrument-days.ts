import { inDate, standingOf, type BatchFacts, type BatchInstrument } from './facts.ts'
import type { InstrumentCheck } from './slow-facts.ts'

/** Whether an instrument may be believed on a day; where it may, how far off its check allows it to be. */
export type Trust =
  | {
      readonly ok: true
      readonly instrument: BatchInstrument
      readonly tolerance?: number
      /** The tolerance is the usual one of such a meter, for its check gave none it can read. */
      readonly assumed?: true
    }
  | { readonly ok: false; readonly because: string; readonly settle: string }

type Facts = Pick<BatchFacts, 'instruments' | 'checks'>

/** ISO date so many days after another. */
const daysAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)

const unnamed = (what: string): Trust => ({
  ok: false,
  because: `the ${what} is not named`,
  settle: `correct the entry: say which ${what} it was`,
})

/** What an instrument has to be, and the checks that say something of what is read on it. */
type Quantity = {
  readonly types: readonly string[]
  readonly methods: readonly string[]
  readonly unit: string
  readonly checked: string
}
const temperature: Quantity = {
  types: ['thermometer', 'logger'],
  methods: ['ice-point', 'boiling-point', 'comparison'],
  unit: '°C',
  checked: 'in °C at the ice point, the boiling point or beside another thermometer',
}
const mass: Quantity = {
  types: ['scale'],
  methods: ['test-load', 'comparison'],
  unit: 'g',
  checked: 'in g with a test load or beside another scale',
}

const measures = ({ types }: Pick<Quantity, 'types'>, { type }: BatchInstrument): boolean =>
  type === undefined || types.includes(type)
const says = ({ methods, unit }: Quantity, c: InstrumentCheck): boolean => c.unit === unit && methods.includes(c.method)

/** A temperature is known no better than its check allowed, and a thermometer stated to have no error at all is of unknown error. */
function withError(instrument: BatchInstrument, allowed: number): BatchInstrument {
  const { toleranceC, ...rest } = instrument
  return toleranceC === undefined || Math.max(toleranceC, allowed) <= 0
    ? rest
    : { ...rest, toleranceC: Math.max(toleranceC, allowed) }
}

/**
 * Whether an instrument is within its checks on a day: the last check of what is read on it, on or before the day, is good and not past. A
 * check of something else (the clock, the humidity) says nothing. Without the checks themselves, its standing on the batch's date is all
 * there is.
 *
 * @param what the scale, or the thermometer of something, in words
 */
export function trustOn(facts: Facts, id: string | undefined, day: string, what: string): Trust {
  const instrument = id === undefined ? undefined : facts.instruments.find((i) => i.instrument === id)
  if (!instrument) return unnamed(what)
  const { name, checkEveryDays } = instrument
  const quantity = what === 'scale' ? mass : temperature
  const settle = `check ${name} ${quantity.checked}, and record it`
  if (!measures(quantity, instrument))
    return { ok: false, because: `${name} (${id}) is a ${instrument.type}`, settle: `say which ${what} it was` }
  if (instrument.inDoubt) return { ok: false, because: standingOf(instrument), settle }
  if (facts.checks === undefined || checkEveryDays === undefined)
    return inDate(instrument) ? { ok: true, instrument } : { ok: false, because: standingOf(instrument), settle }
  const those = facts.checks.filter((c) => c.instrument === id && c.on <= day && says(quantity, c))
  if (those.length === 0)
    return { ok: false, because: `${name} (${id}) was not checked ${quantity.checked} before ${day}`, settle }
  const lastDay = those.reduce((a, c) => (c.on > a ? c.on : a), '')
  // Of each method the last of that day: one point that is right does not put right another that is wrong.
  const byMethod = Map.groupBy(
    those.filter((c) => c.on === lastDay),
    (c) => c.method,
  )
  const last = [...byMethod.values()].map((same) => same.at(-1)!)
  const allowed = Math.max(...last.map((c) => c.tolerance))
  if (last.some((c) => !c.good))
    return { ok: false, because: `${name} (${id}) was out of tolerance at its check of ${lastDay}`, settle }
  if (daysAfter(lastDay, Math.floor(checkEveryDays)) < day)
    return { ok: false, because: `${name} (${id}) was past its check on ${day} (last on ${lastDay})`, settle }
  return {
    ok: true,
    instrument: quantity === temperature ? withError(instrument, allowed) : instrument,
    tolerance: allowed,
  }
}

/** Buffers have to lie at least this far apart, one of them no higher than the sour end of a sausage; a choice of ours, no source. */
const BUFFERS_APART_PH = 1
const SOUR_BUFFER_PH = 4.7

/**
 * Beside standards that do not enclose it a reading counts no further from them than `near`: 0.5 pH, and 0.25 of water activity, which leaves
 * the saturated table salt of 0.753 that kitchens have good up to 1. Choices of ours, no source.
 */

/** Usual error of a pH meter set that day, ±, and the finest a meter reads: common practice, no source. */
export const PH_METER = { usual: 0.05, finest: 0.01 } as const

const methods = {
  buffer: {
    meter: 'pH meter',
    types: ['ph-meter'],
    unit: 'pH',
    done: `calibrated against two buffers (one at ${SOUR_BUFFER_PH} or lower)`,
    usual: PH_METER.usual,
    finest: PH_METER.finest,
    standards: 'buffers',
    near: 0.5,
  },
  'salt-standard': {
    meter: 'water activity meter',
    types: ['aw-meter'],
    unit: 'aw',
    done: 'checked against a salt standard',
    usual: 0.005,
    finest: 0.001,
    standards: 'a salt standard',
    near: 0.25,
  },
} as const

/**
 * Whether a meter was set against its standard on the very day of a reading: of each standard the checks of that day, the last of them
 * good, in the meter's own unit; a pH meter against two buffers. A check that allowed less than a meter can read, or nothing, leaves the
 * usual error of such a meter, never none.
 *
 * @param day the day of the reading at the kitchen
 * @param reading what it read, where the standards have to lie about that
 */
export function calibratedOn(
  facts: Facts,
  id: string | undefined,
  day: string,
  method: keyof typeof methods,
  reading?: number,
): Trust {
  const { meter, types, unit, done, usual, finest, standards, near } = methods[method]
  const instrument = id === undefined ? undefined : facts.instruments.find((i) => i.instrument === id)
  if (!instrument) return unnamed(meter)
  const settle = `a reading on a ${meter} ${done} the same day, and that check recorded`
  const name = `${instrument.name} (${id})`
  if (!measures({ types }, instrument)) return { ok: false, because: `${name} is a ${instrument.type}`, settle }
  if (instrument.inDoubt) return { ok: false, because: standingOf(instrument), settle }
  const those = (facts.checks ?? []).filter(
    (c) => c.instrument === id && c.on === day && c.method === method && c.unit === unit,
  )
  const byReference = Map.groupBy(those, (c) => c.reference)
  const last = [...byReference.values()].map((same) => same.at(-1)!)
  const bad = last.some((c) => !c.good)
  if (bad) return { ok: false, because: `${name} was out of tolerance at its check of ${day}`, settle }
  const buffers = last.flatMap((c) => (c.reference === undefined ? [] : [c.reference]))
  const enough =
    method === 'buffer'
      ? Math.min(...buffers) <= SOUR_BUFFER_PH && Math.max(...buffers) - Math.min(...buffers) >= BUFFERS_APART_PH
      : last.length > 0
  if (!enough) return { ok: false, because: `${name} was not ${done} on ${day}`, settle }
  const [low, high] = [Math.min(...buffers), Math.max(...buffers)]
  if (reading !== undefined && !(reading >= low - near - 1e-9 && reading <= high + near + 1e-9))
    return {
      ok: false,
      because: `${unit} ${reading} lies outside what ${name} was set for on ${day}: ${standards} of ${low === high ? low : `${low} to ${high}`}`,
      settle: `a check of ${instrument.name} against standards about ${reading}, the same day, and the reading taken again`,
    }
  const allowed = Math.max(...last.map((c) => c.tolerance))
  return allowed >= finest
    ? { ok: true, instrument, tolerance: allowed }
    : { ok: true, instrument, tolerance: usual, assumed: true }
}
