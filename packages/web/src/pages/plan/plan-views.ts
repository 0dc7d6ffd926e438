import type { WorkingStep } from '@forcemeat/craft/finding'
import type { Plan } from '@forcemeat/craft/plan/schema'
import type { Recorded } from '../../state/views.ts'

/** What the addresses of rooms, orders, prices and the plan answer. */
export type RoomView = Omit<Recorded, 'at'> & {
  readonly room: string
  readonly name: string
  readonly purpose: 'ferment' | 'dry' | 'freeze' | 'cold'
  readonly tempC: number
  readonly rhPct?: number
  readonly airSpeedMPerS?: number
  readonly unit?: {
    readonly airM3PerHour: number
    readonly coilTempC: number
    readonly coilRhPct?: number
    readonly hoursPerDay?: number
  }
  readonly freshAir?: { readonly m3PerHour: number; readonly tempC: number; readonly rhPct: number }
  readonly capacityKg?: number
  readonly retired?: boolean
  readonly note?: string
  readonly hanging: readonly { readonly batch: string; readonly since: string }[]
}

export type CalendarRow = {
  readonly batch: string
  readonly recipeName: string
  readonly kg: number
  readonly hangs: boolean
  readonly in?: string
  readonly out?: string
  readonly asked?: string
  readonly peakKgPerDay?: number
  readonly crustRiskFrom?: string
  readonly because?: string
}
export type LoadDay = {
  readonly on: string
  readonly hangingKg: number
  readonly allKg: number
  readonly removedKg?: number
  readonly roomKg: number
  readonly settlesAtRhPct?: number
}
export type CalendarView =
  | { readonly room: RoomView; readonly unknown: string }
  | {
      readonly room: RoomView
      readonly unknown?: undefined
      readonly from: string
      readonly days: number
      readonly rows: readonly CalendarRow[]
      readonly load: readonly LoadDay[]
      readonly leftOut: readonly { readonly batch: string; readonly because: string }[]
      readonly warnings: readonly string[]
      readonly working?: readonly WorkingStep[]
    }

export type OrderView = Recorded & {
  readonly order: string
  readonly customer: string
  readonly on: string
  readonly due: string
  readonly lines: readonly { readonly recipe: string; readonly kg: number; readonly note?: string }[]
  readonly note?: string
  readonly closed?: Recorded & {
    readonly outcome: 'delivered' | 'cancelled'
    readonly on: string
    readonly note?: string
  }
}

export type PriceView = Recorded & {
  readonly material: string
  readonly supplier?: string
  readonly costPerKg: number
  readonly from: string
  readonly packKg?: number
  readonly unit?: string
}
export type SellingPriceView = Recorded & {
  readonly recipe: string
  readonly pricePerKg: number
  readonly from: string
}
export type PricesView = {
  readonly prices: readonly PriceView[]
  readonly sellingPrices: readonly SellingPriceView[]
}

export type ResourceView = Recorded & {
  readonly resource: string
  readonly name: string
  readonly perDay: number
  readonly unit: string
  readonly takes: readonly {
    readonly of: string
    readonly recipe?: string
    readonly perKg: number
    readonly fromDay?: number
    readonly forDays?: number
  }[]
  readonly retired?: boolean
}

export type WeekLine = Plan['orders'][number] & {
  readonly order: string
  readonly customer: string
  readonly recipe: string
}
export type WeekView = {
  readonly from: string
  readonly days: number
  readonly closed: readonly string[]
  readonly products: readonly {
    readonly recipe: string
    readonly version: number
    readonly name: string
    readonly yieldPct: number
    readonly lead: { readonly days: number; readonly because: string }
    readonly stockKg: number
    readonly comingKg: number
    readonly meatPerMix: number
  }[]
  readonly lines: readonly WeekLine[]
  readonly later: readonly {
    readonly id: string
    readonly order: string
    readonly customer: string
    readonly recipe: string
    readonly kg: number
    readonly due: string
    readonly startBy: string
  }[]
  readonly underWay: readonly {
    readonly batch: string
    readonly recipeName: string
    readonly state: string
    readonly on: string
    readonly mixKg: number
    readonly finishedKg: number
    readonly comesOut?: string
    readonly ready: string
  }[]
  readonly resources: readonly { readonly id: string; readonly name: string; readonly unit: string }[]
  readonly notes: readonly string[]
  readonly plan?: Plan
}

/** A batch that ferments or dries, as it stands. */
export type SlowView = {
  readonly batch: string
  readonly recipeName: string
  readonly on: string
  readonly state: string
  readonly mixKg: number
  readonly room?: { readonly room: string; readonly name: string; readonly since: string }
  readonly lastPh?: { readonly value: number; readonly taken: string }
  readonly lastAw?: { readonly value: number; readonly taken: string }
  readonly loss?: { readonly pct: number; readonly on: string; readonly pieces: number }
  readonly targetLossPct?: number
  readonly targetPh?: number
  readonly ready?: { readonly early?: string; readonly likely: string; readonly late?: string; readonly by: string }
  readonly unknown?: string
  readonly crustRiskOn?: string
  readonly hoursLeft?: readonly {
    readonly jurisdiction: string
    readonly hoursLeft?: number
    readonly runsOutAt?: string
  }[]
  readonly waitsFor: readonly string[]
  readonly late: boolean
}

export const purposeWords: Readonly<Record<RoomView['purpose'], string>> = {
  ferment: 'ferments',
  dry: 'dries',
  freeze: 'freezes',
  cold: 'keeps cold',
}
