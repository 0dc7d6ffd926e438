import { z } from 'zod'
import type { Fault } from '../calculation.ts'
import { lengthMm, list, minutes, oneOf, quantity, tempC } from '../schema.ts'
import { airFault, pressure, ratioOf } from './air.ts'
import { isPureSteam, LEWIS_FACTOR } from './exchange.ts'
import { filmCoefficient, radiationFilm, ICE_WATER_FILM_W_PER_M2K, STEAM_FILM_W_PER_M2K } from './film.ts'
import { humidityRatio, saturationPressurePa, STANDARD_PRESSURE_PA } from './psychrometrics.ts'
import { PROPERTY_RANGE_C, thermalComposition } from './properties.ts'
import type { Film, RunStage, Wetting } from './simulate.ts'

export const stageSchema = z
  .strictObject({
    medium: oneOf(['air', 'water', 'steam', 'ice-water']),
    tempC: quantity('°C', { min: -30, max: 150 }),
    wetBulbC: quantity('°C', { min: -30, max: 100 }).optional(),
    rhPct: quantity('%', { min: 0, max: 100 }).optional(),
    airSpeedMPerS: quantity('m/s', { min: 0, max: 30 }).optional(),
    /** Speed of stirred water past the pieces; 0 is a still bath. */
    waterSpeedMPerS: quantity('m/s', { min: 0, max: 5 }).optional(),
    filmWPerM2K: quantity('W/(m²·K)', { min: 0.1, max: 50_000 }).optional(),
    minutes: minutes().optional(),
    untilCoreC: tempC().optional(),
    /** Minutes in which the medium goes in a straight line from the stage before to `tempC`. */
    rampMinutes: minutes().optional(),
  })
  .superRefine((s, ctx) => {
    const refuse = (path: string, message: string) => ctx.addIssue({ code: 'custom', path: [path], message })
    if (s.minutes === undefined && s.untilCoreC === undefined)
      refuse(
        'minutes',
        'is missing, and so is untilCoreC; allowed: one of them, or both (the stage then ends at whichever comes first)',
      )
    if (s.minutes !== undefined && s.minutes > 30 * 24 * 60)
      refuse('minutes', `is ${s.minutes}; allowed: at most 43200 (30 days)`)
    if (s.medium !== 'air')
      for (const field of ['wetBulbC', 'rhPct'] as const)
        if (s[field] !== undefined) refuse(field, `is given for ${s.medium}; allowed: humidity for air only`)
    if (s.airSpeedMPerS !== undefined && s.medium !== 'air' && s.medium !== 'steam')
      refuse(
        'airSpeedMPerS',
        `is given for ${s.medium}; allowed: for air and steam (for a stirred bath give waterSpeedMPerS)`,
      )
    if (s.waterSpeedMPerS !== undefined && s.medium !== 'water' && s.medium !== 'ice-water')
      refuse('waterSpeedMPerS', `is given for ${s.medium}; allowed: for water and ice-water`)
    if (s.rhPct !== undefined && s.wetBulbC !== undefined)
      refuse('wetBulbC', 'is given together with rhPct; allowed: at most one of them')
    if ((s.medium === 'water' || s.medium === 'ice-water') && (s.tempC > 100 || s.tempC < -5))
      refuse('tempC', `is ${s.tempC} for ${s.medium}; allowed: −5 to 100 °C (salted water below 0 °C)`)
  })
export type Stage = z.infer<typeof stageSchema>

export const constantProperties = z.strictObject({
  conductivityWPerMK: quantity('W/(m·K)', { min: 0.01, max: 20 }),
  densityKgPerM3: quantity('kg/m³', { min: 100, max: 5000 }),
  specificHeatJPerKgK: quantity('J/(kg·K)', { min: 100, max: 10_000 }),
})

/** Fields that say what is heated and in what; shared by the cook, the fit and the schedule. */
export const pieceFields = {
  diameterMm: quantity('mm', { min: 5, max: 500 }),
  lengthMm: lengthMm().optional(),
  composition: thermalComposition(),
  startC: quantity('°C', { min: PROPERTY_RANGE_C.min, max: 100 }),
  properties: z.union([z.literal('by-temperature'), constantProperties]).optional(),
  pressurePa: pressure().optional(),
  /** `drying` (usual): wet until the critical loss, then a crust; `wet`: wet throughout; `moisture-proof`: casing that keeps all water. */
  surface: oneOf(['drying', 'wet', 'moisture-proof']).optional(),
  /** Loss at which the surface starts to dry, percent of the start weight. */
  criticalLossPct: quantity('%', { min: 0, max: 60 }).optional(),
  /** Multiplies the film coefficients that are not given: below 1 for pieces close together or a loaded house. */
  filmFactor: quantity('', { min: 0.05, max: 20 }).optional(),
} as const

/** A piece is called endless, and its ends left out, from this ratio of length to diameter: the core then differs by under 0.01 °C. */
export const ENDLESS_RATIO = 6

/** Common practice, no source: air in a smokehouse whose fan is on. */
export const USUAL_AIR_SPEED_M_PER_S = 1
/** A sausage gives off this much, percent, before its surface dries. An assumption, not from a source. */
export const USUAL_CRITICAL_LOSS_PCT = 10

export type PieceSettings = { readonly diameterM: number; readonly pressurePa: number; readonly filmFactor: number }

export function wettingOf(
  input: { surface?: 'drying' | 'wet' | 'moisture-proof' | undefined; criticalLossPct?: number | undefined },
  massPerAreaKgPerM2: number,
): Wetting {
  const kind = input.surface ?? 'drying'
  if (kind !== 'drying') return { kind }
  return { kind, criticalKgPerM2: ((input.criticalLossPct ?? USUAL_CRITICAL_LOSS_PCT) / 100) * massPerAreaKgPerM2 }
}

/** Faults of a stage that its own fields alone do not show. */
export function stageFault(stage: Stage, index: number, pressurePa: number): Fault | undefined {
  if (stage.medium !== 'air' || (stage.wetBulbC === undefined && stage.rhPct === undefined)) return undefined
  const fault = airFault({ ...humidityOf(stage), tempC: stage.tempC, pressurePa })
  return fault && { path: `stages[${index}].${fault.path}`, message: fault.message }
}

const humidityOf = (stage: Stage) => ({
  ...(stage.wetBulbC === undefined ? {} : { wetBulbC: stage.wetBulbC }),
  ...(stage.rhPct === undefined ? {} : { rhPct: stage.rhPct }),
})

/**
 * A stage ready to run.
 * @param fromC temperature of the medium before, from which a ramp starts
 */
export function runStage(stage: Stage, fromC: number, piece: PieceSettings): RunStage {
  const rampS = 60 * (stage.rampMinutes ?? 0)
  const { tempC } = stage
  const mediumC = rampS > 0 ? (s: number) => (s >= rampS ? tempC : fromC + ((tempC - fromC) * s) / rampS) : () => tempC
  const ratio = ratioCourse(stage, mediumC, piece.pressurePa)
  return {
    film: stage.filmWPerM2K ?? ((surfaceC) => usualFilm(stage, surfaceC, piece)),
    mediumC,
    ...(ratio ? { ratio } : {}),
    ...(stage.minutes === undefined ? {} : { durationS: 60 * stage.minutes }),
    ...(stage.untilCoreC === undefined ? {} : { untilCoreC: stage.untilCoreC }),
    ...(rampS > 0 ? { bends: [rampS] } : {}),
    ...(stage.medium === 'water' || stage.medium === 'ice-water' ? { immersed: true } : {}),
  }
}

/** Humidity of a stage's air over time; undefined where no vapour is exchanged. A given steam film already holds the condensation. */
function ratioCourse(
  stage: Stage,
  mediumC: (s: number) => number,
  pressurePa: number,
): ((s: number) => number) | undefined {
  if (stage.medium === 'steam' && stage.filmWPerM2K === undefined && !isPureSteam(stage.tempC, pressurePa))
    return (s) => humidityRatio(saturationPressurePa(mediumC(s)), pressurePa)
  if (stage.medium !== 'air') return undefined
  if (stage.rhPct !== undefined) {
    const share = stage.rhPct / 100
    return (s) => humidityRatio(Math.min(0.95 * pressurePa, share * saturationPressurePa(mediumC(s))), pressurePa)
  }
  if (stage.wetBulbC === undefined) return undefined
  const settled = ratioOf({ tempC: stage.tempC, wetBulbC: stage.wetBulbC, pressurePa })
  return () => settled
}

/** Films where the maker gives none: correlations, with radiation in air; common practice for ice water and pure steam. */
function usualFilm(stage: Stage, surfaceC: number, { diameterM, pressurePa, filmFactor }: PieceSettings): Film {
  const plain = (h: number) => ({ heat: filmFactor * h, vapour: filmFactor * h })
  const common = { mediumC: stage.tempC, surfaceC, diameterM, pressurePa }
  if (stage.medium === 'ice-water' && stage.waterSpeedMPerS === undefined) return plain(ICE_WATER_FILM_W_PER_M2K)
  if (stage.medium === 'steam' && isPureSteam(stage.tempC, pressurePa)) return plain(STEAM_FILM_W_PER_M2K)
  if (stage.medium === 'water' || stage.medium === 'ice-water')
    return plain(filmCoefficient({ ...common, medium: 'water', speed: stage.waterSpeedMPerS ?? 0 }))
  const convection = filmCoefficient({
    ...common,
    medium: 'air',
    speed: stage.airSpeedMPerS ?? USUAL_AIR_SPEED_M_PER_S,
  })
  return {
    heat: filmFactor * (convection + radiationFilm(stage.tempC, surfaceC)),
    vapour: (filmFactor * convection) / LEWIS_FACTOR,
  }
}

export const stagesField = () => list(stageSchema, { min: 1, max: 50 })
export const standardPressure = STANDARD_PRESSURE_PA
