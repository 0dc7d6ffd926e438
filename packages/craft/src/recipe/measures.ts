import { stated, type Component } from '../blend/composition-of.ts'
import type { MeasureOut, RecipeComputeInput } from './compute-schema.ts'
import { addedWater } from './added-water.ts'
import { declaredMeat } from './declared-meat.ts'
import { identityMeasures, isOtherProtein, kgOf } from './identity.ts'
import { phosphateMeasures } from './phosphate.ts'
import type { CureOf } from './salt-and-cure.ts'
import type { Part } from './lines.ts'

/** A component not stated by parts whose mass could move it by no more than this is given as an interval; beyond it, not at all. */
const MOST_SPREAD_PCT = 1

/** The most a part can hold of a component it does not state: its protein for collagen, else what its other parts leave. */
function most({ composition: c }: Part, component: Component): number {
  if (component === 'collagenPct') return c.proteinPct ?? 100
  return Math.max(0, 100 - (c.waterPct ?? 0) - (c.proteinPct ?? 0) - (c.fatPct ?? 0) - (c.carbohydratePct ?? 0))
}

/**
 * A component of the mix with the interval that the parts which do not state it leave open: from none of it in them to all of
 * them being it. A wide interval is no measure, and says whose figure is missing.
 */
export function componentMeasure(parts: readonly Part[], component: Component): MeasureOut {
  const totalKg = kgOf(parts, () => true)
  const lacking = parts.filter((p) => p.kg > 0 && stated(p.composition, component) === undefined)
  const known = parts.reduce((s, p) => s + p.kg * (stated(p.composition, component) ?? 0), 0) / totalKg
  if (lacking.length === 0) return { value: known }
  const spread = lacking.reduce((s, p) => s + p.kg * most(p, component), 0) / totalKg
  const names = [...new Set(lacking.filter((p) => most(p, component) > 0).map((p) => p.material.name))].join(', ')
  if (spread > MOST_SPREAD_PCT)
    return {
      missing: `${component} of ${names} is not known`,
      settle: `the ${component} of ${names}, from a specification or an analysis`,
    }
  return { value: known + spread / 2, low: known, high: known + spread }
}

/** Finished figure of a component where what is lost is water alone: other parts concentrate. */
const concentrated = (m: MeasureOut, lossPct: number): MeasureOut => {
  if ('missing' in m || lossPct === 0) return m
  const f = 100 / (100 - lossPct)
  return {
    value: m.value * f,
    ...(m.low === undefined ? {} : { low: m.low * f }),
    ...(m.high === undefined ? {} : { high: m.high * f }),
  }
}

const dried = (m: MeasureOut, lossPct: number): MeasureOut => {
  if ('missing' in m || lossPct === 0) return m
  const at = (x: number) => Math.max(0, (100 * (x - lossPct)) / (100 - lossPct))
  return {
    value: at(m.value),
    ...(m.low === undefined ? {} : { low: at(m.low) }),
    ...(m.high === undefined ? {} : { high: at(m.high) }),
  }
}

/** No sausage that is eaten loses more of its weight than this, percent; common practice, no source. */
const MOST_LOSS_PCT = 60

/** A figure of the raw mix that the finished product has at least, where nobody stated how much weight it loses. */
const atLeast = (m: MeasureOut, most = 100): MeasureOut =>
  'missing' in m
    ? m
    : {
        value: m.value,
        low: m.low ?? m.value,
        high: Math.min(most, ((m.high ?? m.value) * 100) / (100 - MOST_LOSS_PCT)),
        settle: 'the loss of weight in the cook or in drying, or an analysis of the finished product',
      }

/** Protein that is not of meat, percent of the mix; parts that do not state theirs leave it unknown. */
function otherProtein(parts: readonly Part[], totalKg: number): number | undefined {
  let kg = 0
  for (const p of parts) {
    if (!isOtherProtein(p) || p.kg === 0) continue
    if (p.composition.proteinPct === undefined) return undefined
    kg += p.kg * p.composition.proteinPct
  }
  return kg / totalKg
}

function addedWaterMeasure(water: MeasureOut, protein: MeasureOut, group2ProteinPct: number | undefined): MeasureOut {
  if ('missing' in water) return water
  if ('missing' in protein) return protein
  if (group2ProteinPct === undefined)
    return { missing: 'the protein of some addition is not known', settle: 'its protein, from a specification' }
  const at = (w: number, p: number) =>
    addedWater({ waterPct: w, proteinPct: Math.max(p, group2ProteinPct), group2ProteinPct }).addedWaterPct
  const [lowW, highW, lowP, highP] = [
    water.low ?? water.value,
    water.high ?? water.value,
    protein.low ?? protein.value,
    protein.high ?? protein.value,
  ]
  const value = at(water.value, protein.value)
  return lowW === highW && lowP === highP ? { value } : { value, low: at(lowW, highP), high: at(highW, lowP) }
}

export type Mix = {
  readonly parts: readonly Part[]
  readonly meatKg: number
  readonly totalKg: number
  readonly lossPct: number | undefined
  readonly cure: CureOf
  readonly kind: RecipeComputeInput['recipe']['kind']
}

/** Loss the recipe states, cooking and drying after one another, percent of the raw mix; undefined where it states neither. */
export function lossOf({ cook, dry }: RecipeComputeInput['recipe']): number | undefined {
  if (cook?.lossPct === undefined && dry === undefined) return undefined
  return 100 * (1 - (1 - (cook?.lossPct ?? 0) / 100) * (1 - (dry?.lossPct ?? 0) / 100))
}

/**
 * Figures the rulebook limits. Ingoing cure is on the meat block. Composition, phosphate and added water are of the
 * finished product where the recipe states its loss, what is lost taken as water alone. Where a product that is cooked or dried states
 * none, parts other than water are an interval from the raw figure up. `raw…` figures are always of the mix.
 */
export function measuresOf({ parts, meatKg, totalKg, lossPct: stated, cure, kind }: Mix): Record<string, MeasureOut> {
  const lossPct = stated ?? 0
  const lossUnknown = stated === undefined && kind !== 'fresh'
  const finishedFigure = (m: MeasureOut): MeasureOut => (lossUnknown ? atLeast(m) : concentrated(m, lossPct))
  const cureFigure = (value: number | undefined): MeasureOut =>
    value === undefined
      ? { missing: cure.because, settle: 'the analysis of every cure, and the pickle where there is one' }
      : { value }
  const water = componentMeasure(parts, 'waterPct')
  const protein = componentMeasure(parts, 'proteinPct')
  const fat = componentMeasure(parts, 'fatPct')
  const salt = componentMeasure(parts, 'saltPct')
  const other = otherProtein(parts, totalKg)
  const finished = totalKg * (1 - lossPct / 100)
  const share = (kg: number, of: number): MeasureOut => ({ value: (100 * kg) / of })
  const finishedOther = other === undefined ? undefined : (other * totalKg) / finished
  const named = (ids: readonly string[]) => kgOf(parts, (p) => ids.includes(p.material.id))
  return {
    nitritePpm: cureFigure(cure.nitritePpm),
    nitritePpmIon: cureFigure(cure.nitriteIonPpm),
    nitratePpm: cureFigure(cure.nitratePpm),
    nitratePpmIon: cureFigure(cure.nitrateIonPpm),
    nitriteSaltsPpm: cureFigure(cure.nitriteSaltsPpm),
    nitrateSaltsPpm: cureFigure(cure.nitrateSaltsPpm),
    erythorbatePpm: cureFigure(cure.erythorbatePpm),
    ascorbatePpm: cureFigure(cure.ascorbatePpm),
    acceleratorSaltsPpm: cureFigure(cure.acceleratorSaltsPpm),
    acceleratorAcidsPpm: cureFigure(cure.acceleratorAcidsPpm),
    fatPct: finishedFigure(fat),
    proteinPct: finishedFigure(protein),
    saltPct: finishedFigure(salt),
    collagenPct: finishedFigure(componentMeasure(parts, 'collagenPct')),
    waterPct: dried(water, lossPct),
    addedWaterPct: addedWaterMeasure(dried(water, lossPct), concentrated(protein, lossPct), finishedOther),
    rawFatPct: fat,
    rawProteinPct: protein,
    rawWaterPct: water,
    rawAddedWaterPct: addedWaterMeasure(water, protein, other),
    ...(stated === undefined ? {} : { finishedPctOfMeatBlock: share(finished, meatKg) }),
    addedSaltPct: { value: cure.addedSaltPctOfTotal },
    gdlPct: share(named(['glucono-delta-lactone']), meatKg),
    ...identityMeasures(parts, meatKg, totalKg),
    declaredMeatPct: declaredMeat(parts, totalKg),
    ...Object.fromEntries(
      Object.entries(phosphateMeasures(parts, finished)).map(([name, m]) => [name, lossUnknown ? atLeast(m, 1e6) : m]),
    ),
  }
}
