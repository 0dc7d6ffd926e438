import { describe, expect, it } from 'vitest'
import { WORKING_MESH } from '@forcemeat/craft/heat/body'
import { cook } from '@forcemeat/craft/heat/cook'
import { materialOf } from '@forcemeat/craft/heat/material'
import { simulate } from '@forcemeat/craft/heat/simulate'
import { cylinderShare, cylinderTerms, slabShare, slabTerms } from './exact-series.ts'
import { bath, constant, diffusivity, mix, piece } from './kitchen.ts'

describe('the exact series used as reference', () => {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Table 5.1 (infinite cylinder), values from memory; the roots are solved here.
  it.each([
    [0.1, 0.4417, 1.0246],
    [1, 1.2558, 1.2071],
    [5, 1.9898, 1.5029],
    [10, 2.1795, 1.5677],
    [100, 2.3809, 1.6015],
  ])('has at Biot %d the first root %d and coefficient %d of the one-term table', (biot, zeta, c) => {
    const [first] = cylinderTerms(biot, 1)
    expect(first!.zeta).toBeCloseTo(zeta, 3)
    // The coefficient moves five times as fast as the root; the table's fourth digit is not held to.
    expect(Math.abs(first!.c - c)).toBeLessThan(5e-4)
  })
  it('starts at one everywhere inside', () => {
    expect(cylinderShare(cylinderTerms(10), 0, 0.002)).toBeCloseTo(1, 3)
    expect(slabShare(slabTerms(10), 0, 0.002)).toBeCloseTo(1, 3)
  })
})

describe('infinite cylinder', () => {
  const cases = [22, 38, 75, 150].flatMap((diameterMm) =>
    [0.1, 0.3, 1, 3, 10, 30, 100].map((biot) => ({ diameterMm, biot })),
  )
  it.each(cases)(
    'of $diameterMm mm at Biot $biot keeps within 0.05 °C of the Fourier–Bessel series, core and surface, from 60 s on',
    ({ diameterMm, biot }) => {
      const radius = diameterMm / 2000
      const h = (biot * constant.conductivityWPerMK) / radius
      const terms = cylinderTerms(biot)
      const minutes = Math.min(700, (1.5 * radius * radius) / diffusivity / 60)
      const { series } = cook(piece({ diameterMm, properties: constant, stages: [bath(80, h, minutes)] }))
      for (const p of series) {
        if (p.minute < 1) continue
        const fourier = (diffusivity * p.minute * 60) / radius ** 2
        expect(Math.abs(p.coreC - (80 - 70 * cylinderShare(terms, 0, fourier)))).toBeLessThan(0.05)
        expect(Math.abs(p.surfaceC - (80 - 70 * cylinderShare(terms, 1, fourier)))).toBeLessThan(0.05)
      }
    },
  )

  it('agrees with the one-term solution of a textbook late in the course: Biot 1, Fourier 0.8', () => {
    const radius = 0.03
    const h = constant.conductivityWPerMK / radius
    const minutes = (0.8 * radius * radius) / diffusivity / 60
    const end = cook(piece({ diameterMm: 60, properties: constant, stages: [bath(80, h, minutes)] })).stages[0]!
    // C1 exp(−ζ1² Fo) with the tabulated 1.2071 and 1.2558.
    expect(end.coreC).toBeCloseTo(80 - 70 * 1.2071 * Math.exp(-(1.2558 ** 2) * 0.8), 1)
  })

  it('scales: twice the diameter, half the film, four times the time give the same temperatures', () => {
    const a = cook(piece({ diameterMm: 40, properties: constant, stages: [bath(75, 200, 20)] })).stages[0]!
    const b = cook(piece({ diameterMm: 80, properties: constant, stages: [bath(75, 100, 80)] })).stages[0]!
    expect(b.coreC).toBeCloseTo(a.coreC, 1)
    expect(b.surfaceC).toBeCloseTo(a.surfaceC, 2)
  })
})

describe('order of convergence', () => {
  const radius = 0.03
  const biot = 5
  const h = (biot * constant.conductivityWPerMK) / radius
  const material = materialOf(mix, 10, constant)
  const terms = cylinderTerms(biot)
  const s = 1200
  const exact = (place: number) => 80 - 70 * cylinderShare(terms, place, (diffusivity * s) / radius ** 2)
  const errorOf = (radial: number, fixedStepS: number) => {
    const run = simulate(
      { radiusM: radius },
      material,
      10,
      [{ film: h, mediumC: () => 80, durationS: s }],
      { kind: 'moisture-proof' },
      101_325,
      {
        mesh: { ...WORKING_MESH, radial },
        toleranceC: 1,
        longestStepS: 1e9,
        fixedStepS,
      },
    )
    return Math.abs(run.body.coreC() - exact(0))
  }
  it('is two in space: doubling the nodes quarters the error', () => {
    const [coarse, middle, fine] = [errorOf(23, 1), errorOf(45, 1), errorOf(89, 1)]
    expect(Math.log2(coarse / middle)).toBeGreaterThan(1.8)
    expect(Math.log2(middle / fine)).toBeGreaterThan(1.8)
  })
  it('is two in time: halving the step quarters the error, from a leap of the bath’s temperature on', () => {
    const reference = (() => {
      const run = simulate(
        { radiusM: radius },
        material,
        10,
        [{ film: h, mediumC: () => 80, durationS: s }],
        { kind: 'moisture-proof' },
        101_325,
        {
          mesh: { ...WORKING_MESH, radial: 40 },
          toleranceC: 1,
          longestStepS: 1e9,
          fixedStepS: 0.5,
        },
      )
      return run.body.coreC()
    })()
    const at = (fixedStepS: number) => {
      const run = simulate(
        { radiusM: radius },
        material,
        10,
        [{ film: h, mediumC: () => 80, durationS: s }],
        { kind: 'moisture-proof' },
        101_325,
        {
          mesh: { ...WORKING_MESH, radial: 40 },
          toleranceC: 1,
          longestStepS: 1e9,
          fixedStepS,
        },
      )
      return Math.abs(run.body.coreC() - reference)
    }
    const [coarse, middle, fine] = [at(120), at(60), at(30)]
    expect(Math.log2(coarse / middle)).toBeGreaterThan(1.7)
    expect(Math.log2(middle / fine)).toBeGreaterThan(1.7)
  })
  it('does not ring after a leap: the surface stays between start and bath with steps of ten minutes', () => {
    const run = simulate(
      { radiusM: radius },
      material,
      10,
      [{ film: 5000, mediumC: () => 80, durationS: 6000 }],
      { kind: 'moisture-proof' },
      101_325,
      {
        mesh: WORKING_MESH,
        toleranceC: 1,
        longestStepS: 1e9,
        fixedStepS: 600,
      },
    )
    for (const p of run.points) {
      expect(p.surfaceC).toBeLessThan(80.5)
      expect(p.coreC).toBeGreaterThan(9)
    }
  })
})

describe('finite cylinder', () => {
  it.each([
    { d: 75, l: 150, biot: 0.3 },
    { d: 75, l: 150, biot: 5 },
    { d: 100, l: 100, biot: 1 },
    { d: 100, l: 100, biot: 100 },
    { d: 60, l: 20, biot: 100 },
    { d: 40, l: 200, biot: 10 },
  ])('of $d × $l mm at Biot $biot keeps within 0.05 °C of the product of cylinder and slab', ({ d, l, biot }) => {
    const [radius, half] = [d / 2000, l / 2000]
    const h = (biot * constant.conductivityWPerMK) / radius
    const [c, s] = [cylinderTerms(biot), slabTerms((h * half) / constant.conductivityWPerMK)]
    const minutes = radius ** 2 / diffusivity / 60
    const { series, geometry } = cook(
      piece({ diameterMm: d, lengthMm: l, properties: constant, stages: [bath(80, h, minutes)] }),
    )
    expect(geometry).toBe('finite-cylinder')
    for (const p of series) {
      if (p.minute < 1) continue
      const t = diffusivity * p.minute * 60
      const middle = slabShare(s, 0, t / half ** 2)
      expect(Math.abs(p.coreC - (80 - 70 * cylinderShare(c, 0, t / radius ** 2) * middle))).toBeLessThan(0.05)
      expect(Math.abs(p.surfaceC - (80 - 70 * cylinderShare(c, 1, t / radius ** 2) * middle))).toBeLessThan(0.05)
    }
  })
  it('is called endless from six diameters on, where the product solution differs by under 0.01 °C at Fourier 0.6', () => {
    expect(cook(piece({ diameterMm: 60, lengthMm: 360, stages: [bath(75, 300, 5)] })).geometry).toBe(
      'infinite-cylinder',
    )
    const ends = 1 - slabShare(slabTerms(60), 0, 0.6 / 36)
    expect(70 * ends).toBeLessThan(0.01)
  })
})

describe('energy', () => {
  it.each([
    { name: 'endless, by-temperature properties, evaporation, ramp and chill', lengthMm: undefined },
    { name: 'short, by-temperature properties, evaporation, ramp and chill', lengthMm: 150 },
  ])('closes to 1e-6 of the heat turned over: $name', ({ lengthMm }) => {
    const r = cook(
      piece({
        ...(lengthMm === undefined ? {} : { lengthMm }),
        stages: [
          { medium: 'air', tempC: 60, rhPct: 20, airSpeedMPerS: 2, minutes: 60 },
          { medium: 'air', tempC: 78, wetBulbC: 66, airSpeedMPerS: 2, minutes: 60, rampMinutes: 30 },
          { medium: 'ice-water', tempC: 1, minutes: 60 },
        ],
      }),
    )
    expect(Math.abs(r.energyResidual)).toBeLessThan(1e-6)
  })
  it('ends at the bath everywhere after a long time', () => {
    const end = cook(piece({ stages: [bath(68, 300, 1200)] })).stages[0]!
    expect(end.coreC).toBeCloseTo(68, 3)
    expect(end.meanC).toBeCloseTo(68, 3)
  })
})
