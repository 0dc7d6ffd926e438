import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ingoing } from '../../src/cure/ingoing.ts'
import { swap } from '../../src/cure/swap.ts'

const strong = { sodiumNitritePct: 6.25, saltPct: 93.75 }
const weak = { sodiumNitritePct: 0.6, saltPct: 99.4 }
const withNitrate = { sodiumNitritePct: 6.25, sodiumNitratePct: 4, saltPct: 89.75 }

describe('swap', () => {
  it('gives the same nitrite and the salt that changes with it', () => {
    const found = swap({
      basisKg: 10,
      from: { kg: 0.024, composition: strong },
      to: { composition: weak },
      totalSaltKg: 0.27,
    })
    expect(found.possible).toBe(true)
    expect(found.toKg).toBeCloseTo(0.25, 12)
    expect(found.nitritePpm).toBeCloseTo(150, 9)
    expect(found.saltAdjustKg).toBeCloseTo(0.024 * 0.9375 - 0.25 * 0.994, 12)
  })

  it('is refused where the new cure carries more salt than the recipe is to hold, either side of the edge', () => {
    const at = (totalSaltKg: number) =>
      swap({ basisKg: 10, from: { kg: 0.024, composition: strong }, to: { composition: weak }, totalSaltKg })
    expect(at(0.2485).possible).toBe(true)
    expect(at(0.2484)).toMatchObject({ possible: false, toKg: null, saltAdjustKg: null })
    expect(at(0.2484).because).toMatch(/more than the 0\.2484 kg/)
  })

  it('is refused where nitrate would come in, go missing, or change', () => {
    const from = { kg: 0.024, composition: strong }
    expect(swap({ basisKg: 10, from, to: { composition: withNitrate } }).because).toMatch(
      /would bring 96 mg\/kg of nitrate/,
    )
    expect(
      swap({ basisKg: 10, from: { kg: 0.024, composition: withNitrate }, to: { composition: strong } }).because,
    ).toMatch(/would leave 0 mg\/kg/)
    const half = { sodiumNitritePct: 6.25, sodiumNitratePct: 2, saltPct: 91.75 }
    expect(
      swap({ basisKg: 10, from: { kg: 0.024, composition: withNitrate }, to: { composition: half } }).possible,
    ).toBe(false)
  })

  it('is refused where a little nitrate would come in, however little: 0.8 mg/kg, or a quarter of a weak dose', () => {
    const trace = { sodiumNitritePct: 6, sodiumNitratePct: 0.032, saltPct: 93.968 }
    expect(swap({ basisKg: 10, from: { kg: 0.024, composition: strong }, to: { composition: trace } })).toMatchObject({
      possible: false,
      because: 'the new agent would bring 0.8 mg/kg of nitrate where there were 0',
    })
    const quarter = { sodiumNitritePct: 0.4, sodiumNitratePct: 0.1, saltPct: 99.5 }
    expect(swap({ basisKg: 1000, from: { kg: 1, composition: weak }, to: { composition: quarter } }).possible).toBe(
      false,
    )
  })

  it('is refused where nitrate would change by part of a percent, and stands where both keep one ratio', () => {
    const from = { kg: 0.024, composition: withNitrate }
    const [off, same] = [3.99, 4].map((sodiumNitratePct) =>
      swap({ basisKg: 10, from, to: { composition: { sodiumNitritePct: 6.25, sodiumNitratePct, saltPct: 89.75 } } }),
    )
    expect(off!.possible).toBe(false)
    expect(same!.possible).toBe(true)
    const tenth = { sodiumNitritePct: 0.625, sodiumNitratePct: 0.4, saltPct: 98.975 }
    const found = swap({ basisKg: 10, from, to: { composition: tenth } })
    expect(found.possible).toBe(true)
    expect(found.because).toMatch(/^the same 150 mg\/kg of nitrite and 96 mg\/kg of nitrate from 0\.24 kg/)
  })

  it('never exchanges nitrate for nitrite', () => {
    const saltpetre = { potassiumNitratePct: 100 }
    expect(
      swap({ basisKg: 10, from: { kg: 0.01, composition: saltpetre }, to: { composition: strong } }).possible,
    ).toBe(false)
    expect(
      swap({ basisKg: 10, from: { kg: 0.024, composition: strong }, to: { composition: saltpetre } }).possible,
    ).toBe(false)
    expect(
      swap({ basisKg: 10, from: { kg: 0.01, composition: { saltPct: 100 } }, to: { composition: strong } }).possible,
    ).toBe(false)
  })

  it('exchanges potassium for sodium nitrate mole for mole', () => {
    const found = swap({
      basisKg: 10,
      from: { kg: 0.01, composition: { potassiumNitratePct: 100 } },
      to: { composition: { sodiumNitratePct: 100 } },
    })
    expect(found.possible).toBe(true)
    expect(found.toKg! / 0.01).toBeCloseTo(84.994 / 101.102, 9)
  })

  it('says that the room for salt was not checked where the recipe salt is not given', () => {
    expect(swap({ basisKg: 10, from: { kg: 0.024, composition: strong }, to: { composition: weak } }).because).toMatch(
      /totalSaltKg is not given/,
    )
  })

  it('back again is the amount one started with, and a possible swap keeps nitrite and total salt', () => {
    const pct = fc.double({ min: 0.3, max: 10, noNaN: true })
    fc.assert(
      fc.property(pct, pct, fc.double({ min: 0.001, max: 5, noNaN: true }), (a, b, kg) => {
        const one = { sodiumNitritePct: a, saltPct: 100 - a }
        const two = { sodiumNitritePct: b, saltPct: 100 - b }
        const there = swap({ basisKg: 50, from: { kg, composition: one }, to: { composition: two } })
        const back = swap({ basisKg: 50, from: { kg: there.toKg!, composition: two }, to: { composition: one } })
        const was = ingoing({ route: 'comminuted', basisKg: 50, agents: [{ kg, composition: one }] })
        expect(back.toKg! / kg).toBeCloseTo(1, 9)
        expect(there.nitritePpm / was.nitritePpm).toBeCloseTo(1, 9)
        expect((there.toKg! * (100 - b)) / 100 + there.saltAdjustKg!).toBeCloseTo((kg * (100 - a)) / 100, 9)
      }),
    )
  })
})
