import { findMaterial } from '@forcemeat/craft/materials/materials'
import { arrivalRules, type ArrivalClass } from '../../data/process/arrival.ts'
import { evaluate } from '../evaluate.ts'
import { isKnown } from '../measure.ts'
import type { Finding, Measure } from '../rule.ts'
import { inDate, standingOf, type BatchInstrument } from '../batch/facts.ts'
import { ownFinding, type OwnLimits } from './own-limits.ts'

/** Preserved or rendered: not the chilled fresh meat the limits speak of. */
const notFresh = /^(lard|bacon|salt-pork|beef-tallow|duck-fat|pork-rind-boiled)$/
const minced = /-(ground|mechanically-separated)(-|$)/
const birds: ReadonlySet<string> = new Set(['chicken', 'turkey', 'duck', 'goose', 'pheasant', 'rabbit'])
const organs = /-(liver|heart|kidney|tongue|stomach|chitterlings|lung|spleen|blood|tripe|gizzard)$/

/** Which class of chilled meat a material is, by its id; undefined for what no arrival temperature is published for. */
export function arrivalClassOf(material: string): ArrivalClass | undefined {
  const found = findMaterial(material)
  if (found?.species === undefined || notFresh.test(material)) return undefined
  if (minced.test(material)) return 'minced'
  if (birds.has(found.species)) return 'poultry'
  return organs.test(material) ? 'offal' : 'red'
}

export type ArrivalFacts = {
  readonly material: string
  readonly arrivalC?: number | undefined
  /** The thermometer as it stood on the day; absent where none was named. */
  readonly thermometer?: BatchInstrument | undefined
  readonly on: string
  readonly jurisdictions: readonly string[]
  readonly own?: OwnLimits | undefined
}

function measureOf({ arrivalC, thermometer }: ArrivalFacts): Measure {
  const settle = 'measure it at the core or between packs with a thermometer in date, and name the thermometer'
  if (arrivalC === undefined) return { missing: 'the temperature on arrival is not recorded', settle }
  if (!thermometer) return { missing: `${arrivalC} °C on arrival, and no thermometer is named`, settle }
  if (!inDate(thermometer)) return { missing: `${arrivalC} °C on arrival, and ${standingOf(thermometer)}`, settle }
  const off = thermometer.toleranceC
  return off === undefined
    ? { value: arrivalC }
    : { value: arrivalC, low: arrivalC - off, high: arrivalC + off, settle: 'a thermometer of a smaller error' }
}

function againstOwn(facts: ArrivalFacts, measure: Measure): Finding[] {
  const limit = facts.own?.arrivalMaxC
  if (limit === undefined) return []
  if (!isKnown(measure))
    return [
      ownFinding('arrival', {
        verdict: 'cannot-tell',
        because: measure.missing,
        ...(measure.settle === undefined ? {} : { settle: measure.settle }),
      }),
    ]
  // A kitchen sets its own limit for what its thermometer shows.
  const { value } = measure
  return [
    ownFinding(
      'arrival',
      value <= limit
        ? { verdict: 'pass', because: `${value} °C on arrival; allowed here at most ${limit} °C` }
        : { verdict: 'fail', because: `${value} °C on arrival; allowed here at most ${limit} °C` },
      { measured: value, limit },
    ),
  ]
}

/**
 * Whether a lot of chilled meat came in cold enough: by the law of each place it is sold in, and by the kitchen's own limit. No finding for
 * what is no chilled meat.
 */
export function judgeArrival(facts: ArrivalFacts): Finding[] {
  const meatClass = arrivalClassOf(facts.material)
  if (meatClass === undefined) return []
  const measure = measureOf(facts)
  const subject = {
    facts: { meatClass },
    measures: { arrivalC: measure },
    on: facts.on,
    jurisdictions: facts.jurisdictions,
  }
  return [...arrivalRules.flatMap((r) => evaluate(r, subject) ?? []), ...againstOwn(facts, measure)]
}
