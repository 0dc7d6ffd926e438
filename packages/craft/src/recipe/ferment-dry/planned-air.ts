import type { AirReading } from '../../dry/air-so-far.ts'
import type { DryingStage } from '../../dry/course-schema.ts'
import type { Recipe } from '../schema.ts'

/**
 * Humidity a fermentation is taken to run at where the recipe says none; common practice, no source. To count no loss instead would push the
 * date late before anything is weighed, but early once it is: the fit would lay the loss nobody counted on the piece (docs/method/dry.md).
 */
const FERMENT_RH_PCT = 90
/** Warmest and coldest air the course takes. */
const [COLDEST_C, WARMEST_C] = [0, 45]
/** Air of a drying room where nothing at all is known of it. Common practice, no source. */
const UNKNOWN_AIR: DryingStage = { days: 30, tempC: 14, rhPct: 80 }

type Asked = Pick<Recipe, 'ferment' | 'dry' | 'cook'>

export type PlannedAir = {
  /** From the day the course begins: as stuffed, or as it comes from the cook. */
  readonly stages: readonly DryingStage[]
  /** Days of the course before the drying stages; none where the product is cooked between the two. */
  readonly fermentDays: number
  readonly notes: readonly string[]
}

/** Days a recipe ferments before it is cooked or dried; 0 where it says nothing of it. */
export const fermentDays = ({ ferment }: Pick<Recipe, 'ferment'>): number =>
  (ferment?.stages ?? []).reduce((s, x) => s + x.hours, 0) / 24

/** Days from stuffing to day 0 of the course: what is cooked between souring and drying is dried as it comes from the cook. */
export const daysBeforeCourse = (recipe: Pick<Recipe, 'ferment' | 'cook'>): number =>
  recipe.cook === undefined ? 0 : fermentDays(recipe)

/** The air of the fermentation as the course takes it; none where the product is cooked after it. */
export function fermentAir(recipe: Asked): PlannedAir {
  const { ferment, cook } = recipe
  if (cook !== undefined) {
    const loss =
      cook.lossPct === undefined
        ? ', whose loss is not said and is taken as none'
        : `, which takes ${cook.lossPct} % of its weight as water`
    return {
      stages: [],
      fermentDays: 0,
      notes: [`the course begins after the cook${loss}; the loss in drying is of the cooked weight`],
    }
  }
  const asked = ferment?.stages ?? []
  return {
    stages: asked.map(({ hours, tempC, rhPct = FERMENT_RH_PCT }) => ({
      days: hours / 24,
      tempC: Math.max(COLDEST_C, Math.min(WARMEST_C, tempC)),
      rhPct,
    })),
    fermentDays: fermentDays(recipe),
    notes: [
      ...(asked.some((s) => s.rhPct === undefined)
        ? [`a stage of the fermentation names no humidity: ${FERMENT_RH_PCT} % is assumed`]
        : []),
      ...(asked.some((s) => s.tempC > WARMEST_C) ? [`air over ${WARMEST_C} °C is taken as ${WARMEST_C} °C`] : []),
    ],
  }
}

/** The air a recipe plans from the day its course begins: fermentation, then drying. Without drying stages only the first. */
export function recipeAir(recipe: Asked): PlannedAir {
  const sour = fermentAir(recipe)
  return { ...sour, stages: [...sour.stages, ...(recipe.dry?.stages ?? [])] }
}

/** What a batch tells of its air beside the recipe. */
type AirTold = {
  /** The drying room it hangs in, as it is set. */
  readonly room?: {
    readonly name: string
    readonly tempC: number
    readonly rhPct?: number | undefined
    readonly airSpeedMPerS?: number | undefined
  }
  readonly log: readonly AirReading[]
}

/** The air a batch was planned to have, and in words where each part of it comes from. Something is always assumed, for it hangs somewhere. */
export function batchAir(recipe: Asked, told: AirTold): PlannedAir {
  const sour = fermentAir(recipe)
  const drying = dryingAir(recipe, told)
  return {
    stages: [...sour.stages, ...drying.stages],
    fermentDays: sour.fermentDays,
    notes: [
      ...(told.log.length === 0 ? ['no log of the room is recorded: the planned air stands in for all of it'] : []),
      drying.note,
      ...sour.notes,
    ],
  }
}

function dryingAir({ dry }: Asked, { room, log }: AirTold): { stages: readonly DryingStage[]; note: string } {
  if (dry?.stages && dry.stages.length > 0) return { stages: dry.stages, note: 'the air ahead is that of the recipe' }
  const days = dry?.days || UNKNOWN_AIR.days
  if (room?.rhPct !== undefined) {
    const { tempC, rhPct, airSpeedMPerS, name } = room
    const air = { tempC: Math.max(COLDEST_C, Math.min(WARMEST_C, tempC)), rhPct }
    return {
      stages: [{ days, ...air, ...(airSpeedMPerS === undefined ? {} : { airSpeedMPerS }) }],
      note: `the air ahead is what ${name} is set to: ${tempC} °C, ${rhPct} %`,
    }
  }
  const seen = lastAir(log)
  if (seen)
    return { stages: [{ days, ...seen }], note: 'the air ahead is taken to go on as in the last day of the log' }
  return {
    stages: [{ ...UNKNOWN_AIR, days }],
    note: `nothing says what air it dries in: ${UNKNOWN_AIR.tempC} °C and ${UNKNOWN_AIR.rhPct} % are assumed`,
  }
}

/** Mean air of the last day of a log that has both figures. */
function lastAir(log: readonly AirReading[]): { tempC: number; rhPct: number } | undefined {
  const last = log.at(-1)
  const day = log.filter((r) => last && r.day > last.day - 1 && r.tempC !== null && r.rhPct !== null)
  if (day.length === 0) return undefined
  const mean = (of: (r: AirReading) => number): number => day.reduce((s, r) => s + of(r), 0) / day.length
  const tempC = Math.max(
    COLDEST_C,
    Math.min(
      WARMEST_C,
      mean((r) => r.tempC!),
    ),
  )
  return { tempC, rhPct: mean((r) => r.rhPct!) }
}

/** Spans shorter than this say nothing of drying, days. */
const SHORTEST = 0.01

/** The part of some stages up to a day; the last one goes on where they end before. */
export function upTo(stages: readonly DryingStage[], day: number): DryingStage[] {
  let from = 0
  const cut = stages.flatMap((s) => {
    const days = Math.min(s.days, day - from)
    from += s.days
    return days > SHORTEST ? [{ ...s, days }] : []
  })
  const last = cut.at(-1)
  if (last && from < day - SHORTEST) cut[cut.length - 1] = { ...last, days: last.days + day - from }
  return cut
}
