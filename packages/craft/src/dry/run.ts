import type { Product } from './product.ts'
import { USUAL_AIR_SPEED_M_PER_S, leaving, rimResistance, type Air } from './rim.ts'
import { advance, cylinder, meanWater, solidsKgPerM, type Rim } from './shrinking-cylinder.ts'
import type { DryingStage } from './course-schema.ts'
import { startingDiffusivity, localDiffusivity } from './diffusivity.ts'
import type { Isotherm } from './sorption.ts'

/** Unknowns of a course, as logarithms of factors on the published figures: diffusivity, film with casing, the meat's own solutes. */
export type Factors = readonly [diffusivity: number, film: number, solutes: number]
export const AS_PUBLISHED: Factors = [0, 0, 0]

export type Snapshot = {
  readonly day: number
  readonly lossPct: number
  readonly meanWater: number
  readonly coreWater: number
  readonly rimWater: number
  readonly radiusM: number
  readonly air: Air
  /** Local diffusivity at the mean water, m²/s. */
  readonly diffusivity: number
  readonly resistance: number
}

export type Run = {
  /** At each day asked for, in order. */
  readonly at: readonly Snapshot[]
  /** First day the mean water is at or below the target; missing where it was not reached. */
  readonly readyDay?: number
  readonly isotherm: Isotherm
  readonly startWater: number
}

export type RunOrder = {
  readonly product: Product
  readonly stages: readonly DryingStage[]
  readonly factors: Factors
  /** Days to look at, ascending. */
  readonly days: readonly number[]
  /** Follow until the target is met, at most to this day; the last stage's air goes on. */
  readonly untilReadyBy?: number
}

const DAY_S = 86_400
const FIRST_STEP_S = 300
/** Where days are looked at, and where only the end is asked for. */
const LONGEST_STEP_S = 28_800
const LONGEST_BLIND_STEP_S = 57_600
const LONGEST_STEP_AFTER_S = DAY_S
const GROWTH = 1.5

/** Dries one piece through its stages. */
export function runCourse({ product, stages, factors, days, untilReadyBy }: RunOrder): Run {
  const isotherm = product.isotherm(Math.exp(factors[2]))
  const { startWater, radiusM } = product
  const target = product.targetWater(isotherm)
  const material = {
    diffusivity: () => 0,
    solidKgPerM3: product.solidKgPerM3,
    waterKgPerM3: product.waterKgPerM3,
    shrinks: true,
  }
  const c = cylinder(radiusM, startWater, material)
  const startKg = solidsKgPerM(c) * (1 + startWater)
  const at: Snapshot[] = []
  let [now, step, mark] = [0, FIRST_STEP_S, 0]
  let readyDay: number | undefined = target !== undefined && target >= startWater ? 0 : undefined
  let before = { s: 0, water: startWater }
  let air: Air = airOf(stages[0]!)
  let resistance = 0
  let atStart = 0

  const look = () => {
    while (mark < days.length && days[mark]! * DAY_S <= now + 1e-3) {
      const water = meanWater(c)
      at.push({
        day: days[mark]!,
        lossPct: (100 * c.lostKgPerM) / startKg,
        meanWater: water,
        coreWater: c.water[0]!,
        rimWater: c.rimWater,
        radiusM: c.radiusM,
        air,
        diffusivity: localDiffusivity(atStart, water / startWater),
        resistance,
      })
      mark++
    }
  }
  const reach = (end: number, longest: number, stop: () => boolean) => {
    while (now < end - 1e-3 && !stop()) {
      const next = mark < days.length ? Math.min(end, days[mark]! * DAY_S) : end
      const span = Math.min(step, next - now)
      advance(c, rimOf(air, resistance, isotherm), span)
      now += span
      step = Math.min(longest, step * GROWTH)
      const water = meanWater(c)
      if (readyDay === undefined && target !== undefined && water <= target)
        readyDay = (before.s + ((before.water - target) / (before.water - water || 1)) * (now - before.s)) / DAY_S
      before = { s: now, water }
      look()
    }
  }
  const enter = (stage: DryingStage) => {
    air = airOf(stage)
    resistance = rimResistance(air, 2 * radiusM, Math.exp(factors[1]))
    atStart = startingDiffusivity(product.fatPct, air.tempC) * Math.exp(factors[0])
    c.material = { ...material, diffusivity: (x) => localDiffusivity(atStart, x / startWater) }
  }
  const done = () =>
    mark >= days.length && (untilReadyBy === undefined || readyDay !== undefined || target === undefined)
  let planned = 0
  for (const stage of stages) {
    enter(stage)
    if (now === 0) look()
    planned += stage.days * DAY_S
    step = Math.min(step, 3600)
    reach(planned, days.length > 0 ? LONGEST_STEP_S : LONGEST_BLIND_STEP_S, done)
  }
  const last = Math.max(untilReadyBy ?? 0, days.at(-1) ?? 0) * DAY_S
  reach(last, untilReadyBy === undefined ? LONGEST_STEP_S : LONGEST_STEP_AFTER_S, done)
  return { at, isotherm, startWater, ...(readyDay === undefined ? {} : { readyDay }) }
}

const airOf = ({ tempC, rhPct, airSpeedMPerS = USUAL_AIR_SPEED_M_PER_S }: DryingStage): Air => ({
  tempC,
  rhPct,
  airSpeedMPerS,
})

function rimOf(air: Air, resistance: number, { aw }: Isotherm): Rim {
  const out = leaving(air, resistance)
  return { kind: 'flow', flow: (water) => out(aw(water)) }
}
