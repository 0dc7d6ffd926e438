import { describe, expect, it } from 'vitest'
import { dayAfter, daysBetween } from '../../src/plan/day.ts'
import { planCalculations } from '../../src/plan/calculations.ts'
import type { PlanInput } from '../../src/plan/schema.ts'

const [plan] = planCalculations
const product = {
  id: 'fresh',
  yieldPct: 100,
  leadDays: 0,
  needs: [{ material: 'trim', pctOfMix: 100 }],
  uses: [{ resource: 'stuffer', perMixKg: 1 }],
}
const base: PlanInput = {
  from: '2026-03-02',
  days: 5,
  products: [product],
  orders: [{ id: 'A', product: 'fresh', kg: 100, due: '2026-03-04' }],
  resources: [{ id: 'stuffer', perDay: 60 }],
  lots: [{ lot: 'L1', material: 'trim', kg: 500 }],
}
const sum = (xs: readonly number[]) => xs.reduce((s, x) => s + x, 0)

describe('plan.production', () => {
  it('makes what is ordered in time, as late as the room of each day lets it', () => {
    const r = plan.run(base)
    expect(r.orders[0]).toMatchObject({ onTimeKg: expect.closeTo(100, 6), lateKg: 0, shortKg: 0 })
    expect(r.batches.map((b) => [b.start, Math.round(b.mixKg)])).toEqual([
      ['2026-03-03', 40],
      ['2026-03-04', 60],
    ])
  })

  it('keeps the balance: lots drawn are what the batches need, finished is mix times yield', () => {
    const r = plan.run({ ...base, products: [{ ...product, yieldPct: 80 }] })
    for (const b of r.batches) {
      expect(sum(b.lots.map((l) => l.kg))).toBeCloseTo(b.mixKg, 6)
      expect(b.finishedKg).toBeCloseTo(b.mixKg * 0.8, 9)
    }
    expect(sum(r.batches.map((b) => b.finishedKg))).toBeCloseTo(100, 5)
  })

  it('never loads a resource beyond its day, and says what is late and what was full', () => {
    const r = plan.run({ ...base, orders: [{ id: 'A', product: 'fresh', kg: 200, due: '2026-03-03' }] })
    for (const l of r.load) expect(l.used).toBeLessThanOrEqual(60 + 1e-6)
    expect(r.orders[0]).toMatchObject({
      onTimeKg: expect.closeTo(120, 5),
      lateKg: expect.closeTo(80, 5),
      shortKg: 0,
      done: '2026-03-05',
    })
    expect(r.tight).toContain('stuffer on 2026-03-02')
  })

  it('uses the lot that expires first, and none after its date', () => {
    const r = plan.run({
      ...base,
      lots: [
        { lot: 'late', material: 'trim', kg: 500, useBy: '2026-03-20' },
        { lot: 'soon', material: 'trim', kg: 30, useBy: '2026-03-04' },
        { lot: 'gone', material: 'trim', kg: 99, useBy: '2026-03-01' },
      ],
    })
    expect(r.batches[0]!.lots[0]).toMatchObject({ lot: 'soon', kg: expect.closeTo(30, 6) })
    expect(r.batches.flatMap((b) => b.lots).some((l) => l.lot === 'gone')).toBe(false)
  })

  it('buys what the lots lack, be they too small or past their date', () => {
    for (const lot of [
      { lot: 'L1', material: 'trim', kg: 70 },
      { lot: 'L1', material: 'trim', kg: 300, useBy: '2026-03-01' },
    ]) {
      const r = plan.run({ ...base, lots: [lot] })
      expect(r.orders[0]).toMatchObject({ onTimeKg: expect.closeTo(100, 5), shortKg: 0 })
      expect(sum(r.toBuy.map((b) => b.kg))).toBeCloseTo(lot.useBy === undefined ? 30 : 100, 4)
      expect(r.lacking).toEqual([])
    }
  })

  it('is short by what the lots lack where nothing may be bought, and says of what', () => {
    const r = plan.run({ ...base, lots: [{ lot: 'L1', material: 'trim', kg: 70 }], noBuying: true })
    expect(r.orders[0]!.shortKg).toBeCloseTo(30, 5)
    expect(r.toBuy).toEqual([])
    expect(r.lacking).toEqual([{ material: 'trim', kg: expect.closeTo(30, 4) }])
    expect(r.because).toMatch(/short of 30 kg of trim, and nothing may be bought/)
    const none = plan.run({ ...base, lots: [], noBuying: true })
    expect(none.batches).toEqual([])
    expect(none.lacking).toEqual([{ material: 'trim', kg: expect.closeTo(100, 4) }])
  })

  it('lists what must be bought of a material no lot is given for', () => {
    expect(plan.run({ ...base, lots: [] }).toBuy).toEqual([
      { material: 'trim', kg: expect.closeTo(100, 5), by: '2026-03-03' },
    ])
  })

  it('starts early enough to dry, fills the room for as many days, and keeps to whole batches', () => {
    const dried = {
      id: 'dried',
      yieldPct: 60,
      leadDays: 3,
      batch: { minKg: 20, maxKg: 40 },
      needs: [],
      uses: [{ resource: 'room', perMixKg: 1, forDays: 3 }],
    }
    const r = plan.run({
      ...base,
      products: [dried],
      orders: [{ id: 'D', product: 'dried', kg: 36, due: '2026-03-06' }],
      resources: [{ id: 'room', perDay: 80 }],
    })
    expect(r.orders[0]).toMatchObject({ shortKg: 0, lateKg: 0 })
    expect(sum(r.batches.map((b) => b.mixKg))).toBeCloseTo(60, 5)
    for (const b of r.batches) {
      expect(daysBetween(b.start, b.ready)).toBe(3)
      expect(b.mixKg).toBeGreaterThanOrEqual(20 - 1e-6)
      expect(b.mixKg).toBeLessThanOrEqual(40 + 1e-6)
    }
    for (const l of r.load) expect(l.used).toBeLessThanOrEqual(80 + 1e-6)
  })

  it('starts nothing on a closed day, and takes stock off what is to be made', () => {
    const r = plan.run({ ...base, closed: ['2026-03-03'], products: [{ ...product, stockKg: 20 }] })
    expect(r.batches.some((b) => b.start === '2026-03-03')).toBe(false)
    expect(sum(r.batches.map((b) => b.mixKg))).toBeCloseTo(80, 5)
  })

  it.each([
    [{ ...base, days: 0 }, /days: is 0/],
    [{ ...base, days: 1.5 }, /days: is 1\.5; allowed: a whole number/],
    [{ ...base, orders: [{ id: 'A', product: 'x', kg: 1, due: '2026-03-04' }] }, /orders\[0\]\.product: is "x"/],
    [{ ...base, orders: [{ id: 'A', product: 'fresh', kg: 1, due: '2026-02-04' }] }, /orders\[0\]\.due: is 2026-02-04/],
    [
      { ...base, lots: [...base.lots, { lot: 'L1', material: 'salt', kg: 5 }] },
      /lots\[1\]\.lot: is "L1" a second time; allowed: each lot once/,
    ],
    [{ ...base, noBuying: true, buyFrom: '2026-03-03' }, /noBuying: stands beside buyFrom; allowed: one of the two/],
    [{ ...base, resources: [] }, /products\[0\]\.uses\[0\]\.resource: is "stuffer"/],
    [{ ...base, from: '02.03.2026' }, /from: is the text "02\.03\.2026"/],
  ])('refuses by name: case %#', (input, message) => expect(() => plan.run(input)).toThrow(message))
})

describe('days', () => {
  it('pass months and leap years', () => {
    expect(dayAfter('2028-02-28', 2)).toBe('2028-03-01')
    expect(daysBetween('2026-12-31', '2027-01-01')).toBe(1)
  })
})

describe('what is there before the plan', () => {
  it('counts what comes of batches already begun, from the day it is ready', () => {
    const orders = [
      { id: 'A', product: 'fresh', kg: 30, due: '2026-03-02' },
      { id: 'B', product: 'fresh', kg: 50, due: '2026-03-05' },
    ]
    const r = plan.run({ ...base, orders, products: [{ ...product, coming: [{ kg: 50, on: '2026-03-04' }] }] })
    expect(sum(r.batches.map((b) => b.mixKg))).toBeCloseTo(30, 6)
    expect(r.batches.map((b) => b.start)).toEqual(['2026-03-02'])
    expect(r.orders.map((o) => o.onTimeKg)).toEqual([expect.closeTo(30, 6), expect.closeTo(50, 6)])
  })

  it('leaves alone what of a resource is taken already, and shows it in the load', () => {
    const resources = [{ id: 'stuffer', perDay: 60, taken: [{ day: '2026-03-04', amount: 50 }] }]
    const r = plan.run({ ...base, resources })
    const on = (day: string) => sum(r.batches.filter((b) => b.start === day).map((b) => b.mixKg))
    expect(on('2026-03-04')).toBeLessThanOrEqual(10 + 1e-6)
    expect(sum(r.batches.map((b) => b.mixKg))).toBeCloseTo(100, 5)
    expect(r.load.find((l) => l.day === '2026-03-04')).toMatchObject({ taken: 50, used: expect.closeTo(60, 5) })
  })

  it('is not undone by more taken of a resource than there is', () => {
    const resources = [{ id: 'stuffer', perDay: 60, taken: [{ day: '2026-03-04', amount: 80 }] }]
    const r = plan.run({ ...base, resources })
    expect(r.status).toBe('optimal')
    expect(r.batches.some((b) => b.start === '2026-03-04')).toBe(false)
  })

  it('buys what the lots do not cover, and begins nothing that needs it before it can be here', () => {
    const lots = [{ lot: 'L1', material: 'trim', kg: 40 }]
    const r = plan.run({ ...base, lots, buyFrom: '2026-03-04', resources: [{ id: 'stuffer', perDay: 200 }] })
    expect(r.toBuy).toEqual([{ material: 'trim', kg: expect.closeTo(60, 5), by: '2026-03-04' }])
    expect(r.orders[0]).toMatchObject({ onTimeKg: expect.closeTo(100, 5), shortKg: 0 })
    const early = plan.run({ ...base, lots, buyFrom: '2026-03-05', resources: [{ id: 'stuffer', perDay: 200 }] })
    expect(early.orders[0]).toMatchObject({ onTimeKg: expect.closeTo(40, 5), lateKg: expect.closeTo(60, 5) })
    expect(early.batches.filter((b) => b.start < '2026-03-05').every((b) => b.mixKg <= 40 + 1e-6)).toBe(true)
    const none = plan.run({ ...base, lots: [], buyFrom: '2026-03-05' })
    expect(none.orders[0]).toMatchObject({ onTimeKg: 0, lateKg: expect.closeTo(100, 5) })
  })
})
