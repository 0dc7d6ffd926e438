import { asNitrateIon, asNitriteIon, moleForMole } from '@forcemeat/craft/cure/molar'
import { isKnown, spanOf, weighted, type Known } from '../measure.ts'
import type { Case, Measure } from '../rule.ts'

/**
 * The measures of a recipe that rules limit. mg/kg are per kg of the green weight of the meat block unless said; percents by mass.
 *
 * | measure | what |
 * |---|---|
 * | nitritePpm, nitratePpm | ingoing, as sodium salt, potassium forms mole for mole |
 * | nitriteSaltsPpm, nitrateSaltsPpm | ingoing, salts as weighed |
 * | nitritePpmIon, nitratePpmIon | ingoing, as ion; derived where left out |
 * | erythorbatePpm, ascorbatePpm | as sodium salt; erythorbicAcidPpm is derived |
 * | acceleratorSaltsPpm, acceleratorAcidsPpm | as added |
 * | residualNitritePpm, residualNitratePpm | by analysis, finished product, as sodium salt; residualNitritePpmIon is derived |
 * | finishedPctOfMeatBlock | finished weight as % of the meat block; gives residualNitriteBoundPpm |
 * | fatPct, proteinPct, waterPct, saltPct | finished product |
 * | addedWaterPct | finished product, by 9 CFR 318.22 |
 * | declaredMeatPct | of the formula, fat and connective tissue beyond the species limits taken off; from meatPct, at most that |
 * | species:<name>Pct | of the meat block; gives poultryPct |
 * | rawFatPct | of the mix before cooking |
 * | formulaWaterPct, poultryPct, skeletalMeatPct, liverPct, meatPct, meatAndFatPct | of the formula |
 * | binderPct | every binder and extender; strongBinderPct the part that is isolated soy protein or caseinate |
 * | phosphatePct, phosphateAsDisodiumPct, phosphateP2O5Ppm | finished product |
 * | gdlPct, fumaricAcidPct | of the meat |
 * | meatProteinPct, fatFreeMeatPct, collagenOfProteinPct, meatFatPct | for identity elsewhere |
 * | antioxidantOfFatPct, antioxidantsOfFatPct, antioxidantPct, antioxidantsPct | one alone (the highest), all together |
 */
export type RecipeMeasures = Case['measures']

const times = (measure: Known, factor: number): Known => {
  const { low, high } = spanOf(measure)
  return { value: measure.value * factor, low: low * factor, high: high * factor }
}

/** True where a measure is above 0 at its highest, false where it is 0, undefined where it is not known. */
const used = (measure: Measure | undefined): boolean | undefined =>
  isKnown(measure) ? spanOf(measure).high > 0 : undefined

const either = (...answers: (boolean | undefined)[]): boolean | undefined =>
  answers.includes(true) ? true : answers.includes(undefined) ? undefined : false

/** An additive that no measure names is not in the recipe: a recipe lists all its parts. */
const anyUsed = (measures: RecipeMeasures, names: readonly string[]): boolean =>
  names.some((n) => used(measures[n]) === true || (measures[n] !== undefined && !isKnown(measures[n])))

/** Most nitrite that could be left: all of it, and all nitrate turned to nitrite, on the finished weight. */
function residualBound(m: RecipeMeasures): Measure | undefined {
  const { nitritePpm, nitratePpm, finishedPctOfMeatBlock: finished } = m
  if (!isKnown(nitritePpm)) return undefined
  const settle = 'an analysis of the finished product for nitrite, or the finished weight as % of the meat block'
  if (!isKnown(finished) || spanOf(finished).low <= 0)
    return {
      missing:
        'nitrite left in the finished product is not known: neither an analysis nor the finished weight is given',
      settle,
    }
  if (!isKnown(nitratePpm)) return { missing: 'nitratePpm is not known', settle }
  const sum = weighted(
    [
      { measure: 'nitritePpm', weight: 1 },
      { measure: 'nitratePpm', weight: moleForMole('sodiumNitrate', 'sodiumNitrite') },
    ],
    m,
  )
  if (!isKnown(sum)) return sum
  const high = (spanOf(sum).high * 100) / spanOf(finished).low
  return { value: high, low: 0, high, settle: 'an analysis of the finished product for nitrite' }
}

/** Salts as weighed share the error of the scale with the sodium equivalent: its interval, in proportion. */
export function asWeighed(salts: Measure | undefined, equivalent: Measure | undefined): Measure | undefined {
  if (!isKnown(salts) || salts.low !== undefined || salts.high !== undefined) return salts
  if (!isKnown(equivalent)) return equivalent ?? salts
  if (equivalent.value <= 0) return salts
  const { low, high } = spanOf(equivalent)
  return {
    value: salts.value,
    low: (salts.value * low) / equivalent.value,
    high: (salts.value * high) / equivalent.value,
  }
}

const poultry = ['chicken', 'turkey', 'duck']

/** Poultry as percent of all ingredients, water left out, from shares of the meat block. */
function poultryShare(m: RecipeMeasures): Measure | undefined {
  const { meatPct, formulaWaterPct } = m
  if (!Object.keys(m).some((k) => k.startsWith('species:')) || !isKnown(meatPct) || !isKnown(formulaWaterPct))
    return undefined
  const ofBlock = weighted(
    poultry.filter((s) => m[`species:${s}Pct`]).map((s) => ({ measure: `species:${s}Pct`, weight: 1 })),
    m,
  )
  return isKnown(ofBlock) ? times(ofBlock, meatPct.value / (100 - formulaWaterPct.value)) : ofBlock
}

/** The measures with those that follow from others added; what was given stands. */
export function completeMeasures(given: RecipeMeasures): RecipeMeasures {
  const out: Record<string, Measure> = {}
  const derive = (name: string, from: Measure | undefined, by: (m: Known) => Known): void => {
    if (from !== undefined) out[name] = isKnown(from) ? by(from) : from
  }
  derive('nitritePpmIon', given['nitritePpm'], (m) => times(m, asNitriteIon(1)))
  derive('nitratePpmIon', given['nitratePpm'], (m) => times(m, asNitrateIon(1)))
  derive('residualNitritePpmIon', given['residualNitritePpm'], (m) => times(m, asNitriteIon(1)))
  derive('erythorbicAcidPpm', given['erythorbatePpm'], (m) =>
    times(m, moleForMole('sodiumErythorbate', 'erythorbicAcid')),
  )
  derive('meatAndFatPct', given['meatPct'], (m) => m)
  derive('declaredMeatPct', given['meatPct'], (m) => ({
    value: m.value,
    low: 0,
    high: spanOf(m).high,
    settle: 'the meat content by the published calculation, from the fat and the collagen of each meat',
  }))
  derive('strongBinderPct', given['binderPct'], (m) => ({
    value: 0,
    low: 0,
    high: spanOf(m).high,
    settle: 'how much of the binder is isolated soy protein or caseinate',
  }))
  const shared = poultryShare(given)
  if (shared) out['poultryPct'] = shared
  const bound = residualBound(given)
  if (bound) out['residualNitriteBoundPpm'] = bound
  const unmeasured = (what: string): Measure => ({
    missing: `${what} left in the finished product has not been measured`,
    settle: 'an analysis of the finished product; what went in does not tell what is left',
  })
  // With the bound at hand the stand-in speaks; without it, this says what to measure.
  out['residualNitritePpm'] = unmeasured('nitrite')
  out['residualNitritePpmIon'] ??= unmeasured('nitrite')
  out['residualNitratePpm'] = unmeasured('nitrate')
  const nitriteSalts = asWeighed(given['nitriteSaltsPpm'], given['nitritePpm'])
  const nitrateSalts = asWeighed(given['nitrateSaltsPpm'], given['nitratePpm'])
  return {
    ...out,
    ...given,
    ...(nitriteSalts ? { nitriteSaltsPpm: nitriteSalts } : {}),
    ...(nitrateSalts ? { nitrateSaltsPpm: nitrateSalts } : {}),
  }
}

/** Facts that the measures themselves tell. */
export function factsOf(m: RecipeMeasures): Case['facts'] {
  const nitrate = used(m['nitratePpm'])
  return {
    cured: either(used(m['nitritePpm']), nitrate),
    nitrateAdded: nitrate,
    acceleratorAdded: anyUsed(m, ['acceleratorSaltsPpm', 'acceleratorAcidsPpm', 'erythorbatePpm', 'ascorbatePpm']),
    binderAdded: anyUsed(m, ['binderPct', 'strongBinderPct']),
    phosphateAdded: anyUsed(m, ['phosphatePct', 'phosphateAsDisodiumPct', 'phosphateP2O5Ppm']),
    gdlAdded: anyUsed(m, ['gdlPct']),
    fumaricAdded: anyUsed(m, ['fumaricAcidPct']),
    antioxidantAdded: anyUsed(m, ['antioxidantOfFatPct', 'antioxidantsOfFatPct', 'antioxidantPct', 'antioxidantsPct']),
  }
}
