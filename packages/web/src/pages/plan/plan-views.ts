import type { OrderFacts, PriceFacts, ResourceFacts, RoomFacts, SellingPrice } from '@forcemeat/ledger'
import type { RoomCalendar } from '@forcemeat/server/plan/room-calendar'
import type { SlowBatch } from '@forcemeat/server/plan/slow'
import type { Week } from '@forcemeat/server/plan/week'

/** What the addresses of rooms, orders, prices and the plan answer. */
export type RoomView = RoomFacts
export type CalendarRow = RoomCalendar['rows'][number]
export type LoadDay = RoomCalendar['load'][number]
export type CalendarView =
  | { readonly room: RoomView; readonly unknown: string }
  | (RoomCalendar & { readonly unknown?: undefined })
export type OrderView = OrderFacts
export type PriceView = PriceFacts
export type SellingPriceView = SellingPrice
export type PricesView = { readonly prices: readonly PriceView[]; readonly sellingPrices: readonly SellingPriceView[] }
export type ResourceView = ResourceFacts
export type WeekView = Week
export type WeekLine = Week['lines'][number]
/** A batch that ferments or dries, as it stands. */
export type SlowView = SlowBatch

export const purposeWords: Readonly<Record<RoomView['purpose'], string>> = {
  ferment: 'ferments',
  dry: 'dries',
  freeze: 'freezes',
  cold: 'keeps cold',
}
