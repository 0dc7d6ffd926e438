import type { Reading } from '@forcemeat/craft/heat/reading'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { OwnLimits } from '../process/own-limits.ts'
import type { SharedLog } from './shared-logs.ts'
import type { AirChannel, SlowFacts } from './slow-facts.ts'

type Lot = {
  readonly lot: string
  readonly material: string
  readonly on: string
  readonly useBy?: string | undefined
  readonly costPerKg?: number | undefined
  readonly leanAsSoldPct?: number | undefined
  readonly fatPct?: number | undefined
  readonly fatSdPct?: number | undefined
  readonly collagenPct?: number | undefined
  readonly documents?: readonly { readonly kind: string; readonly reference: string }[] | undefined
  /** Where it is rework: the batch it came out of, and the allergens of that batch. */
  readonly origin?:
    | { readonly lot: string }
    | { readonly batch: string; readonly allergens?: readonly string[] | undefined }
    | undefined
}

export type BatchInstrument = {
  readonly instrument: string
  readonly name: string
  /** What it is; absent, nobody said. */
  readonly type?: string | undefined
  readonly readabilityG?: number | undefined
  readonly toleranceG?: number | undefined
  readonly toleranceC?: number | undefined
  readonly checkEveryDays?: number | undefined
  readonly standing: 'in-date' | 'due' | 'overdue' | 'never-checked' | 'out-of-tolerance' | 'retired'
  /** A later check, or the only one, that says nothing of it. */
  readonly provesNothing?: { readonly on: string; readonly because: string } | undefined
  /** A later check found it out of tolerance, and nobody has dealt with this batch since. */
  readonly inDoubt?:
    | {
        readonly found: string
        readonly error: number
        readonly unit: string
        readonly tolerance: number
        readonly since?: string
      }
    | undefined
}

export type BatchLine = {
  readonly line: string
  readonly material: string
  readonly lot?: string | undefined
  readonly targetKg: number
  readonly scale?: string | undefined
}

export type BatchWeighing = {
  readonly line: string
  readonly lot?: string | undefined
  readonly kg: number
  readonly instrument?: string | undefined
  /** Instant it was recorded. */
  readonly at?: string | undefined
}

/** What the record holds of a batch and a judgement needs; the record's own view of a batch fits. */
export type BatchFacts = SlowFacts & {
  readonly batch: string
  readonly on: string
  readonly meatKg: number
  readonly jurisdictions: readonly string[]
  readonly recipeBody: Recipe
  /** Time zone of the kitchen, IANA: what day an instant was there. Without it, days are those of UTC. */
  readonly timeZone?: string | undefined
  /** Limits the kitchen sets itself. */
  readonly ownLimits?: OwnLimits | undefined
  readonly lines: readonly BatchLine[]
  readonly weighings: readonly BatchWeighing[]
  readonly lots: readonly Lot[]
  readonly instruments: readonly BatchInstrument[]
  /** Logs of its cook that stand on other batches too. */
  readonly sharedLogs?: readonly SharedLog[] | undefined
  readonly curves: readonly {
    readonly seq: number
    readonly purpose: 'cook-and-chill' | 'cook' | 'chill' | 'ferment' | 'dry'
    readonly chillStartMinute?: number | undefined
    readonly channels: readonly {
      readonly column: string
      readonly role: string
      readonly instrument?: string | undefined
    }[]
  }[]
}

/** One channel of a recorded curve as it was read from its file, offset applied; minutes from the first reading. */
export type CurveChannel = {
  readonly seq: number
  readonly column: string
  readonly log: readonly Reading[]
  /** Instant of minute 0; absent where the file has no date and its start was not stated. */
  readonly starts?: AirChannel['starts']
  /** What the reader could not make out of the file; any of it keeps the curve from proving anything. */
  readonly trouble?: string
}

/** The scale or thermometer that a measurement rests on may be believed on that day. */
export const inDate = (i: BatchInstrument): boolean =>
  i.inDoubt === undefined && (i.standing === 'in-date' || i.standing === 'due')

const standingWords: Readonly<Record<BatchInstrument['standing'], string>> = {
  'in-date': 'is in date',
  due: 'is due for its check',
  overdue: 'is past its check',
  'never-checked': 'was never checked',
  'out-of-tolerance': 'was out of tolerance at its last check',
  retired: 'is retired',
}
export const standingOf = ({ name, instrument, standing, inDoubt: d, provesNothing: p }: BatchInstrument): string =>
  d && standing !== 'out-of-tolerance'
    ? `${name} (${instrument}) was found ${Math.abs(d.error)} ${d.unit} off on ${d.found} (allowed ${d.tolerance})${d.since ? `, and was last found good on ${d.since}` : ''}`
    : `${name} (${instrument}) ${standingWords[standing]}${p ? ` (on ${p.on} ${p.because})` : ''}`
