import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { list, massKg, quantity, text } from '../schema.ts'
import { dryingPiece, dryingStage } from './course-schema.ts'

export const roomBatch = z
  .strictObject({
    name: text(80),
    /** Weight as stuffed. */
    kg: massKg(),
    /** Day of the room's calendar on which it goes in. */
    inDay: quantity('day', { min: 0, max: 365 }),
    /** Loss a day of the start weight, where it is known; else the piece is dried by the model. */
    lossPctPerDay: quantity('% of the start weight a day', { min: 0, max: 20 }).optional(),
    piece: z.strictObject({ ...dryingPiece, before: list(dryingStage, { max: 2000 }).optional() }).optional(),
    /** Day it comes out; the likely ready day of its piece where none is given. */
    outDay: quantity('day', { min: 0, max: 1000 }).optional(),
  })
  .superRefine((b, ctx) => {
    if ((b.lossPctPerDay === undefined) === (b.piece === undefined))
      ctx.addIssue({
        code: 'custom',
        path: ['lossPctPerDay'],
        message: 'and piece are both given or both missing; allowed: one of the two',
      })
    if (b.outDay !== undefined && b.outDay <= b.inDay)
      ctx.addIssue({
        code: 'custom',
        path: ['outDay'],
        message: `is ${b.outDay}; allowed: a day after inDay ${b.inDay}`,
      })
  })

const air = {
  tempC: quantity('°C', { min: -10, max: 45 }),
  rhPct: quantity('%', { min: 0, max: 100 }),
}

export const roomInput = z.strictObject({
  room: z.strictObject({
    tempC: quantity('°C', { min: 0, max: 45 }),
    rhPct: quantity('%', { min: 10, max: 100 }),
    airSpeedMPerS: quantity('m/s', { min: 0, max: 10 }).optional(),
  }),
  unit: z.strictObject({
    /** Air the unit draws through its coil. */
    airM3PerHour: quantity('m³/h', { min: 0, max: 1_000_000 }),
    /** Air as it leaves the coil, before any reheating; saturated unless said. */
    coilTempC: air.tempC,
    coilRhPct: air.rhPct.optional(),
    hoursPerDay: quantity('h', { min: 0, max: 24 }).optional(),
  }),
  /** Fresh air let in, and how it is outside. */
  freshAir: z.strictObject({ m3PerHour: quantity('m³/h', { min: 0, max: 1_000_000 }), ...air }).optional(),
  batches: list(roomBatch, { min: 1, max: 100 }),
  /** Days of the calendar to work out. */
  days: quantity('days', { min: 1, max: 365 }).optional(),
})

export const roomOutput = z.strictObject({
  /** Mean over each day, kg of water. */
  days: z.array(
    z.strictObject({
      day: z.number(),
      loadKgPerDay: z.number(),
      removedKgPerDay: z.number(),
      marginKgPerDay: z.number(),
      /** Humidity at which the unit would just take the day's load away, if the load did not fall with it. */
      settlesAtRhPct: z.number(),
    }),
  ),
  peakLoadKgPerDay: z.number(),
  peakDay: z.number(),
  /** At the room's set air. */
  unitKgPerDay: z.number(),
  freshAirKgPerDay: z.number(),
  latentKw: z.number(),
  enough: z.boolean(),
  batches: z.array(
    z.strictObject({
      name: z.string(),
      inDay: z.number(),
      outDay: z.number().optional(),
      peakKgPerDay: z.number(),
      /** First day of the calendar on which its rim dries faster than its core can feed it. */
      crustRiskFrom: z.number().optional(),
    }),
  ),
  warnings: z.array(z.string()),
  working: workingSchema,
})

export type RoomInput = z.infer<typeof roomInput>
export type RoomOutput = z.infer<typeof roomOutput>
