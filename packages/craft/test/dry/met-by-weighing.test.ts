import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { course } from '../../src/dry/course.ts'
import { courseInput } from '../../src/dry/course-schema.ts'

const piece = {
  diameterMm: 50,
  composition: { waterPct: 55, proteinPct: 16, fatPct: 25, ashPct: 4, saltPct: 2.8 },
  stages: [{ days: 60, tempC: 14, rhPct: 76 }],
}
type Target = { weightLossPct?: number; aw?: number; moistureToProtein?: number }
const after = (target: Target, weighings: readonly (readonly [number, number])[]) =>
  course(
    courseInput.parse({
      ...piece,
      target,
      weighings: weighings.map(([day, weightLossPct]) => ({ day, weightLossPct })),
    }),
  )

describe('a loss that a weighing already shows', () => {
  it('was met between the weighing before and that one', () => {
    const { readyDay, working } = after({ weightLossPct: 35 }, [
      [10, 15],
      [20, 28],
      [30, 38],
    ])
    expect(readyDay!.early).toBeGreaterThanOrEqual(20)
    expect(readyDay!.likely).toBeGreaterThanOrEqual(readyDay!.early)
    expect(readyDay!.late).toBeGreaterThanOrEqual(readyDay!.likely)
    expect(readyDay!.late).toBeLessThanOrEqual(30)
    expect(working.find((w) => w.step === 'loss met by weighing')).toMatchObject({ value: 30, unit: 'days' })
  })

  it.each([
    [40, 'more than wanted'],
    [35, 'just what is wanted'],
  ])('of %d percent at the only weighing, %s, is late by no more than its day', (loss) => {
    const { readyDay } = after({ weightLossPct: 35 }, [[30, loss]])
    expect(readyDay!.late).toBeLessThanOrEqual(30)
    expect(readyDay!.likely).toBeLessThanOrEqual(readyDay!.late!)
  })

  it('meets moisture to protein too, which is the loss in other words', () => {
    // (55 − 36) / 16 = 1.1875
    expect(after({ moistureToProtein: 1.1875 }, [[30, 36]]).readyDay!.late).toBeLessThanOrEqual(30)
    expect(after({ weightLossPct: 30, moistureToProtein: 1.19 }, [[30, 36]]).readyDay!.late).toBeLessThanOrEqual(30)
    expect(after({ weightLossPct: 30, moistureToProtein: 1.0 }, [[30, 36]]).readyDay!.likely).toBeGreaterThan(30)
  })

  it('leaves a water activity wanted beside it to be foretold', () => {
    const one = after({ weightLossPct: 30, aw: 0.8 }, [
      [10, 17],
      [20, 27],
      [30, 33],
    ])
    expect(one.readyDay!.likely).toBeGreaterThan(30)
    const met = after({ weightLossPct: 30, aw: 0.93 }, [
      [10, 17],
      [20, 27],
      [30, 33],
    ])
    expect(met.readyDay!.likely).toBeGreaterThanOrEqual(20)
    expect(met.readyDay!.late).toBeLessThanOrEqual(30)
  })

  it('gives a latest day in proportion, met or nearly met, whatever is weighed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 22, max: 42, noNaN: true }),
        fc.constantFrom<Target>({ weightLossPct: 35 }, { aw: 0.9 }),
        (loss, target) => {
          const { readyDay } = after(target, [
            [10, 0.45 * loss],
            [20, 0.8 * loss],
            [30, loss],
          ])
          if (readyDay === undefined) return
          expect(readyDay.early).toBeLessThanOrEqual(readyDay.likely)
          if (readyDay.late === undefined) return
          expect(readyDay.late).toBeGreaterThanOrEqual(readyDay.likely)
          expect(readyDay.late).toBeLessThan(4 * Math.max(30, readyDay.likely))
        },
      ),
      { numRuns: 12 },
    )
  })
})

describe('air too moist to dry in', () => {
  it('is told where the model would have the sausage take up water', () => {
    const { series, warnings } = course(
      courseInput.parse({ ...piece, stages: [{ days: 60, tempC: 14, rhPct: 100 }], target: { weightLossPct: 35 } }),
    )
    expect(warnings.join(' ')).toMatch(/takes up water.*100 %.*beyond what the model is for/)
    expect(series.at(-1)!.weightLossPct).toBeLessThan(0)
    const dry = course(courseInput.parse({ ...piece, target: { weightLossPct: 35 } }))
    expect(dry.warnings.join(' ')).not.toMatch(/takes up water/)
  })
})
