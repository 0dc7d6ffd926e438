import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { COARSE_MESH, WORKING_MESH, type BodyShape } from './body.ts'
import { createReader, peakOf, seriesInstants } from './course.ts'
import { materialOf } from './material.ts'
import { isPureSteam } from './exchange.ts'
import { filmCoefficient, radiationFilm } from './film.ts'
import { HOW_COOK_WAS_CHECKED } from './how-checked.ts'
import { simulate, WORKING, type Run, type RunOptions, type RunStage } from './simulate.ts'
import {
  ENDLESS_RATIO,
  pieceFields,
  runStage,
  stageFault,
  stagesField,
  standardPressure,
  USUAL_AIR_SPEED_M_PER_S,
  wettingOf,
  type Stage,
} from './stage.ts'

export const cookInput = z.strictObject({ ...pieceFields, stages: stagesField() })
export type CookInput = z.infer<typeof cookInput>

const warningsField = z.array(z.string())
export const cookOutput = z.strictObject({
  series: z.array(
    z.strictObject({
      minute: z.number(),
      houseC: z.number(),
      surfaceC: z.number(),
      coreC: z.number(),
      weightLossPct: z.number(),
    }),
  ),
  stages: z.array(
    z.strictObject({
      medium: z.enum(['air', 'water', 'steam', 'ice-water']),
      startMinute: z.number(),
      endMinute: z.number(),
      coreC: z.number(),
      surfaceC: z.number(),
      meanC: z.number(),
      weightLossPct: z.number(),
      /** Film coefficient used, given or from a correlation. */
      filmWPerM2K: z.number(),
      filmFrom: z.enum(['given', 'correlation', 'common-practice']),
      /** True where the stage ended at its core temperature. */
      reachedCore: z.boolean().optional(),
      /** Highest core temperature of the stage and of the rise that goes on after it. */
      peakCoreC: z.number(),
      peakMinute: z.number(),
    }),
  ),
  minutesTotal: z.number(),
  weightLossPct: z.number(),
  peakCoreC: z.number(),
  peakMinute: z.number(),
  /** What the core still does in still room air where the last stage ends with it rising. */
  carryOver: z.strictObject({ roomC: z.number(), peakCoreC: z.number(), afterMinutes: z.number() }).optional(),
  geometry: z.enum(['infinite-cylinder', 'finite-cylinder']),
  /** Heat in less heat held over heat turned over; the solver's books. */
  energyResidual: z.number(),
  warnings: warningsField,
})
export type CookOutput = z.infer<typeof cookOutput>

/** Room into which a piece is thought taken out, for the carried rise of the core. */
const ROOM_C = 20
const CARRY_MINUTES = 120
/** Meat starts to freeze about here (common practice; 1 to 2 °C below zero by its salt). */
const FREEZING_C = -1

/** All that a run needs, from the input; the fit changes films and conductivity through `change`. */
export function planOf(
  input: CookInput,
  change: { diffusivityFactor?: number; stages?: (stage: RunStage, index: number) => RunStage } = {},
) {
  const pressurePa = input.pressurePa ?? standardPressure
  const faults = input.stages.map((s, i) => stageFault(s, i, pressurePa)).filter((f) => f !== undefined)
  if (faults.length > 0) throw new InvalidInput(faults)
  const radiusM = input.diameterMm / 2000
  const endless = input.lengthMm === undefined || input.lengthMm >= ENDLESS_RATIO * input.diameterMm
  const shape: BodyShape = endless ? { radiusM } : { radiusM, lengthM: input.lengthMm! / 1000 }
  const given = typeof input.properties === 'object' ? input.properties : undefined
  const material = materialOf(input.composition, input.startC, given, change.diffusivityFactor ?? 1)
  const piece = { diameterM: 2 * radiusM, pressurePa, filmFactor: input.filmFactor ?? 1 }
  let from = input.startC
  const stages = input.stages.map((stage, i) => {
    const run = runStage(stage, from, piece)
    from = stage.tempC
    return change.stages ? change.stages(run, i) : run
  })
  const massPerArea =
    (material.density * radiusM) / (shape.lengthM === undefined ? 2 : 2 * (1 + radiusM / shape.lengthM))
  return { shape, material, stages, wetting: wettingOf(input, massPerArea), pressurePa, piece }
}
export type Plan = ReturnType<typeof planOf>

export const runPlan = (plan: Plan, startC: number, options: RunOptions): Run =>
  simulate(plan.shape, plan.material, startC, plan.stages, plan.wetting, plan.pressurePa, options)

export const workingOptions: RunOptions = { ...WORKING, mesh: WORKING_MESH }
export const coarseOptions: RunOptions = { toleranceC: 5e-3, longestStepS: 300, mesh: COARSE_MESH }

/** Refuse a schedule whose core temperature cannot come. */
export function refuseStalled(run: Run, stages: readonly Stage[]): void {
  const index = run.stages.findIndex((s) => s.stalledAtC !== undefined)
  if (index < 0) return
  const end = run.stages[index]!
  const hours = (end.endS - end.startS) / 3600
  throw new InvalidInput([
    {
      path: `stages[${index}].untilCoreC`,
      message: `is ${stages[index]!.untilCoreC} °C, but after ${hours.toFixed(1)} h in this stage the core stands at ${end.coreC.toFixed(1)} °C and hardly moves (surface ${end.surfaceC.toFixed(1)} °C); allowed: a core temperature this ${stages[index]!.medium} can give`,
    },
  ])
}

/**
 * Temperature and weight of a sausage through a schedule: transient conduction in a cylinder by conservative finite volumes and an
 * L-stable second-order scheme, with convection, evaporation and condensation at the surface.
 * @throws InvalidInput for air that cannot exist and for a core temperature that cannot be reached
 */
export function cook(input: CookInput): CookOutput {
  const plan = planOf(input)
  const run = runPlan(plan, input.startC, workingOptions)
  refuseStalled(run, input.stages)
  const read = createReader(run)
  const lossPct = (kg: number) => Math.min(100 * plan.material.waterShare, (100 * kg) / run.massKg)
  const series = seriesInstants(run).map((s) => {
    const p = read(s)
    return { minute: s / 60, houseC: p.houseC, surfaceC: p.surfaceC, coreC: p.coreC, weightLossPct: lossPct(p.lostKg) }
  })
  const peaks = run.stages.map((_, i) => peakOf(run, i))
  const highest = peaks.reduce((a, b) => (b.coreC > a.coreC ? b : a))
  const last = run.stages.at(-1)!
  const carry = carryOver(plan, run)
  return {
    series,
    stages: run.stages.map((s, i) => ({
      medium: input.stages[i]!.medium,
      startMinute: s.startS / 60,
      endMinute: s.endS / 60,
      coreC: s.coreC,
      surfaceC: s.surfaceC,
      meanC: s.meanC,
      weightLossPct: lossPct(s.lostKg),
      filmWPerM2K: s.filmWPerM2K,
      filmFrom: filmFrom(input.stages[i]!, plan.pressurePa),
      ...(input.stages[i]!.untilCoreC === undefined ? {} : { reachedCore: s.reached }),
      peakCoreC: peaks[i]!.coreC,
      peakMinute: peaks[i]!.s / 60,
    })),
    minutesTotal: last.endS / 60,
    weightLossPct: lossPct(last.lostKg),
    peakCoreC: highest.coreC,
    peakMinute: highest.s / 60,
    ...(carry ? { carryOver: carry } : {}),
    geometry: plan.shape.lengthM === undefined ? 'infinite-cylinder' : 'finite-cylinder',
    energyResidual: run.turnoverJ === 0 ? 0 : (run.enteredJ - run.heldJ) / run.turnoverJ,
    warnings: warningsOf(input, run),
  }
}

function filmFrom(stage: Stage, pressurePa: number): 'given' | 'correlation' | 'common-practice' {
  if (stage.filmWPerM2K !== undefined) return 'given'
  const assumed =
    (stage.medium === 'ice-water' && stage.waterSpeedMPerS === undefined) ||
    (stage.medium === 'steam' && isPureSteam(stage.tempC, pressurePa))
  return assumed ? 'common-practice' : 'correlation'
}

/** The core's rise after the last stage, the piece hanging in still, dry-sided room air; undefined where the core no longer rises. */
function carryOver(plan: Plan, run: Run): CookOutput['carryOver'] {
  const profile = run.body.profile().tempC
  const core = run.body.coreC()
  if (profile.length < 2 || profile[1]! <= core + 1e-4) return undefined
  const after = simulateAfter(plan, run)
  return after.coreC > core ? { roomC: ROOM_C, peakCoreC: after.coreC, afterMinutes: after.s / 60 } : undefined
}

function simulateAfter(plan: Plan, run: Run): { coreC: number; s: number } {
  const { body } = run
  const still = filmCoefficient({
    medium: 'air',
    mediumC: ROOM_C,
    surfaceC: body.surfaceC(),
    diameterM: plan.piece.diameterM,
    speed: 0,
    pressurePa: plan.pressurePa,
  })
  const x = { filmWPerM2K: still + radiationFilm(ROOM_C, body.surfaceC()), mediumC: ROOM_C }
  const out = { error: 0, entered: 0, evaporated: 0 }
  let best = { coreC: body.coreC(), s: 0 }
  for (let s = 0, dt = 1; s < CARRY_MINUTES * 60; dt = Math.min(15, dt * 1.2)) {
    body.step(dt, [x, x, x], out)
    s += dt
    const coreC = body.coreC()
    if (coreC < best.coreC) break
    best = { coreC, s }
  }
  return best
}

function warningsOf(input: CookInput, run: Run): string[] {
  const air = input.stages.filter((s) => s.medium === 'air')
  const vapour = air.some((s) => s.rhPct !== undefined || s.wetBulbC !== undefined)
  const told: (string | false)[] = [
    HOW_COOK_WAS_CHECKED,
    air.some((s) => s.rhPct === undefined && s.wetBulbC === undefined) &&
      input.surface !== 'moisture-proof' &&
      'Air without rhPct or wetBulbC: evaporation and condensation are left out. A wet surface stays cooler and the core comes later than shown.',
    air.some((s) => s.filmWPerM2K === undefined && s.airSpeedMPerS === undefined) &&
      `No airSpeedMPerS: ${USUAL_AIR_SPEED_M_PER_S} m/s is assumed (common practice, no source).`,
    input.stages.some((s) => filmFrom(s, input.pressurePa ?? standardPressure) === 'common-practice') &&
      'A film coefficient for ice water or pure steam is common practice without a source; give filmWPerM2K or fit it to a log.',
    run.stages.some((_, i) => input.stages[i]!.tempC < run.points.find((p) => p.stage === i)!.coreC - 5) &&
      'Cooling: in published coolings of meat rolls and hams of 110 to 203 mm the core took up to 60 % longer in water, and up to 45 % longer in air, than this model says, and stood up to 7 °C warmer after 13 hours. Allow for it where a chill has a time limit.',
    vapour &&
      (input.surface ?? 'drying') === 'drying' &&
      'Weight loss rests on an assumed drying of the surface (criticalLossPct, then a crust); weigh a piece before and after to set it.',
    run.stages.at(-1)!.lostKg > 0.25 * run.massKg &&
      'A loss over a quarter of the weight is beyond what this model of the surface is for.',
    run.lowestC < FREEZING_C &&
      `The surface falls to ${run.lowestC.toFixed(1)} °C, where water starts to freeze; freezing is not in the model.`,
    run.stages.some((s, i) => input.stages[i]!.untilCoreC !== undefined && !s.reached) &&
      'A stage ran out of its minutes before its core temperature was reached.',
  ]
  return told.filter((w) => w !== false)
}
