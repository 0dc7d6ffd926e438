import type { AirReading } from '@forcemeat/craft/dry/air-so-far'
import type { DryingStage } from '@forcemeat/craft/dry/course-schema'
import type { BatchRecord, RoomFacts } from '@forcemeat/ledger'

/** Humidity a fermentation is taken to run at where the recipe says none. Common practice, no source. */
const FERMENT_RH_PCT = 90
/** Air of a drying room where nothing at all is known of it. Common practice, no source. */
const UNKNOWN_AIR: DryingStage = { days: 30, tempC: 14, rhPct: 80 }
/** Warmest air the course takes. */
const WARMEST_C = 45

/** Mean air of the last day of a log that has both figures. */
function lastAir(log: readonly AirReading[]): { tempC: number; rhPct: number } | undefined {
  const last = log.at(-1)
  const day = log.filter((r) => last && r.day > last.day - 1 && r.tempC !== null && r.rhPct !== null)
  if (day.length === 0) return undefined
  const mean = (of: (r: AirReading) => number): number => day.reduce((s, r) => s + of(r), 0) / day.length
  return { tempC: mean((r) => r.tempC!), rhPct: mean((r) => r.rhPct!) }
}

function dryingAir(
  record: BatchRecord,
  rooms: readonly RoomFacts[],
  log: readonly AirReading[],
): { stages: readonly DryingStage[]; note: string } {
  const stages = record.recipeBody.dry?.stages
  if (stages && stages.length > 0) return { stages, note: 'the air ahead is that of the recipe' }
  const days = record.recipeBody.dry?.days ?? UNKNOWN_AIR.days
  const now = record.placements?.at(-1)?.room
  const room = rooms.find((r) => r.room === now && r.purpose === 'dry')
  if (room?.rhPct !== undefined) {
    const { tempC, rhPct, airSpeedMPerS, name } = room
    return {
      stages: [{ days, tempC, rhPct, ...(airSpeedMPerS === undefined ? {} : { airSpeedMPerS }) }],
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

/** The air a batch was planned to have from stuffing on, and in words where each part of it comes from. */
export function plannedAir(
  record: BatchRecord,
  rooms: readonly RoomFacts[],
  log: readonly AirReading[],
): { stages: readonly DryingStage[]; notes: string[] } {
  const sour = record.recipeBody.ferment?.stages ?? []
  const drying = dryingAir(record, rooms, log)
  const stages = [
    ...sour.map(({ hours, tempC, rhPct = FERMENT_RH_PCT }) => ({ days: hours / 24, tempC, rhPct })),
    ...drying.stages,
  ].map((s) => ({ ...s, tempC: Math.max(0, Math.min(WARMEST_C, s.tempC)) }))
  return {
    stages,
    notes: [
      ...(log.length === 0 ? ['no log of the room is recorded: the planned air stands in for all of it'] : []),
      drying.note,
      ...(sour.some((s) => s.rhPct === undefined)
        ? [`a stage of the fermentation names no humidity: ${FERMENT_RH_PCT} % is assumed`]
        : []),
      ...(sour.some((s) => s.tempC > WARMEST_C) ? [`air over ${WARMEST_C} °C is taken as ${WARMEST_C} °C`] : []),
    ],
  }
}
