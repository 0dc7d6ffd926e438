import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InvalidInput, type Calculation } from '../../src/calculation.ts'
import { batchCost, type BatchCostInput } from '../../src/cost/batch.ts'
import { costCalculations } from '../../src/cost/calculations.ts'

const entry = costCalculations[0] as unknown as Calculation
const faults = (input: unknown): string => {
  try {
    entry.run(input)
    return 'accepted'
  } catch (error) {
    return error instanceof InvalidInput ? error.message : String(error)
  }
}
// Worked by hand: 80 × 4 + 20 × 2 = 360 materials; 2 h × 30 = 60 labour; 30 other; 10 % of 450 = 45 overhead; 495 in all.
const hand: BatchCostInput = {
  materials: [
    { name: 'Lean', kg: 80, costPerKg: 4 },
    { name: 'Fat', kg: 20, costPerKg: 2 },
  ],
  labour: [{ task: 'Make', minutes: 60, people: 2, ratePerHour: 30 }],
  other: [{ name: 'Casings', cost: 30 }],
  overhead: { pctOfDirect: 10 },
  cookLossPct: 10,
  dryLossPct: 10,
  linkG: 100,
  pack: { netG: 500, costEach: 0.1, priceEach: 5 },
  pricePerKg: 10,
}

describe('cost.batch', () => {
  it('costs the hand-worked batch: 495 on 81 kg finished of 100 kg raw', () => {
    const out = batchCost(hand)
    expect(out.totalUnpacked).toBeCloseTo(495, 9)
    expect(out.finishedKg).toBeCloseTo(81, 9)
    expect(out.yieldPct).toBeCloseTo(81, 9)
    expect(out.materialsPerKgRaw).toBeCloseTo(3.6, 9)
    expect(out.perKgRaw).toBeCloseTo(4.95, 9)
    expect(out.perKgFinished).toBeCloseTo(495 / 81, 9)
    expect(out.links).toBe(1000)
    expect(out.perLink).toBeCloseTo(0.495, 9)
    expect(out.packs).toBe(162)
    expect(out.perPack).toBeCloseTo(495 / 162 + 0.1, 9)
    expect(out.total).toBeCloseTo(495 + 16.2, 9)
    expect(out.marginPct).toBeCloseTo(100 * (1 - 495 / 810), 9)
    expect(out.marginPerKg).toBeCloseTo(10 - 495 / 81, 9)
    expect(batchCost({ ...hand, pricePerKg: 5 }).marginPerKg, 'a loss is below nothing').toBeCloseTo(5 - 495 / 81, 9)
    expect(out.marginPerPackPct).toBeCloseTo((100 * (5 - 495 / 162 - 0.1)) / 5, 9)
  })

  it('puts first what moves the cost of a finished kg most', () => {
    const { moves } = batchCost(hand)
    expect(moves[0]).toMatchObject({ of: 'Lean', change: '10 % dearer' })
    // 10 % of 320, with 10 % overhead on it, over 81 kg.
    expect(moves[0]!.perKgFinished).toBeCloseTo((32 * 1.1) / 81, 9)
    const cook = moves.find((m) => m.of === 'Cook loss')!
    expect(cook.perKgFinished).toBeCloseTo(495 / (100 * 0.89 * 0.9) - 495 / 81, 9)
    expect(moves.map((m) => m.perKgFinished)).toEqual(moves.map((m) => m.perKgFinished).toSorted((a, b) => b - a))
  })

  it('buys 80 / 0.96 kg where 4 % is trimmed away, and takes a weighed finished weight over the losses', () => {
    const wasted = batchCost({ materials: [{ name: 'Lean', kg: 80, costPerKg: 4, wastePct: 4 }] })
    expect(wasted.total).toBeCloseTo((80 / 0.96) * 4, 9)
    const weighed = batchCost({ ...hand, finishedKg: 75 })
    expect(weighed.perKgFinished).toBeCloseTo(495 / 75, 9)
    expect(weighed.moves.some((m) => m.of === 'Cook loss')).toBe(false)
    expect(weighed.moves.some((m) => m.of === 'Finished weight')).toBe(true)
  })

  it('has lines that add up to the total and shares to 100 %, whatever the batch; twice the batch costs the same a kg', () => {
    const material = fc.record({
      name: fc.constant('m'),
      kg: fc.double({ min: 0.1, max: 500, noNaN: true }),
      costPerKg: fc.double({ min: 0.01, max: 50, noNaN: true }),
    })
    fc.assert(
      fc.property(
        fc.array(material, { minLength: 1, maxLength: 8 }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (materials, cookLossPct, pctOfDirect) => {
          const input: BatchCostInput = {
            materials,
            cookLossPct,
            overhead: { pctOfDirect },
            pack: { netG: 400, costEach: 0.2 },
          }
          const out = batchCost(input)
          expect(out.lines.reduce((s, l) => s + l.cost, 0)).toBeCloseTo(out.total, 6)
          expect(out.lines.reduce((s, l) => s + l.sharePct, 0)).toBeCloseTo(100, 6)
          expect(out.perKgRaw * out.rawKg).toBeCloseTo(out.perKgFinished * out.finishedKg, 6)
          const twice = batchCost({ ...input, materials: materials.map((m) => ({ ...m, kg: m.kg * 2 })) })
          expect(twice.perKgFinished).toBeCloseTo(out.perKgFinished, 9)
        },
      ),
    )
  })

  it('costs more a finished kg the more is lost', () => {
    const at = (cookLossPct: number) => batchCost({ ...hand, cookLossPct }).perKgFinished
    for (let p = 0; p < 90; p += 10) expect(at(p + 10)).toBeGreaterThan(at(p))
  })

  it.each([
    [{ materials: [] }, /materials: has 0 items/],
    [{ ...hand, cookLossPct: 100 }, /cookLossPct: is 100; allowed/],
    [{ ...hand, finishedKg: 101 }, /finishedKg: is 101; allowed: at most the 100 kg of mix/],
    [{ materials: [{ name: 'a', kg: 1, costPerKg: -1 }] }, /costPerKg: is -1; allowed/],
    [{ ...hand, profit: 1 }, /profit: is not a field/],
  ])('refuses %#', (input, message) => {
    expect(faults(input)).toMatch(message)
  })
})
