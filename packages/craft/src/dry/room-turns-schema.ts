import { z } from 'zod'
import { list, massKg } from '../schema.ts'
import { roomBatch, roomInput, roomOutput } from './room-schema.ts'

const { room, unit, freshAir, days } = roomInput.shape

export const turnsInput = z.strictObject({
  room,
  /** What takes the water away; without it only the room's capacity limits the turns. */
  unit: unit.optional(),
  freshAir,
  /** Most the room holds, kg as stuffed. */
  capacityKg: massKg().optional(),
  /** What hangs there now or goes in on a settled day. */
  batches: list(roomBatch, { max: 100 }),
  /** What waits for its turn: `inDay` is the first day it could go in. */
  planned: list(roomBatch, { max: 100 }),
  days,
})
export type TurnsInput = z.infer<typeof turnsInput>

export const turnsOutput = z.strictObject({
  turns: z.array(
    z.strictObject({
      name: z.string(),
      askedDay: z.number(),
      /** Missing where no day of the calendar has room for it. */
      inDay: z.number().optional(),
      outDay: z.number().optional(),
      because: z.string(),
    }),
  ),
  days: z.array(
    z.strictObject({
      day: z.number(),
      /** Of what hangs there, and with the planned batches on their turns, kg of water a day. */
      hangingLoadKg: z.number(),
      loadKg: z.number(),
      removedKg: z.number().optional(),
      /** In the room, kg as stuffed. */
      roomKg: z.number(),
    }),
  ),
  /** The room's balance with every turn in it; missing where the unit is not given. */
  balance: roomOutput.optional(),
  batches: roomOutput.shape.batches,
  warnings: z.array(z.string()),
})
export type Turns = z.infer<typeof turnsOutput>
