import { z } from 'zod'
import { jurisdictions, recipeSchema } from '@forcemeat/craft/recipe/schema'
import {
  isoDate,
  isoInstant,
  list,
  massKg,
  massKgOrNone,
  money,
  oneOf,
  pct,
  quantity,
  tempC,
  text,
} from '@forcemeat/craft/schema'
import { code } from './code.ts'
import { deviationAct, deviationClose, deviationOpen, doubtSettle } from './deviation-facts.ts'
import { hazardSigned } from './hazard-facts.ts'
import { labelApproved } from './label-facts.ts'
import { logReading } from './log-reading.ts'
import { orderClosed, orderTaken, planResource, priceSet, priceSold } from './order-facts.ts'
import { ownLimits } from './own-limit-facts.ts'
import { photoAttached } from './photo-facts.ts'
import { batchPlace, lotTreat, room } from './slow-facts.ts'
import { business, drill, lotMove, lotRework, lotSplit } from './stock-facts.ts'
import { timeZone } from './time-zone.ts'

export { code } from './code.ts'

const sha256 = () => z.string().regex(/^[0-9a-f]{64}$/, { error: 'is not a SHA-256; allowed: 64 hex digits' })
const note = () => text(2000).optional()
const place = () => oneOf(jurisdictions)

export const kitchen = z.strictObject({
  name: text(120),
  place: text(200).optional(),
  altitudeM: quantity('m', { min: -430, max: 6000 }).optional(),
  jurisdictions: list(place(), { min: 1, max: 7 }),
  units: oneOf(['metric', 'us']),
  /** Where its days begin and end: the day of a reading and of a check is the day there. Absent, that of the machine. */
  timeZone: timeZone().optional(),
  /** Invented data: every page and paper says so. */
  demo: z.boolean().optional(),
  address: text(300).optional(),
  /** Number of its approval, registration or licence. */
  approval: text(60).optional(),
  /** A batch is released only by somebody who recorded nothing of its making. */
  secondPerson: z.boolean().optional(),
  ownLimits: ownLimits.optional(),
})

export const person = z.strictObject({
  person: code(),
  name: text(120),
  role: oneOf(['owner', 'maker', 'checker', 'reader']),
  /** Works here no more: signs in no more. */
  left: z.boolean().optional(),
})

export const instrument = z.strictObject({
  instrument: code(),
  type: oneOf(['scale', 'thermometer', 'logger', 'ph-meter', 'aw-meter', 'hygrometer', 'clock']),
  name: text(120),
  /** Smallest step the scale shows, g. */
  readabilityG: quantity('g', { above: 0, max: 100_000 }).optional(),
  /** Largest error allowed at the load in use, ± g. */
  toleranceG: quantity('g', { min: 0, max: 100_000 }).optional(),
  capacityG: quantity('g', { above: 0, max: 10_000_000 }).optional(),
  /** Accuracy class and verification scale interval e of a scale, as on its plate: its tolerance at a load follows from them. */
  accuracyClass: oneOf(['I', 'II', 'III', 'IIII']).optional(),
  divisionG: quantity('g', { above: 0, max: 1_000_000 }).optional(),
  /** Smallest step a thermometer shows, °C. */
  resolutionC: quantity('°C', { above: 0, max: 5 }).optional(),
  /** Largest error allowed, ± °C. */
  toleranceC: quantity('°C', { min: 0, max: 20 }).optional(),
  checkEveryDays: quantity('days', { above: 0, max: 3660 }),
  retired: z.boolean().optional(),
})

export const instrumentCheck = z.strictObject({
  instrument: code(),
  method: oneOf(['ice-point', 'boiling-point', 'test-load', 'buffer', 'salt-standard', 'comparison']),
  reference: quantity('unit of the check', { min: -1e7, max: 1e7 }),
  reading: quantity('unit of the check', { min: -1e7, max: 1e7 }),
  unit: oneOf(['°C', 'g', 'pH', 'aw', '% RH', 's']),
  tolerance: quantity('unit of the check', { min: 0, max: 1e6 }),
  on: isoDate(),
  note: note(),
})

export const lotReceived = z.strictObject({
  lot: code(),
  material: text(60),
  supplier: text(120).optional(),
  supplierLot: text(80).optional(),
  kg: massKg(),
  on: isoDate(),
  useBy: isoDate().optional(),
  arrivalC: tempC().optional(),
  costPerKg: money().optional(),
  /** Lean the seller states, e.g. 80 for "80/20". */
  leanAsSoldPct: pct().optional(),
  /** Fat found by analysis or estimate, its spread, and which of the two it is. */
  fatPct: pct().optional(),
  fatSdPct: pct().optional(),
  /** Collagen of a meat by its specification or an analysis: 8 × hydroxyproline. */
  collagenPct: pct().optional(),
  fatBasis: oneOf(['analysed', 'estimated', 'as-sold']).optional(),
  place: text(80).optional(),
  documents: list(z.strictObject({ kind: text(80), reference: text(200) }), { max: 20 }).optional(),
  /** What was looked at on arrival. */
  arrival: z
    .strictObject({
      packaging: oneOf(['sound', 'damaged']).optional(),
      /** Smell, colour, surface. */
      condition: oneOf(['good', 'doubtful', 'bad']).optional(),
      labels: oneOf(['complete', 'incomplete']).optional(),
      vehicle: oneOf(['clean', 'not-clean']).optional(),
      /** Thermometer that `arrivalC` was read on. */
      instrument: code().optional(),
    })
    .optional(),
  /** As bought: so many boxes, hanks or bags. */
  bought: z.strictObject({ count: quantity('pieces', { above: 0, max: 1_000_000 }), unit: text(40) }).optional(),
  note: note(),
})

export const lotAdjusted = z.strictObject({
  lot: code(),
  /** Change of the balance, kg: negative takes out. */
  kg: quantity('kg', { min: -100_000, max: 100_000 }),
  reason: oneOf(['count', 'waste', 'returned', 'transfer', 'other']),
  /** What a count found, kg. */
  countedKg: massKgOrNone().optional(),
  on: isoDate(),
  note: note(),
})

export const recipeSaved = z.strictObject({
  recipe: code(),
  version: z.int({ error: 'is not a version; allowed: a whole number from 1' }).min(1).max(100_000),
  body: recipeSchema,
  note: note(),
})

export const batchPlanned = z.strictObject({
  batch: code(),
  recipe: code(),
  version: z.int().min(1).max(100_000),
  on: isoDate(),
  /** Weight of the meat block, kg. */
  meatKg: massKg(),
  jurisdictions: list(place(), { min: 1, max: 7 }),
  /** The weigh sheet: what goes in, from which lot, on which scale. */
  lines: list(
    z.strictObject({
      line: code(),
      material: text(60),
      lot: code().optional(),
      targetKg: massKgOrNone(),
      scale: code().optional(),
    }),
    { min: 1, max: 200 },
  ),
  note: note(),
})

export const batchWeighed = z.strictObject({
  batch: code(),
  line: code(),
  lot: code().optional(),
  kg: massKgOrNone(),
  instrument: code().optional(),
  note: note(),
})

export const batchMeasured = z.strictObject({
  batch: code(),
  step: oneOf(['receive', 'grind', 'mix', 'stuff', 'smoke', 'cook', 'chill', 'ferment', 'dry', 'pack']),
  /**
   * `moisture-protein` is an analysis of the product, kg of water per kg of protein; `nitrite` and `nitrate` are analyses of the finished
   * product, mg/kg as the sodium salt.
   */
  what: oneOf(['temperature', 'ph', 'aw', 'weight', 'humidity', 'moisture-protein', 'nitrite', 'nitrate', 'note']),
  value: quantity('unit of the measure', { min: -1e6, max: 1e6 }).optional(),
  unit: text(20).optional(),
  taken: isoInstant(),
  instrument: code().optional(),
  /** The marked piece that was weighed or measured; its first weight, at stuffing, is what its loss counts from. */
  piece: code().optional(),
  note: note(),
})

/** How the columns of a logger's file are to be taken; the file itself is kept byte for byte under its hash. */
export const batchCurve = z.strictObject({
  batch: code(),
  purpose: oneOf(['cook-and-chill', 'cook', 'chill', 'ferment', 'dry']),
  file: sha256(),
  fileName: text(200),
  /** Answers given to the reader: delimiter, decimal mark, unit, date order, zone. Absent where the file said it itself. */
  reading: logReading(),
  channels: list(
    z.strictObject({
      column: text(120),
      role: oneOf(['core', 'house', 'surface', 'wet-bulb', 'humidity', 'ignore']),
      instrument: code().optional(),
      /** Added to every reading of the channel, °C, from a check of the probe. */
      offsetC: quantity('°C', { min: -20, max: 20 }).optional(),
    }),
    { min: 1, max: 64 },
  ),
  /** Minute of the log at which the cook ends and the chill begins; absent where it is read off the curve. */
  chillStartMinute: quantity('minutes', { min: 0, max: 10_000_000 }).optional(),
  /** Instant of the first reading, where the file gives no date, or a clock without its zone. */
  startsAt: isoInstant().optional(),
  /** Added to the clock of the whole log, minutes, where it was found to be wrong. Spans of time do not change by it. */
  clockOffsetMinutes: quantity('minutes', { min: -1_000_000, max: 1_000_000 }).optional(),
  note: note(),
})

export const batchDecided = z.strictObject({
  batch: code(),
  decision: oneOf(['release', 'hold']),
  reasons: list(text(400), { min: 1, max: 20 }),
  /** What was signed: the hash over the facts and the findings as they stood. */
  signed: sha256(),
  counts: z.strictObject({ pass: z.int().min(0), fail: z.int().min(0), cannotTell: z.int().min(0) }),
})

export const batchPacked = z.strictObject({
  batch: code(),
  pack: code(),
  count: z.int({ error: 'is not a count; allowed: a whole number from 1' }).min(1).max(10_000_000),
  totalKg: massKg(),
  on: isoDate(),
  useBy: isoDate().optional(),
  note: note(),
})

export const packShipped = z.strictObject({
  pack: code(),
  to: text(120),
  count: z.int({ error: 'is not a count; allowed: a whole number from 1' }).min(1).max(10_000_000),
  on: isoDate(),
  note: note(),
})

export const withdrawn = z.strictObject({ entry: z.int().min(1), note: note() })

/** Every kind of entry the record takes, and the shape of its body. New kinds are added, old ones never change meaning. */
export const facts = {
  'kitchen.set': kitchen,
  'person.add': person,
  'instrument.add': instrument,
  'instrument.check': instrumentCheck,
  'lot.receive': lotReceived,
  'lot.adjust': lotAdjusted,
  'lot.split': lotSplit,
  'lot.rework': lotRework,
  'lot.move': lotMove,
  'lot.treat': lotTreat,
  'room.add': room,
  'business.add': business,
  'order.take': orderTaken,
  'order.close': orderClosed,
  'price.set': priceSet,
  'price.sell': priceSold,
  'plan.resource': planResource,
  'recipe.save': recipeSaved,
  'batch.plan': batchPlanned,
  'batch.weigh': batchWeighed,
  'batch.measure': batchMeasured,
  'batch.curve': batchCurve,
  'batch.place': batchPlace,
  'batch.decide': batchDecided,
  'batch.pack': batchPacked,
  'pack.ship': packShipped,
  'recall.drill': drill,
  'label.approve': labelApproved,
  'hazard.sign': hazardSigned,
  'deviation.open': deviationOpen,
  'deviation.act': deviationAct,
  'deviation.close': deviationClose,
  'doubt.settle': doubtSettle,
  'photo.attach': photoAttached,
  'entry.withdraw': withdrawn,
} as const satisfies Record<string, z.ZodType>

export type FactKind = keyof typeof facts
export type Fact<K extends FactKind> = z.infer<(typeof facts)[K]>

/** What a door hands in. */
export type Draft = {
  [K in FactKind]: {
    readonly kind: K
    readonly body: Fact<K>
    readonly by: string
    /** Chosen by the sender: the same key is recorded once, however often it is sent. */
    readonly key?: string
    /** Sequence number of the entry this one replaces, and why. */
    readonly corrects?: number
    readonly why?: string
  }
}[FactKind]

/** An entry as it stands in the record. `hash` covers every other field in canonical JSON, so each entry pins all before it. */
export type Entry = Draft & {
  readonly seq: number
  /** UTC instant of recording. */
  readonly at: string
  /** What the machine's clock said, where it stood before the entry before this one; `at` then repeats that entry's instant. */
  readonly clock?: string
  readonly prev: string
  readonly hash: string
}
