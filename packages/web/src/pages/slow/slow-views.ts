import type { AirReading } from '@forcemeat/craft/dry/air-so-far'
import type { DryingPiece, DryingStage } from '@forcemeat/craft/dry/course-schema'
import type { MarkedPieces } from '@forcemeat/craft/dry/marked-pieces'
import type { TargetMet } from '@forcemeat/craft/dry/targets-left'
import type { StaphOutput } from '@forcemeat/craft/ferment/staph'
import type { Finding, WorkingStep } from '@forcemeat/craft/finding'

export type PhReading = {
  readonly seq: number
  readonly taken: string
  readonly by: string
  readonly ph: number
  readonly instrument?: string
  readonly piece?: string
  readonly note?: string
  readonly calibrated: boolean
  readonly because: string
}

export type CountedSystem = {
  readonly jurisdiction: string
  readonly unit: string
  readonly degreeHours: number
  readonly limit: number
  readonly limitMark?: string
  readonly highestC: number
  readonly hoursToTarget?: number
  readonly hoursLeft?: number
  readonly runsOutAt?: string
  readonly hole?: { readonly from: number; readonly to: number }
  readonly working: readonly WorkingStep[]
}

/** A fermentation as the server reads it out of the record. */
export type FermentView = {
  readonly batch: string
  readonly recipeName: string
  readonly kind: string
  readonly on: string
  readonly live: boolean
  readonly from?: string
  readonly to?: string
  readonly minutes: readonly number[]
  readonly tempC: readonly (number | null)[]
  /** Relative humidity, %, at instants of its own; null ends a stretch that may be joined. */
  readonly humidity: readonly { readonly at: string; readonly rhPct: number | null }[]
  readonly sources: readonly {
    readonly seq?: number
    readonly name: string
    readonly columns: readonly string[]
    readonly instruments: readonly string[]
    readonly trouble?: string
  }[]
  readonly stages: readonly { readonly hours: number; readonly tempC: number; readonly rhPct?: number }[]
  readonly targetPh: number
  readonly targetFrom: 'recipe' | 'published'
  readonly countedToPh: number
  readonly readings: readonly PhReading[]
  readonly systems: readonly CountedSystem[]
  readonly lastTempC?: number
  readonly staph?: StaphOutput
  readonly findings: readonly Finding[]
  readonly notes: readonly string[]
}

type Taken = { readonly seq: number; readonly day: number; readonly taken: string; readonly by: string }

export type PieceWeighed = Taken & {
  readonly piece: string
  readonly g: number
  readonly instrument?: string
  readonly note?: string
}

export type ProductReading = Taken & {
  readonly value: number
  readonly instrument?: string
  readonly piece?: string
  readonly note?: string
}

/** A drying as the server reads it out of the record. */
export type DryView = {
  readonly batch: string
  readonly recipe: string
  readonly recipeName: string
  readonly kind: string
  readonly on: string
  readonly start: string
  readonly startFrom: string
  readonly piece?: Pick<DryingPiece, 'diameterMm' | 'composition'>
  readonly target: DryingPiece['target']
  readonly left: DryingPiece['target']
  readonly met: readonly TargetMet[]
  readonly missing: readonly string[]
  readonly planned: readonly DryingStage[]
  readonly log: readonly AirReading[]
  readonly weights: readonly PieceWeighed[]
  readonly marked: MarkedPieces
  readonly aws: readonly ProductReading[]
  readonly moistureToProtein: readonly ProductReading[]
  readonly phs: readonly ProductReading[]
  readonly placements: readonly {
    readonly seq: number
    readonly at: string
    readonly room?: string
    readonly roomName?: string
  }[]
  readonly findings: readonly Finding[]
  readonly notes: readonly string[]
}
