import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findCalculation } from '@forcemeat/craft/calculations'
import { cook } from '@forcemeat/craft/heat/cook'
import { bath, constant, mix, piece } from './kitchen.ts'

const run = (input: unknown) => () => findCalculation('heat.cook')!.run(input)

describe('a stage until core', () => {
  it('ends when the core is there, to 1e-4 °C', () => {
    const r = cook(piece({ stages: [{ medium: 'water', tempC: 75, filmWPerM2K: 400, untilCoreC: 68 }] }))
    expect(r.stages[0]!.coreC).toBeCloseTo(68, 4)
    expect(r.stages[0]!.reachedCore).toBe(true)
    expect(r.series.at(-1)!.minute).toBeCloseTo(r.minutesTotal, 9)
  })
  it('ends downwards when the core is hot and the medium cold', () => {
    const r = cook(piece({ startC: 72, stages: [{ medium: 'ice-water', tempC: 1, untilCoreC: 20 }] }))
    expect(r.stages[0]!.coreC).toBeCloseTo(20, 4)
  })
  it('takes no time where the core is already past it in a hotter medium', () => {
    const r = cook(piece({ startC: 70, stages: [{ medium: 'water', tempC: 80, untilCoreC: 68 }, bath(80, 300, 1)] }))
    expect(r.stages[0]!.endMinute).toBe(0)
  })
  it('ends at its minutes where these come first, and says so', () => {
    const r = cook(piece({ stages: [{ medium: 'water', tempC: 75, untilCoreC: 68, minutes: 10 }] }))
    expect(r.stages[0]!.reachedCore).toBe(false)
    expect(r.warnings.join()).toMatch(/ran out of its minutes/)
  })
  it('is refused where the core cannot get there, naming the stage and what the core comes to', () => {
    const stages = [bath(60, 300, 10), { medium: 'air', tempC: 75, wetBulbC: 60, airSpeedMPerS: 2, untilCoreC: 68 }]
    expect(run({ diameterMm: 40, composition: mix, startC: 10, surface: 'wet', stages })).toThrow(
      /stages\[1\]\.untilCoreC: is 68 °C, but after .* h in this stage the core stands at (59|60)\.\d °C/,
    )
  })
})

describe('a thick piece until core', () => {
  // One term of the series of an endless cylinder at Biot ∞: 1.602 exp(−5.783 Fo) (Carslaw & Jaeger 1959, 7.6; Heisler 1947).
  const hours = (diameterMm: number, startC: number, tempC: number, untilCoreC: number): number => {
    const unmet = (untilCoreC - tempC) / (startC - tempC)
    const { conductivityWPerMK: k, densityKgPerM3: rho, specificHeatJPerKgK: cp } = constant
    return ((Math.log(1.602 / unmet) / 5.783) * (diameterMm / 2000) ** 2 * rho * cp) / k / 3600
  }
  it.each([270, 300, 400, 500])('of %d mm waits out the first hours, in which its core does not move', (diameterMm) => {
    for (const [medium, startC, tempC, untilCoreC] of [
      ['water', 4, 80, 70],
      ['ice-water', 70, 0.5, 4],
    ] as const) {
      const stages = [{ medium, tempC, filmWPerM2K: 20_000, untilCoreC }]
      const r = cook(piece({ diameterMm, startC, surface: 'moisture-proof', properties: constant, stages }))
      expect(r.stages[0]!.coreC).toBeCloseTo(untilCoreC, 3)
      expect(r.minutesTotal / 60 / hours(diameterMm, startC, tempC, untilCoreC)).toBeCloseTo(1, 2)
    }
  })
  it('is refused all the same where the bath is not hot enough', () => {
    const stages = [{ medium: 'water', tempC: 69, filmWPerM2K: 500, untilCoreC: 70 }]
    expect(run({ diameterMm: 300, composition: mix, startC: 4, surface: 'moisture-proof', stages })).toThrow(
      /untilCoreC: is 70 °C, but after .* h in this stage the core stands at (68\.9|69\.0) °C and hardly moves/,
    )
  })
})

describe('the core after the heat is off', () => {
  it('rises on, and its true maximum is carried by the stage that caused it', () => {
    const r = cook(
      piece({
        stages: [
          { medium: 'water', tempC: 85, filmWPerM2K: 500, untilCoreC: 65 },
          { medium: 'ice-water', tempC: 1, minutes: 60 },
        ],
      }),
    )
    expect(r.stages[0]!.peakCoreC).toBeGreaterThan(66)
    expect(r.stages[0]!.peakMinute).toBeGreaterThan(r.stages[0]!.endMinute)
    expect(r.peakCoreC).toBe(r.stages[0]!.peakCoreC)
    expect(r.peakCoreC).toBeGreaterThanOrEqual(Math.max(...r.series.map((p) => p.coreC)) - 0.02)
  })
  it('is told for a last stage as the rise in still room air, above the end and below the bath', () => {
    const r = cook(piece({ stages: [{ medium: 'water', tempC: 85, filmWPerM2K: 500, untilCoreC: 65 }] }))
    expect(r.carryOver!.peakCoreC).toBeGreaterThan(66)
    expect(r.carryOver!.peakCoreC).toBeLessThan(85)
    expect(r.carryOver!.afterMinutes).toBeGreaterThan(1)
  })
  it('does not rise where the piece was already even', () => {
    expect(cook(piece({ stages: [bath(70, 300, 1000)] })).carryOver?.peakCoreC ?? 70).toBeLessThan(70.01)
  })
})

describe('the weight lost', () => {
  it('is never more than the water there is, to the last digit: 5 mm for 30 days in dry air', () => {
    const stages = [{ medium: 'air' as const, tempC: 60, rhPct: 10, airSpeedMPerS: 2, minutes: 43_200 }]
    const r = cook(piece({ diameterMm: 5, surface: 'wet', stages }))
    expect(r.weightLossPct).toBeLessThanOrEqual(mix.waterPct)
    expect(r.weightLossPct).toBeGreaterThan(mix.waterPct - 0.1)
  })
})

describe('a ramp', () => {
  it('takes the house in a straight line from the stage before', () => {
    const r = cook(piece({ stages: [bath(50, 300, 30), { ...bath(80, 300, 60), rampMinutes: 30 }] }))
    expect(r.series.find((p) => p.minute === 45)!.houseC).toBeCloseTo(65, 6)
    expect(r.series.find((p) => p.minute === 75)!.houseC).toBeCloseTo(80, 6)
  })
  it('is the limit of many small steps', () => {
    const ramp = cook(piece({ stages: [{ ...bath(70, 300, 60), rampMinutes: 60 }] })).stages.at(-1)!.coreC
    const steps = Array.from({ length: 30 }, (_, i) => bath(10 + 2 * i + 1, 300, 2))
    expect(cook(piece({ stages: steps })).stages.at(-1)!.coreC).toBeCloseTo(ramp, 1)
  })
})

describe('series', () => {
  it('starts at zero, ascends strictly, holds each stage’s end, and stays under 2000 points for three days', () => {
    const r = cook(piece({ stages: [bath(70, 300, 33.3), { medium: 'air', tempC: 4, rhPct: 85, minutes: 4320 }] }))
    expect(r.series[0]).toMatchObject({ minute: 0, coreC: 10 })
    for (let i = 1; i < r.series.length; i++) expect(r.series[i]!.minute).toBeGreaterThan(r.series[i - 1]!.minute)
    for (const s of r.stages) expect(r.series.some((p) => Math.abs(p.minute - s.endMinute) < 1e-9)).toBe(true)
    expect(r.series.length).toBeLessThan(2000)
  })
  it('does not depend on how one stage is cut in two', () => {
    const one = cook(piece({ stages: [bath(72, 300, 80)] })).stages.at(-1)!
    const two = cook(piece({ stages: [bath(72, 300, 37), bath(72, 300, 43)] })).stages.at(-1)!
    expect(two.coreC).toBeCloseTo(one.coreC, 1)
  })
  it('keeps core between start and bath, and surface ahead of core while heating', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 120, noNaN: true }),
        fc.double({ min: 5, max: 3000, noNaN: true }),
        fc.double({ min: 30, max: 98, noNaN: true }),
        (diameterMm, h, tempC) => {
          const { series } = cook(piece({ diameterMm, stages: [bath(tempC, h, 30)] }))
          return series.every((p) => p.coreC > 10 - 0.02 && p.surfaceC < tempC + 0.02 && p.surfaceC > p.coreC - 0.02)
        },
      ),
      { numRuns: 30 },
    )
  })
  it('heats no slower with a higher film or a hotter bath', () => {
    const core = (h: number, t: number) => cook(piece({ stages: [bath(t, h, 60)] })).stages[0]!.coreC
    expect(core(200, 70)).toBeGreaterThan(core(100, 70))
    expect(core(100, 75)).toBeGreaterThan(core(100, 70))
  })
})

describe('a 70 to 76 mm sausage in 70 °C water to a core of 67 °C (common practice says 2 to 2.5 h, no source)', () => {
  const hours = (over: object, h: number, diameterMm = 73) =>
    cook(piece({ diameterMm, stages: [{ medium: 'water', tempC: 70, filmWPerM2K: h, untilCoreC: 67 }], ...over }))
      .minutesTotal / 60
  it('takes 1.5 to 2.1 h by conduction alone from 10 °C', () => {
    for (const diameterMm of [70, 76])
      for (const composition of [
        { waterPct: 61, proteinPct: 16, fatPct: 20, ashPct: 3 },
        { waterPct: 47, proteinPct: 12, fatPct: 38, ashPct: 3 },
      ])
        for (const h of [150, 1000]) {
          expect(hours({ composition }, h, diameterMm)).toBeGreaterThan(1.45)
          expect(hours({ composition }, h, diameterMm)).toBeLessThan(2.1)
        }
  })
  it('takes what practice says once the mix is at 2 °C, the pieces crowd and the bath sags', () => {
    const sagging = [
      { medium: 'water' as const, tempC: 62, filmWPerM2K: 80, minutes: 0.1 },
      { medium: 'water' as const, tempC: 70, filmWPerM2K: 80, rampMinutes: 45, untilCoreC: 67 },
    ]
    expect(hours({ startC: 2, stages: sagging }, 80)).toBeGreaterThan(2)
    expect(hours({ startC: 2, stages: sagging }, 80)).toBeLessThan(2.5)
  })
})

describe('refusals', () => {
  const base = { diameterMm: 60, composition: mix, startC: 5 }
  it.each([
    [{ ...base, stages: [{ medium: 'water', tempC: 70 }] }, /stages\[0\]\.minutes: is missing, and so is untilCoreC/],
    [
      { ...base, stages: [{ medium: 'water', tempC: 70, rhPct: 50, minutes: 5 }] },
      /stages\[0\]\.rhPct: is given for water/,
    ],
    [
      { ...base, stages: [{ medium: 'air', tempC: 70, rhPct: 50, wetBulbC: 55, minutes: 5 }] },
      /stages\[0\]\.wetBulbC: is given together with rhPct/,
    ],
    [
      { ...base, stages: [{ medium: 'air', tempC: 70, wetBulbC: 75, minutes: 5 }] },
      /stages\[0\]\.wetBulbC: is 75 °C, above the dry bulb/,
    ],
    [{ ...base, stages: [{ medium: 'water', tempC: 110, minutes: 5 }] }, /stages\[0\]\.tempC: is 110 for water/],
    [{ ...base, startC: -10, stages: [bath(70, 300, 5)] }, /startC: is -10/],
    [{ ...base, stages: [] }, /stages: .*list of 1 to 50/],
    [
      { ...base, stages: [{ medium: 'oil', tempC: 110, minutes: 5 }] },
      /stages\[0\]\.medium: .*air, water, steam, ice-water/,
    ],
    [{ ...base, smoke: 1, stages: [bath(70, 300, 5)] }, /smoke/],
  ])('names the field and what is allowed: %#', (input, message) => expect(run(input)).toThrow(message))
})

describe('warnings', () => {
  it('always say what the model was checked against', () => {
    expect(cook(piece({ stages: [bath(70, 300, 5)] })).warnings.join()).toMatch(
      /checked against the log of one sausage[\s\S]*against no measured cook in water/,
    )
  })
  it('tell of air without humidity', () => {
    expect(cook(piece({ stages: [{ medium: 'air', tempC: 60, minutes: 5 }] })).warnings.join()).toMatch(
      /without rhPct or wetBulbC/,
    )
  })
  it('tell of a surface that would freeze', () => {
    expect(
      cook(
        piece({ startC: 60, stages: [{ medium: 'air', tempC: -20, filmWPerM2K: 60, minutes: 200 }] }),
      ).warnings.join(),
    ).toMatch(/freezing is not in the model/)
  })
})

it('takes constant properties as given', () => {
  const a = cook(piece({ properties: constant, stages: [bath(70, 300, 60)] })).stages[0]!.coreC
  const b = cook(piece({ properties: { ...constant, conductivityWPerMK: 0.5 }, stages: [bath(70, 300, 60)] }))
    .stages[0]!.coreC
  expect(b).toBeGreaterThan(a)
})
