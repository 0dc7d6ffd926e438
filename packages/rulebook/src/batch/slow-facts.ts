import type { BatchFacts } from './facts.ts'

/** A reading taken by hand; `taken` is an instant in UTC. */
export type BatchMeasure = {
  readonly step: string
  readonly what:
    | 'temperature'
    | 'ph'
    | 'aw'
    | 'weight'
    | 'humidity'
    | 'moisture-protein'
    | 'nitrite'
    | 'nitrate'
    | 'note'
  readonly value?: number | undefined
  readonly unit?: string | undefined
  readonly taken: string
  readonly instrument?: string | undefined
  /** The marked piece it was taken on. */
  readonly piece?: string | undefined
}

/** A check of an instrument, in the order of the record. */
export type InstrumentCheck = {
  readonly instrument: string
  readonly on: string
  readonly method: string
  readonly good: boolean
  readonly unit: string
  /** What it was held against, in its unit. */
  readonly reference?: number | undefined
  /** What the check allowed, ± in its unit. */
  readonly tolerance: number
}

/** A batch hung in a room, or taken out of every room where none is named. */
export type Placement = {
  readonly at: string
  readonly room?: string | undefined
  readonly purpose?: 'ferment' | 'dry' | 'freeze' | 'cold' | undefined
  /** What the room is set to, °C. */
  readonly tempC?: number | undefined
}

export const treatmentWays = [
  'frozen-room',
  'frozen-centre',
  'certified-herd',
  'tested',
  'published-cure',
  'cooked-later',
] as const
export type TreatmentWay = (typeof treatmentWays)[number]

/** What made the meat of a lot safe from Trichinella, as recorded. */
export type LotTreatment = {
  readonly seq: number
  readonly lot: string
  readonly way: TreatmentWay
  readonly on: string
  readonly thicknessMm?: number | undefined
  /** A person said that it is as thin as it is written. */
  readonly thicknessConfirmed?: true | undefined
  readonly roomC?: number | undefined
  readonly from?: string | undefined
  readonly until?: string | undefined
  readonly file?: string | undefined
  readonly fileName?: string | undefined
  readonly column?: string | undefined
  readonly instrument?: string | undefined
  readonly document?:
    | { readonly kind: string; readonly reference: string; readonly issuer?: string | undefined }
    | undefined
  readonly note?: string | undefined
}

/** The centre log of a treatment as read from its file. */
export type CentreLog = {
  /** Entry of the treatment. */
  readonly seq: number
  readonly log: readonly { readonly hour: number; readonly centreC: number | null }[]
  /** Last reading, seconds from 1970, where the file says. */
  readonly endsAt?: number
  /** First reading, likewise. */
  readonly startsAt?: number
  /** Unsaid where the file has a date and a clock and names no zone. */
  readonly zone?: 'said' | 'unsaid'
  /** Its column, where that is called like the air of a room. */
  readonly calledAir?: string
  readonly trouble?: string
}

/** One channel of the air of a chamber as read from its file: °C for the house, % for the humidity; offset applied. */
export type AirChannel = {
  /** Entry of the curve. */
  readonly seq: number
  readonly column: string
  readonly role: 'house' | 'humidity'
  readonly readings: readonly { readonly minute: number; readonly value: number | null }[]
  /**
   * Instant of minute 0, seconds from 1970. `zone` is unsaid where the file has a date and a clock and nobody said which zone it runs in.
   * Absent where the file has no date and its start was not stated.
   */
  readonly starts?: { readonly at: number; readonly zone: 'said' | 'unsaid' }
  readonly trouble?: string
  /** What of its file makes it doubtful, though it can be read: it counts, and proves nothing. */
  readonly caution?: string
}

/** What was read from the files of a slow batch, beside its core channels. */
export type SlowLogs = {
  readonly air?: readonly AirChannel[]
  readonly centres?: readonly CentreLog[]
  /** When each curve began, so that its cores can be put on the clock of the chamber. */
  readonly starts?: readonly Pick<AirChannel, 'seq' | 'starts'>[]
}

type Origin = { readonly lot: string } | { readonly batch: string; readonly allergens?: readonly string[] | undefined }
type Paper = { readonly kind: string; readonly reference: string }

/** A batch that rework came out of, as planned and weighed. */
export type MadeBatch = Pick<BatchFacts, 'meatKg' | 'recipeBody' | 'lines' | 'weighings' | 'instruments'>

/** The larger lots and the batches the lots used came out of. */
export type Ancestry = {
  readonly lots: readonly {
    readonly lot: string
    readonly material: string
    readonly on: string
    readonly documents?: readonly Paper[] | undefined
    readonly origin?: Origin | undefined
  }[]
  readonly batches: readonly {
    readonly batch: string
    readonly on: string
    readonly kind: 'fresh' | 'cooked' | 'fermented' | 'dried'
    readonly lots: readonly string[]
    /** What was weighed into it, and is planned where a line was not weighed, whether or not the lot was said. */
    readonly materials?: readonly string[] | undefined
    /** The batch as it was weighed, for what it brings as rework; absent, it is not known. */
    readonly made?: MadeBatch | undefined
  }[]
}

/** Facts of a batch that only a fermented, dried or raw product is judged by; absent, nothing is known of them. */
export type SlowFacts = {
  readonly measures?: readonly BatchMeasure[] | undefined
  readonly checks?: readonly InstrumentCheck[] | undefined
  readonly placements?: readonly Placement[] | undefined
  readonly treatments?: readonly LotTreatment[] | undefined
  readonly ancestry?: Ancestry | undefined
}
