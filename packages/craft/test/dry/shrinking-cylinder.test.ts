import { describe, expect, it } from 'vitest'
import {
  advance,
  cylinder,
  meanWater,
  waterKgPerM,
  WORKING_SHELLS,
  type Material,
  type Rim,
} from '@forcemeat/craft/dry/shrinking-cylinder'
import { bessel, cylinderTerms } from '../heat-physics/exact-series.ts'

const [D, R, START, END] = [5e-11, 0.03, 1.5, 0.4]
const still: Material = { diffusivity: () => D, solidKgPerM3: 1200, waterKgPerM3: 1000, shrinks: false }
/** kg of solids per m³ of the unshrunk piece. */
const solids = 1 / (1 / 1200 + START / 1000)

/** Mean of what is left of the first difference: Crank, The Mathematics of Diffusion, eq. 5.23 (held rim) and 5.49 (film). */
const exactMean = (biot: number, fourier: number): number =>
  cylinderTerms(biot, 50).reduce(
    (s, { zeta, c }) => s + ((2 * c * bessel(1, zeta)) / zeta) * Math.exp(-zeta * zeta * fourier),
    0,
  )
const rimOf = (biot: number): Rim =>
  biot === Infinity
    ? { kind: 'held', water: END }
    : { kind: 'flow', flow: (x) => ((biot * D * solids) / R) * (x - END) }

function dry(biot: number, fourier: number, { shells = WORKING_SHELLS, steps = 0, material = still } = {}) {
  const c = cylinder(R, START, material, shells)
  const before = waterKgPerM(c)
  const end = (fourier * R * R) / D
  let [t, dt] = [0, steps ? end / steps : 60]
  while (t < end - 1) {
    const span = Math.min(dt, end - t)
    advance(c, rimOf(biot), span)
    t += span
    if (!steps) dt = Math.min(dt * 1.35, 28_800)
  }
  return { c, before, left: (meanWater(c) - END) / (START - END) }
}

describe('moisture in a cylinder that keeps its size and its diffusivity', () => {
  it('has the first roots of J0 in the series it is compared with: 2.4048, 5.5201, 8.6537, 11.7915', () => {
    const roots = cylinderTerms(1e9, 4).map((t) => t.zeta)
    for (const [i, root] of [2.4048, 5.5201, 8.6537, 11.7915].entries()) expect(roots[i]).toBeCloseTo(root, 4)
  })
  const cases = [Infinity, 0.3, 1, 10, 100].flatMap((biot) =>
    [0.005, 0.02, 0.1, 0.3, 0.6].map((fourier) => ({ biot, fourier })),
  )
  it.each(cases)('with Biot $biot at Fourier $fourier keeps within 0.2 % of the Fick series', ({ biot, fourier }) => {
    const exact = exactMean(biot === Infinity ? 1e9 : biot, fourier)
    expect(Math.abs(dry(biot, fourier).left / exact - 1)).toBeLessThan(0.002)
  })
  it('is of order two in space: twice the shells, a quarter of the error', () => {
    const exact = exactMean(10, 0.2)
    const error = (shells: number) => Math.abs(dry(10, 0.2, { shells, steps: 2000 }).left - exact)
    const [coarse, middle, fine] = [error(8), error(16), error(32)]
    expect(Math.log2(coarse / middle)).toBeGreaterThan(1.7)
    expect(Math.log2(middle / fine)).toBeGreaterThan(1.7)
  })
  it('is of order two in time: half the step, a quarter of the error', () => {
    const finest = dry(1, 0.3, { steps: 4000 }).left
    const error = (steps: number) => Math.abs(dry(1, 0.3, { steps }).left - finest)
    const [coarse, middle, fine] = [error(10), error(20), error(40)]
    expect(Math.log2(coarse / middle)).toBeGreaterThan(1.7)
    expect(Math.log2(middle / fine)).toBeGreaterThan(1.7)
  })
  it('does not ring: one step of ten days against a held rim leaves every shell within a twentieth of rim and start', () => {
    const c = cylinder(R, START, still)
    advance(c, rimOf(Infinity), 864_000)
    for (const x of c.water) {
      expect(x).toBeGreaterThan(END - 0.05)
      expect(x).toBeLessThan(START + 1e-9)
    }
  })
})

describe('moisture in a cylinder that shrinks', () => {
  const real: Material = { ...still, shrinks: true, diffusivity: (x) => (6e-11 * x) / START }
  it.each([0.3, 10, Infinity])(
    'closes the water balance to 1e-12 of the water at Biot %d, property by property',
    (biot) => {
      const { c, before } = dry(biot, 0.8, { material: real })
      expect(Math.abs(before - waterKgPerM(c) - c.lostKgPerM) / before).toBeLessThan(1e-12)
    },
  )
  it('has the radius that the volumes of its solids and its water ask for', () => {
    const { c } = dry(10, 0.5, { material: real })
    const volume = c.solids.reduce((s, m, i) => s + m * (1 / 1200 + c.water[i]! / 1000), 0)
    expect(Math.PI * c.radiusM ** 2).toBeCloseTo(volume, 12)
    expect(c.radiusM).toBeLessThan(R)
  })
  it('dries the rim first: water falls from core to rim', () => {
    const { c } = dry(10, 0.2, { material: real })
    for (let i = 1; i < c.water.length; i++) expect(c.water[i]!).toBeLessThanOrEqual(c.water[i - 1]! + 1e-12)
    expect(c.rimWater).toBeLessThan(c.water.at(-1)!)
  })
  it('takes water up again from moister air and ends level with it', () => {
    const c = cylinder(0.01, 0.5, { ...real, diffusivity: () => 5e-10 })
    for (let i = 0; i < 400; i++) advance(c, { kind: 'flow', flow: (x) => 1e-4 * (x - 1) }, 20_000)
    expect(meanWater(c)).toBeCloseTo(1, 6)
    expect(c.lostKgPerM).toBeLessThan(0)
  })
})
