import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { SharedLog } from '@forcemeat/rulebook/batch/shared-logs'

/** What the server's reading addresses answer. A fact comes with who recorded it, when, in which entry. */
export type Recorded = { readonly seq: number; readonly root: number; readonly at: string; readonly by: string }

export type Person = {
  readonly person: string
  readonly name: string
  readonly role: string
  readonly left?: boolean
  readonly seq?: number
}

export type CheckView = Recorded & {
  readonly method: string
  readonly reference: number
  readonly reading: number
  readonly unit: string
  readonly tolerance: number
  readonly on: string
  readonly error: number
  readonly withinTolerance: boolean
}

export type InstrumentView = {
  readonly instrument: string
  readonly type: string
  readonly name: string
  readonly readabilityG?: number
  readonly toleranceG?: number
  readonly capacityG?: number
  readonly toleranceC?: number
  readonly accuracyClass?: 'I' | 'II' | 'III' | 'IIII'
  readonly divisionG?: number
  readonly resolutionC?: number
  readonly checkEveryDays: number
  readonly retired?: boolean
  readonly seq: number
  readonly nextDue?: string
  readonly standing: 'in-date' | 'due' | 'overdue' | 'never-checked' | 'out-of-tolerance' | 'retired'
  readonly lastCheck?: CheckView
  /** A later check, or the only one, that says nothing of it, and why. */
  readonly provesNothing?: { readonly on: string; readonly because: string }
}

export type KitchenView = {
  readonly kitchen?: {
    readonly name: string
    readonly place?: string
    readonly altitudeM?: number
    readonly jurisdictions: readonly string[]
    readonly units: 'metric' | 'us'
    readonly timeZone?: string
    readonly demo?: boolean
    readonly address?: string
    readonly approval?: string
    readonly secondPerson?: boolean
    readonly ownLimits?: {
      readonly arrivalMaxC?: number
      readonly reworkMaxPct?: number
      readonly reworkMaxDays?: number
      readonly byRecipe?: readonly {
        readonly recipe: string
        readonly yieldMinPct?: number
        readonly linkMinG?: number
        readonly linkMaxG?: number
      }[]
    }
    readonly seq?: number
  }
  readonly people: readonly Person[]
  readonly instruments: readonly InstrumentView[]
}

export type EntryView = {
  readonly seq: number
  readonly kind: string
  readonly body: Readonly<Record<string, unknown>>
  readonly by: string
  readonly at: string
  readonly prev: string
  readonly hash: string
  readonly key?: string
  readonly corrects?: number
  readonly why?: string
  readonly standing?: 'stands' | 'corrected' | 'withdrawn'
  readonly supersededBy?: number
}

export type LotView = Recorded & {
  readonly lot: string
  readonly material: string
  readonly supplier?: string
  readonly supplierLot?: string
  readonly kg: number
  readonly on: string
  readonly useBy?: string
  readonly arrivalC?: number
  readonly costPerKg?: number
  readonly leanAsSoldPct?: number
  readonly fatPct?: number
  readonly fatSdPct?: number
  readonly collagenPct?: number
  readonly fatBasis?: string
  readonly place?: string
  readonly documents?: readonly { readonly kind: string; readonly reference: string }[]
  readonly note?: string
  readonly balanceKg: number
  readonly origin?: { readonly lot: string } | { readonly batch: string; readonly allergens?: readonly string[] }
  readonly arrival?: Readonly<Record<string, string>>
  readonly bought?: { readonly count: number; readonly unit: string }
}

export type Movement = Recorded & {
  readonly kind: string
  readonly kg: number
  readonly balanceKg: number
  readonly on?: string
  readonly batch?: string
  readonly line?: string
  readonly reason?: string
  readonly from?: string
  readonly into?: string
  readonly note?: string
}

export type RecipeVersion = Recorded & {
  readonly recipe: string
  readonly version: number
  readonly body: Recipe
  readonly note?: string
}
export type RecipeListed = RecipeVersion & { readonly versions: number }

export type PlanLine = {
  readonly line: string
  readonly material: string
  readonly lot?: string
  readonly targetKg: number
  readonly scale?: string
}

export type BatchView = Recorded & {
  readonly batch: string
  readonly recipe: string
  readonly version: number
  readonly on: string
  readonly meatKg: number
  readonly jurisdictions: readonly string[]
  readonly lines: readonly PlanLine[]
  readonly note?: string
  readonly state: string
  readonly recipeName: string
  readonly recipeKind: Recipe['kind']
  readonly weighedLines: number
  readonly packCount: number
  readonly decision?: 'release' | 'hold'
  /** Made, released or packed, and by what is known now it should not be. */
  readonly inDoubt?: true
}

export type Weighing = Recorded & {
  readonly line: string
  readonly lot?: string
  readonly kg: number
  readonly instrument?: string
  readonly note?: string
}
export type MeasureView = Recorded & {
  readonly step: string
  readonly what: string
  readonly value?: number
  readonly unit?: string
  readonly taken: string
  readonly instrument?: string
  readonly piece?: string
  readonly note?: string
}
export type CurveView = Recorded & { readonly purpose: string; readonly fileName: string; readonly note?: string }
export type DecisionView = Recorded & {
  readonly decision: 'release' | 'hold'
  readonly reasons: readonly string[]
  readonly signed: string
  readonly counts: { readonly pass: number; readonly fail: number; readonly cannotTell: number }
}
export type Shipment = Recorded & {
  readonly pack: string
  readonly to: string
  readonly count: number
  readonly on: string
  readonly note?: string
}
export type PackView = Recorded & {
  readonly batch: string
  readonly pack: string
  readonly count: number
  readonly totalKg: number
  readonly on: string
  readonly useBy?: string
  readonly shipments: readonly Shipment[]
  readonly shippedCount: number
  readonly hereCount: number
}

export type BatchRecord = BatchView & {
  readonly recipeBody: Recipe
  readonly weighings: readonly Weighing[]
  readonly measures: readonly MeasureView[]
  readonly curves: readonly CurveView[]
  /** Logs of its cook that stand on other batches too. */
  readonly sharedLogs?: readonly SharedLog[]
  readonly decisions: readonly DecisionView[]
  readonly packs: readonly PackView[]
  readonly lots: readonly LotView[]
  /** Lots behind those used. */
  readonly ancestry?: { readonly lots: readonly Pick<LotView, 'lot' | 'origin'>[] }
  readonly instruments: readonly InstrumentView[]
  readonly waitsFor: readonly string[]
  readonly findings?: readonly Finding[]
  readonly verdict?: Verdict
  readonly signedStillHolds?: boolean
  /** Why the batch stands in doubt, though it is made or out. */
  readonly doubt?: readonly string[]
  readonly massBalance?: {
    readonly plannedKg: number
    readonly inKg: number
    readonly packedKg: number
    readonly shippedKg: number
    readonly yieldPct?: number
    readonly lines: readonly { readonly line: string; readonly kg: number }[]
  }
}

export type TodayView = {
  readonly on: string
  readonly batches: readonly (BatchView & { readonly waitsFor: readonly string[] })[]
  readonly holds: readonly BatchView[]
  /** How many more there are of each than are listed; a thousand means that or more. */
  readonly more: { readonly batches: number; readonly holds: number }
  readonly lotsNearUseBy: readonly (LotView & { readonly daysLeft: number })[]
  readonly lotsBelowZero: readonly LotView[]
  readonly instrumentsDue: readonly InstrumentView[]
  readonly deviations: readonly DeviationView[]
  readonly doubts: readonly DoubtView[]
  /** Batches made or out of the last 60 days that by what is known now should not be. */
  readonly batchesInDoubt: readonly (Pick<BatchView, 'batch' | 'recipeName' | 'on' | 'state'> & {
    readonly verdict: Verdict
    readonly because: readonly string[]
  })[]
}

export type DeviationView = Recorded & {
  readonly deviation: string
  readonly on: string
  readonly about: readonly { readonly type: string; readonly id: string }[]
  readonly what: string
  readonly rule?: string
  readonly product?: string
  readonly cause?: string
  readonly prevention?: string
  readonly acts: readonly (Recorded & {
    readonly on: string
    readonly product?: string
    readonly cause?: string
    readonly prevention?: string
  })[]
  readonly closed?: Recorded & { readonly on: string; readonly because: string }
}

/** A span in which an instrument is not to be believed, with the batches it touched. */
export type DoubtView = {
  readonly instrument: string
  readonly check: number
  readonly found: string
  readonly error: number
  readonly unit: string
  readonly tolerance: number
  readonly since?: string
  readonly batches: readonly (BatchView & {
    readonly settled?: Recorded & { readonly outcome: string; readonly because: string }
  })[]
}

export type BusinessView = Recorded & {
  readonly business: string
  readonly name: string
  readonly address?: string
  readonly contact?: string
  readonly as: readonly string[]
  readonly approval?: string
}

export type TraceStep = {
  readonly from: { readonly type: 'lot' | 'batch'; readonly id: string }
  readonly to: { readonly type: 'lot' | 'batch'; readonly id: string }
  readonly kg: number
}

export type RecallView = {
  readonly subject: { readonly type: 'lot' | 'pack' | 'batch'; readonly id: string }
  readonly level: {
    readonly lots: Readonly<Record<string, number>>
    readonly batches: Readonly<Record<string, number>>
  }
  readonly lots: readonly LotView[]
  readonly batches: readonly (BatchView & {
    readonly balance: {
      readonly inKg: number
      readonly packedKg: number
      readonly reworkKg: number
      readonly differenceKg: number
      readonly shippedKg: number
    }
  })[]
  readonly packs: readonly PackView[]
  readonly consignments: readonly {
    readonly seq: number
    readonly pack: string
    readonly batch: string
    readonly recipe: string
    readonly to: string
    readonly on: string
    readonly count: number
    readonly kg: number
  }[]
  readonly customers: readonly {
    readonly name: string
    readonly count: number
    readonly kg: number
    readonly customer?: BusinessView
  }[]
  readonly steps: readonly TraceStep[]
  readonly suppliers: readonly { readonly name: string }[]
  readonly quantity: {
    readonly notPackedKg: number
    readonly packs: number
    readonly shipped: number
    readonly here: number
    readonly packedKg: number
    readonly shippedKg: number
    readonly hereKg: number
    readonly stockKg: number
    readonly unaccountedPacks: number
  }
  readonly form: string
  readonly formSource: string
  readonly gaps: number
  readonly tookMs: number
  readonly drills: readonly (Recorded & {
    readonly drill: string
    readonly trial: boolean
    readonly began: string
    readonly ended: string
    readonly packs: number
    readonly accounted: number
    readonly note?: string
  })[]
}

export type LotTrace = {
  readonly lot: LotView
  readonly batches: readonly (BatchView & { readonly kgOfLot: number; readonly packs: readonly PackView[] })[]
  readonly packs: readonly PackView[]
  readonly shipments: readonly Shipment[]
  readonly customers: readonly string[]
  readonly kg: { readonly received: number; readonly used: number; readonly adjusted: number; readonly left: number }
}

export type PackTrace = {
  readonly pack: PackView
  readonly batch: BatchView
  readonly lots: readonly (LotView & { readonly kgInBatch: number })[]
  readonly suppliers: readonly string[]
  readonly withoutLot: readonly { readonly line: string; readonly material: string; readonly kg: number }[]
}

export type { Finding, Recipe }
