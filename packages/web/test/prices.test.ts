import { describe, expect, it } from 'vitest'
import { pricesOf, sellingPriceOf } from '../src/pages/recipes/prices.ts'
import type { LotView } from '../src/state/views.ts'

const lot = (material: string, on: string, costPerKg?: number): LotView => ({
  seq: 1,
  root: 1,
  at: '2026-01-01T00:00:00Z',
  by: 'a',
  lot: `${material}-${on}`,
  material,
  kg: 10,
  on,
  balanceKg: 10,
  ...(costPerKg === undefined ? {} : { costPerKg }),
})
const of = (prices: ReturnType<typeof pricesOf>, material: string) =>
  prices.find((p) => p.material === material)?.costPerKg

describe('prices a recipe is reckoned at', () => {
  const listed = [
    { material: 'salt', costPerKg: 0.6, from: '2020-01-01' },
    { material: 'salt', costPerKg: 0.7, from: '2021-01-01' },
    { material: 'salt', costPerKg: 9, from: '2999-01-01' },
    { material: 'pork-back-fat', costPerKg: 2, from: '2020-01-01' },
  ]
  it('are the newest of the list in force where no lot says one', () => {
    const prices = pricesOf([lot('salt', '2026-01-01')], listed)
    expect(of(prices, 'salt')).toBe(0.7)
    expect(of(prices, 'pork-back-fat')).toBe(2)
  })
  it('are those of the newest lot where one says it', () => {
    const prices = pricesOf([lot('salt', '2026-01-02', 0.55), lot('salt', '2026-01-01', 0.5)], listed)
    expect(of(prices, 'salt')).toBe(0.55)
  })
  it('are none for what neither says', () => expect(of(pricesOf([], listed), 'rusk')).toBeUndefined())
})

describe('the price a recipe sells at', () => {
  const listed = [
    { seq: 1, recipe: 'RING', pricePerKg: 9, from: '2026-01-01' },
    { seq: 2, recipe: 'RING', pricePerKg: 11, from: '2026-06-01' },
    { seq: 3, recipe: 'OTHER', pricePerKg: 4, from: '2026-01-01' },
    { seq: 4, recipe: 'RING', pricePerKg: 10, from: '2026-03-01' },
    { seq: 5, recipe: 'RING', pricePerKg: 10.5, from: '2026-03-01' },
  ]
  it('is the newest in force on the day, in whatever order they were recorded', () => {
    expect(sellingPriceOf(listed, 'RING', '2026-05-31')?.seq).toBe(5)
    expect(sellingPriceOf(listed, 'RING', '2026-06-01')?.seq).toBe(2)
    expect(sellingPriceOf(listed, 'RING', '2026-02-01')?.seq).toBe(1)
  })
  it('is none before the first of them, of another recipe, or of one without a code', () => {
    expect(sellingPriceOf(listed, 'RING', '2025-12-31')).toBeUndefined()
    expect(sellingPriceOf(listed, 'NONE', '2026-12-31')).toBeUndefined()
    expect(sellingPriceOf(listed, undefined, '2026-12-31')).toBeUndefined()
  })
})
