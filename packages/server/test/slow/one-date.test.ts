import { course } from '@forcemeat/craft/dry/course'
import { courseInputAt } from '@forcemeat/craft/dry/outlook'
import { fermentDryOf } from '@forcemeat/craft/recipe/ferment-dry/ferment-dry'
import type { Draft } from '@forcemeat/ledger'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { dryingRecordOf } from '../../src/paper/drying-record-of.ts'
import type { RoomCalendar } from '../../src/plan/room-calendar.ts'
import type { SlowBatch } from '../../src/plan/slow.ts'
import type { Week } from '../../src/plan/week.ts'
import type { DryView } from '../../src/slow/dry-view.ts'
import { mixOf } from '../../src/slow/mix.ts'
import { openHouse, type House } from '../support.ts'

const batch = 'SLOW-1021'
const DAY = 86_400_000
let house: House
beforeAll(async () => {
  house = await openHouse({ now: () => new Date() })
  await fillWithDemo(house.ledger)
})
afterAll(() => house.close())

const get = async <T>(path: string): Promise<T> => {
  const { status, body } = await house.ask('GET', path)
  expect(status, JSON.stringify(body)).toBe(200)
  return body as T
}
const view = () => get<DryView>(`/api/batches/${batch}/dry`)
const today = async (): Promise<SlowBatch> =>
  (await get<{ batches: SlowBatch[] }>('/api/slow')).batches.find((b) => b.batch === batch)!
const paper = async () => (await dryingRecordOf(house.ledger, (await house.ledger.batch(batch))!, 'A4')).forecast
const measure = async (body: object): Promise<void> => {
  await house.ledger.append([
    {
      kind: 'batch.measure',
      by: 'ida',
      body: { batch, step: 'dry', taken: new Date().toISOString(), ...body },
    } as Draft,
  ])
}

/** The dates of the batch's own drying page, which reckons the course itself. */
async function page() {
  const { piece, left, planned, log, marked, start } = await view()
  const { readyDay } = course(courseInputAt({ ...piece!, target: left, planned, log, losses: marked.losses }).input)
  const on = (day: number): string => new Date(Date.parse(start) + day * DAY).toISOString().slice(0, 10)
  return {
    early: on(readyDay!.early),
    likely: on(readyDay!.likely),
    ...(readyDay!.late === undefined ? {} : { late: on(readyDay!.late) }),
  }
}

/** The day it comes out, by the calendar of its room and by the plan of the week. */
async function out() {
  const calendar = await get<RoomCalendar>('/api/rooms/DRY-1/calendar?days=180')
  const week = await get<Week>('/api/plan')
  return {
    room: calendar.rows.find((r) => r.batch === batch)!,
    plan: week.underWay.find((b) => b.batch === batch)!,
  }
}

describe('the ready day of a batch that dries', () => {
  it('is one day on Today, on its drying page, on paper, in the calendar of its room and in the plan', async () => {
    const dates = await page()
    expect((await today()).ready).toEqual({ ...dates, by: 'weighings' })
    expect(await paper()).toMatchObject(dates)
    const { room, plan } = await out()
    expect([room.out, plan.comesOut]).toEqual([dates.likely, dates.likely])
    // Orders are promised on the latest day.
    expect(plan.ready).toBe(dates.late)
  })

  it('is for the loss alone once its water activity is met as measured, and no longer for both', async () => {
    const before = await view()
    expect(before.left).toEqual(before.target)
    const both = await page()
    await measure({ what: 'aw', value: 0.87 })
    // By a meter nobody checked that day it is met as little as before.
    expect((await view()).left).toEqual(before.target)
    const on = new Date().toISOString().slice(0, 10)
    const salt = { method: 'salt-standard', reference: 0.753, reading: 0.753, unit: 'aw', tolerance: 0.005 }
    await house.ledger.append([
      { kind: 'instrument.check', by: 'ida', body: { instrument: 'AW-1', ...salt, on } } as Draft,
    ])
    await measure({ what: 'aw', value: 0.87, instrument: 'AW-1' })
    expect((await view()).left).toEqual({ weightLossPct: before.target.weightLossPct })
    expect((await page()).likely < both.likely).toBe(true)
    const dates = await page()
    expect((await today()).ready).toEqual({ ...dates, by: 'weighings' })
    expect(await paper()).toMatchObject({ ...dates, words: expect.stringContaining('not met as measured') as string })
    const { room, plan } = await out()
    expect([room.out, plan.comesOut]).toEqual([dates.likely, dates.likely])
  })

  it('is the day of the last figure once every target is met as measured, and nothing is foretold', async () => {
    for (const { piece, g } of (await view()).marked.starts)
      await measure({ what: 'weight', unit: 'g', piece, value: g * 0.69 })
    const on = new Date().toISOString().slice(0, 10)
    expect((await today()).ready).toEqual({ likely: on, by: 'what was measured' })
    expect(await paper()).toBeUndefined()
    const { room, plan } = await out()
    expect(plan.comesOut).toBe(on)
    expect(room.because).toBe(`its likely day was ${on}: a day is left to it to be taken out`)
  })
})

describe('a stick that is soured, cooked and then dried', () => {
  it('is the piece of its recipe’s panel, as it comes from the cook, in the air of the drying alone', async () => {
    const record = (await house.ledger.batch('STICK-0109'))!
    const { drying } = fermentDryOf(mixOf(record))
    if (!drying?.known) throw new Error('not known')
    const stick = await get<DryView>('/api/batches/STICK-0109/dry')
    expect(stick.planned).toEqual(record.recipeBody.dry!.stages)
    expect(stick.target).toEqual(drying.course.target)
    const { diameterMm, composition } = drying.course
    expect(diameterMm).toBeCloseTo(21 * Math.sqrt(0.9), 9)
    expect(stick.piece).toEqual({ diameterMm, composition })
    for (const note of drying.notes) expect(stick.notes).toContain(note)
  })
})
