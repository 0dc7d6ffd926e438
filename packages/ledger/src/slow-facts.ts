import { z } from 'zod'
import { isoDate, isoInstant, lengthMm, oneOf, quantity, tempC, text } from '@forcemeat/craft/schema'
import { code } from './code.ts'
import { logReading } from './log-reading.ts'

const note = () => text(2000).optional()
const sha256 = () => z.string().regex(/^[0-9a-f]{64}$/, { error: 'is not a SHA-256; allowed: 64 hex digits' })

/** A room that ferments, dries or freezes: the air it is set to, and what takes the water out of it. */
export const room = z.strictObject({
  room: code(),
  name: text(120),
  purpose: oneOf(['ferment', 'dry', 'freeze', 'cold']),
  tempC: quantity('°C', { min: -60, max: 60 }),
  rhPct: quantity('%', { min: 10, max: 100 }).optional(),
  airSpeedMPerS: quantity('m/s', { min: 0, max: 10 }).optional(),
  /** Cooling coil that dries the air. */
  unit: z
    .strictObject({
      airM3PerHour: quantity('m³/h', { min: 0, max: 1_000_000 }),
      coilTempC: quantity('°C', { min: -40, max: 45 }),
      coilRhPct: quantity('%', { min: 0, max: 100 }).optional(),
      hoursPerDay: quantity('h', { min: 0, max: 24 }).optional(),
    })
    .optional(),
  /** Fresh air let in, as it is outside. */
  freshAir: z
    .strictObject({
      m3PerHour: quantity('m³/h', { min: 0, max: 1_000_000 }),
      tempC: quantity('°C', { min: -40, max: 45 }),
      rhPct: quantity('%', { min: 0, max: 100 }),
    })
    .optional(),
  /** Most it holds, kg as stuffed. */
  capacityKg: quantity('kg', { above: 0, max: 1_000_000 }).optional(),
  retired: z.boolean().optional(),
  note: note(),
})

/** A batch hung in a room, or taken out of every room where none is named. It stays there until the next such entry. */
export const batchPlace = z.strictObject({
  batch: code(),
  room: code().optional(),
  at: isoInstant(),
  note: note(),
})

/**
 * What made the meat of a lot safe from Trichinella before it is eaten raw or undercooked: held frozen by a published schedule (by the
 * room and the days, or by a log of the centre), from a certified herd, tested, or to be cured by a published method.
 */
export const lotTreat = z.strictObject({
  lot: code(),
  way: oneOf(['frozen-room', 'frozen-centre', 'certified-herd', 'tested', 'published-cure', 'cooked-later']),
  on: isoDate(),
  /** Smallest dimension of the piece, or of the layer of meat in its container. */
  thicknessMm: lengthMm().optional(),
  /** A person said that it is as thin as it is written. */
  thicknessConfirmed: z.literal(true, { error: 'is not true; allowed: true, or left out' }).optional(),
  /** Warmest the freezer room was, and the span it was held, from when the room was there. */
  roomC: tempC().optional(),
  from: isoInstant().optional(),
  until: isoInstant().optional(),
  /** Log of the centre of the thickest piece, as a file of the record, and how it is read. */
  file: sha256().optional(),
  fileName: text(200).optional(),
  column: text(120).optional(),
  /** Answers given to the reader of the file where its heading or its stamps do not say it themselves. */
  reading: logReading().optional(),
  instrument: code().optional(),
  /** The paper it rests on: what it is, its number, who issued it. */
  document: z.strictObject({ kind: text(80), reference: text(200), issuer: text(120).optional() }).optional(),
  note: note(),
})
