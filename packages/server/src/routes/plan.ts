import { Hono } from 'hono'
import { z } from 'zod'
import type { AppEnv, House } from '../context.ts'
import type { Feeds } from '../feed/store.ts'
import { readQuery } from '../http/body.ts'
import { decimal, whole, words } from '../http/query.ts'
import { notHere, refuse } from '../http/refusal.ts'
import { roomCalendar } from '../plan/room-calendar.ts'
import type { Reckoner } from '../plan/reckoner.ts'
import { kitchenAt, slowBatches } from '../plan/slow.ts'
import { weekPlan, type WeekQuery } from '../plan/week.ts'
import { dayAfter } from '@forcemeat/craft/plan/day'
import { kitchenFrame } from '../paper/frame-of.ts'
import { askedPaper, paperShape } from '../paper/asked.ts'

const isoDay = z.string().refine((d) => /^\d{4}-\d{2}-\d{2}$/.test(d) && !Number.isNaN(Date.parse(d)), {
  error: (i) => `is ${JSON.stringify(i.input)}; allowed: a day as 2026-11-25`,
})
const week = {
  days: whole(1, 42).optional(),
  buyFrom: isoDay.optional(),
  closed: z
    .string()
    .regex(/^([0-6](,[0-6])*)?$/, { error: 'allowed: days of the week on which nothing is begun, 0 to 6, 0 = Sunday' })
    .optional(),
  smallest: decimal(0.1, 10_000, 'kg of mix').optional(),
  largest: decimal(0.1, 10_000, 'kg of mix').optional(),
}
const weekQuery = z.strictObject(week)
const paperQuery = z.strictObject({
  ...week,
  ...paperShape,
})
const calendarQuery = z.strictObject({ days: whole(1, 180).optional(), without: words(2000).optional() })

/** Rooms, orders, prices and the plan of the days to come. What takes long is reckoned on a thread of its own. */
export const planRoutes = ({ ledger, now }: House, reckoner: Reckoner, feeds: Feeds) => {
  const kitchen = kitchenAt(ledger, reckoner, feeds)
  const here = () => kitchen(now().getTime())
  const asked = ({
    days = 7,
    buyFrom,
    closed = '0',
    smallest = 5,
    largest = 100,
  }: z.infer<typeof weekQuery>): WeekQuery => {
    if (smallest > largest)
      throw refuse(400, `is ${smallest}, above the largest batch of ${largest} kg; allowed: at most that`, 'smallest')
    const from = now().toISOString().slice(0, 10)
    return {
      from,
      days,
      buyFrom: buyFrom ?? dayAfter(from, 1),
      closedWeekdays: closed === '' ? [] : closed.split(',').map(Number),
      smallestKg: smallest,
      largestKg: largest,
    }
  }
  return new Hono<AppEnv>()
    .get('/api/rooms', async (c) => c.json({ rooms: await ledger.rooms() }))
    .get('/api/rooms/:room/calendar', async (c) => {
      const { days = 42, without = '' } = readQuery(c, calendarQuery)
      const room = (await ledger.rooms()).find((r) => r.room === c.req.param('room'))
      if (!room) throw notHere('room', c.req.param('room'))
      if (room.rhPct === undefined || room.tempC < 0 || room.tempC > 45)
        return c.json({
          room,
          unknown:
            room.rhPct === undefined
              ? 'The room says no humidity, so its water cannot be reckoned. Correct the room and give it one.'
              : 'Water is reckoned for rooms from 0 to 45 °C.',
        })
      const options = { days, without: new Set(without.split(',').filter(Boolean)) }
      return c.json(await roomCalendar(here(), room, options))
    })
    .get('/api/slow', async (c) => c.json({ batches: (await slowBatches(here())).map((w) => w.view) }))
    .get('/api/orders', async (c) => c.json({ orders: await ledger.orders() }))
    .get('/api/prices', async (c) =>
      c.json({ prices: await ledger.prices(), sellingPrices: await ledger.sellingPrices() }),
    )
    .get('/api/resources', async (c) => c.json({ resources: await ledger.resources() }))
    .get('/api/plan', async (c) => c.json(await weekPlan(here(), asked(readQuery(c, weekQuery)))))
    .get('/paper/plan/:file{[^/]+\\.pdf}', async (c) => {
      const { size, units, ...rest } = readQuery(c, paperQuery)
      if (c.req.param('file') !== 'week.pdf') throw notHere('sheet', c.req.param('file') ?? '')
      const plan = await weekPlan(here(), asked(rest))
      const frame = { ...(await kitchenFrame(ledger, '', askedPaper({ size, units }))), foot: `Plan from ${plan.from}` }
      const { printPdf } = await import('../paper/print.ts')
      const { weekSheet } = await import('../paper/week.ts')
      return c.body(await printPdf(weekSheet({ ...frame, week: plan })), 200, {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="plan-${plan.from}.pdf"`,
      })
    })
}
