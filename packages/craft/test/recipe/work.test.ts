import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { computeRecipe } from '../../src/recipe/compute.ts'
import type { Recipe } from '../../src/recipe/schema.ts'
import { costOverTime } from '../../src/recipe/work/cost-over-time.ts'
import { withMeatShares } from '../../src/recipe/work/meat-shares.ts'
import { swapCure } from '../../src/recipe/work/swap-cure.ts'
import { withTotalSalt } from '../../src/recipe/work/total-salt.ts'
import { workOfRecipe } from '../../src/recipe/work/work.ts'

const recipe: Recipe = {
  name: 'Frankfurter, fine',
  kind: 'cooked',
  smoked: true,
  readyToEat: true,
  meat: [
    { material: 'pork-butt', pct: 70 },
    { material: 'pork-belly', pct: 30, note: 'rind off' },
  ],
  additions: [
    { material: 'ice', pct: 22 },
    { material: 'salt', pct: 1.8 },
    { material: 'curing-salt-6.25-nitrite', pct: 0.22 },
  ],
  casing: { calibreMm: 24 },
  cook: { targetCoreC: 72, lossPct: 10 },
}
const prices = [
  { material: 'pork-butt', costPerKg: 4.2 },
  { material: 'pork-belly', costPerKg: 3.1 },
  { material: 'ice', costPerKg: 0 },
  { material: 'salt', costPerKg: 0.6 },
  { material: 'curing-salt-6.25-nitrite', costPerKg: 6.5 },
]
const ice = { meatC: 2, waterC: 12, targetC: 10, workKjPerKg: 30 }

describe('what a recipe asks of the bowl and the stuffer', () => {
  it('fills links so that a pack meets its net weight after the loss (common arithmetic of yield)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 2000, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (packNetG, linksPerPack, lossPct) => {
          const cooked = { ...recipe, cook: { targetCoreC: 72, lossPct } }
          const { casing } = workOfRecipe({ recipe: cooked, meatKg: 20, prices, stuff: { packNetG, linksPerPack } })
          if (!casing.known) throw new Error(casing.because)
          expect(casing.fillG! * linksPerPack * (1 - lossPct / 100)).toBeCloseTo(packNetG, 6)
          expect(casing.packFinishedG).toBeCloseTo(packNetG, 6)
          // Every pack is whole, and no mix is counted twice.
          expect((casing.packs! * linksPerPack * casing.fillG!) / 1000).toBeLessThanOrEqual(20 * 1.2402 + 1e-6)
        },
      ),
      { numRuns: 100, seed: 3 },
    )
  })

  it('asks for more ice where the meat is warmer or the mix is chopped longer, never less', () => {
    const at = (more: object) => {
      const out = workOfRecipe({ recipe, meatKg: 20, prices, ice: { ...ice, ...more } }).ice!
      if (!out.known) throw new Error(out.because)
      return out
    }
    const plain = at({})
    expect(plain.residualKj).toBeCloseTo(0, 6)
    expect(plain.iceKg + plain.waterKg).toBeCloseTo(4.4, 9)
    expect(at({ meatC: 4 }).iceKg).toBeGreaterThan(plain.iceKg)
    expect(at({ meatC: 4 }).iceKg).toBeCloseTo(plain.ifMeatWarmer.iceKg, 9)
    expect(at({ workKjPerKg: 40 }).iceKg).toBeGreaterThan(plain.iceKg)
  })

  it('scales with the batch: twice the meat, twice the ice, casing and cost', () => {
    const [one, two] = [20, 40].map((meatKg) => workOfRecipe({ recipe, meatKg, prices, ice }))
    if (!one!.ice?.known || !two!.ice?.known || !one!.casing.known || !two!.casing.known) throw new Error('not known')
    if (!one!.cost.known || !two!.cost.known) throw new Error('not known')
    expect(two!.ice.iceKg).toBeCloseTo(2 * one!.ice.iceKg, 6)
    expect(two!.casing.metres).toBeCloseTo(2 * one!.casing.metres, 9)
    expect(two!.cost.total).toBeCloseTo(2 * one!.cost.total, 9)
    expect(two!.cost.perKgFinished).toBeCloseTo(one!.cost.perKgFinished, 9)
  })

  it('costs by hand: materials over the finished weight', () => {
    const { cost } = workOfRecipe({ recipe, meatKg: 10, prices })
    if (!cost.known) throw new Error(cost.because)
    const total = 7 * 4.2 + 3 * 3.1 + 0.18 * 0.6 + 0.022 * 6.5
    expect(cost.total).toBeCloseTo(total, 9)
    expect(cost.perKgFinished).toBeCloseTo(total / (12.402 * 0.9), 9)
  })

  it('knows no cost where a part has no price, no casing without a calibre, no ice without water', () => {
    const bare = { ...recipe, additions: recipe.additions.filter((a) => a.material !== 'ice') }
    const { casing: _c, ...loose } = bare
    const out = workOfRecipe({ recipe: loose, meatKg: 10, prices: prices.slice(1), ice })
    expect(out.ice).toMatchObject({ known: false })
    expect(out.casing).toMatchObject({ known: false })
    expect(out.cost).toMatchObject({ known: false, unpriced: ['pork-butt'] })
  })
})

describe('salt and cure together', () => {
  it('takes out of the plain salt what the cure carries: 6.25 % cure is 93.75 % salt', () => {
    const out = withTotalSalt({ recipe, totalSaltPct: 1.8 })
    expect(out.cureSaltPct).toBeCloseTo(0.22 * 0.9375, 12)
    const again = computeRecipe({ recipe: out.recipe!, meatKg: 10 })
    expect(again.cure.addedSaltPctOfMeat).toBeCloseTo(1.8, 3)
    // A second click changes nothing.
    expect(withTotalSalt({ recipe: out.recipe!, totalSaltPct: 1.8 }).recipe).toEqual(out.recipe)
  })

  it('takes the plain salt as it stands for all there is to be, where no total is said', () => {
    const out = withTotalSalt({ recipe })
    const before = computeRecipe({ recipe, meatKg: 10 }).cure
    const after = computeRecipe({ recipe: out.recipe!, meatKg: 10 }).cure
    expect(after.addedSaltPctOfMeat).toBeCloseTo(before.addedSaltPctOfMeat - out.cureSaltPct, 6)
  })

  it('refuses a total below what the cures carry, and two lines of salt', () => {
    expect(withTotalSalt({ recipe, totalSaltPct: 0.1 })).toMatchObject({ possible: false })
    const two = { ...recipe, additions: [...recipe.additions, { material: 'salt-sea-grey', pct: 0.2 }] }
    expect(withTotalSalt({ recipe: two, totalSaltPct: 2 })).toMatchObject({ possible: false })
  })

  it.each(['curing-salt-0.6-nitrite', 'curing-salt-0.9-nitrite', 'sodium-nitrite'])(
    'exchanges the cure for %s at the same nitrite and the same salt in all',
    (to) => {
      const out = swapCure({ recipe, meatKg: 10, from: 'curing-salt-6.25-nitrite', to })
      if (!out.recipe) {
        // 0.6 % cure for 137.5 ppm is 2.3 % salt: more than there is.
        expect(out.because).toMatch(/more than/)
        return
      }
      const [a, b] = [recipe, out.recipe].map((r) => computeRecipe({ recipe: r, meatKg: 10 }).cure)
      expect(b!.nitritePpm).toBeCloseTo(a!.nitritePpm!, 4)
      expect(b!.addedSaltPctOfMeat).toBeCloseTo(a!.addedSaltPctOfMeat, 3)
    },
  )

  it('does not bring nitrate where there was none', () =>
    expect(
      swapCure({ recipe, meatKg: 10, from: 'curing-salt-6.25-nitrite', to: 'curing-salt-6.25-nitrite-4-nitrate' }),
    ).toMatchObject({ possible: false, toKg: null }))

  it('names a cure that is none', () => {
    expect(() => swapCure({ recipe, meatKg: 10, from: 'salt', to: 'black-pepper' })).toThrow(/to: is "black-pepper"/)
  })
})

describe('a meat block from weights', () => {
  it('adds up to 100 % whatever the weights, lots of one meat together, notes kept', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.001, max: 500, noNaN: true }), { minLength: 2, maxLength: 2 }),
        ([a, b]) => {
          const meat = [
            { material: 'pork-belly', kg: a! },
            { material: 'pork-butt', kg: b! },
            { material: 'pork-belly', kg: a! },
          ]
          const out = withMeatShares({ recipe, meat }).recipe
          expect(out.meat.reduce((s, m) => s + m.pct, 0)).toBeCloseTo(100, 9)
          expect(out.meat.find((m) => m.material === 'pork-belly')!.note).toBe('rind off')
          expect(out.meat.find((m) => m.material === 'pork-belly')!.pct).toBeCloseTo((200 * a!) / (2 * a! + b!), 4)
        },
      ),
      { numRuns: 60, seed: 8 },
    )
    expect(() => withMeatShares({ recipe, meat: [{ material: 'pork-butt', kg: 0 }] })).toThrow(/no mass/)
  })
})

describe('cost over the price lists', () => {
  it('gives each day a price changed, and what the change did to a kilogram', () => {
    const { days } = costOverTime({
      recipe,
      meatKg: 10,
      prices: [
        { material: 'pork-butt', costPerKg: 4.6, on: '2026-10-12' },
        ...prices.map((p) => ({ ...p, on: '2026-09-01' })),
        { material: 'pork-butt', costPerKg: 4.6, on: '2026-10-20' },
        { material: 'saffron', costPerKg: 9000, on: '2026-10-21' },
      ],
    })
    expect(days.map((d) => d.on)).toEqual(['2026-09-01', '2026-10-12'])
    const [first, second] = days
    expect(second!.perKgRaw! - first!.perKgRaw!).toBeCloseTo((0.4 * 7) / 12.402, 9)
    expect(second!.changes).toEqual([
      { material: 'pork-butt', before: 4.2, after: 4.6, perKgRaw: expect.closeTo((0.4 * 7) / 12.402, 9) as number },
    ])
  })

  it('is not known while a part has no price yet', () => {
    const { days } = costOverTime({ recipe, meatKg: 10, prices: [{ ...prices[0]!, on: '2026-09-01' }] })
    expect(days[0]).not.toHaveProperty('perKgRaw')
    expect(days[0]!.unpriced).toContain('salt')
  })
})
