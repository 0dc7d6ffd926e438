import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InvalidInput } from '../../src/calculation.ts'
import { stuffCalculations } from '../../src/stuff/calculations.ts'
import { findCasing, geometricKgPerM } from '../../src/stuff/capacity.ts'
import { casing } from '../../src/stuff/casing.ts'
import { casings } from '../../src/stuff/data/casings.ts'

const run = stuffCalculations[0]!.run
const faults = (input: unknown): string => {
  try {
    run(input)
    return 'accepted'
  } catch (error) {
    return error instanceof InvalidInput ? error.message : String(error)
  }
}

describe('stuff.casing', () => {
  it('divides 10 kg by 0.5 kg/m into 20 m, 4 pieces of 5 m and 100 links of 100 g, by hand', () => {
    expect(run({ mixKg: 10, casing: { calibreMm: 32, kgPerM: 0.5, pieceM: 5 }, linkG: 100 })).toMatchObject({
      metres: 20,
      pieces: 4,
      links: 100,
      leftoverKg: 0,
      lastPieceKg: 2.5,
      lastPieceM: 5,
      linkMm: 200,
      basis: 'given',
    })
  })

  it('keeps 0.05 kg over after 83 links of 120 g from 10.01 kg', () => {
    const out = casing({ mixKg: 10.01, casing: { calibreMm: 32, kgPerM: 0.5 }, linkG: 120 })
    expect(out.links).toBe(83)
    expect(out.leftoverKg).toBeCloseTo(0.05, 9)
    expect(out.pieces).toBeUndefined()
  })

  it('lays out one hank (91.44 m) of 32–35 mm hog casing for 48–52 kg, INSCA', () => {
    // The table's kg/m is rounded to three figures, so a hank comes back within 0.2 %.
    const out = casing({ mixKg: 50, casing: { calibreMm: 33, kind: 'hog', pieceM: 91.44 } })
    expect(out.metres).toBeCloseTo(91.44, 0)
    expect(out.metresLow).toBeCloseTo((91.44 * 50) / 52, 0)
    expect(out.metresHigh).toBeCloseTo((91.44 * 50) / 48, 0)
    expect(out.basis).toBe('table')
    expect(out.soak).toMatch(/soak/)
  })

  it('fills 36–41 kg of mix in an 18 m set of 55–60 mm beef middles, INSCA', () => {
    const out = casing({ mixKg: 38.5, casing: { calibreMm: 57, kind: 'beef-middle' } })
    expect(out.metres).toBeCloseTo(18, 1)
  })

  it('takes the kind that holds least where several share a calibre, and says so', () => {
    const out = casing({ mixKg: 10, casing: { calibreMm: 39 } })
    expect(out.kgPerMHigh).toBeCloseTo(0.667, 3)
    expect(out.note).toMatch(/also a calibre of beef-round.*name the kind/)
    expect(casing({ mixKg: 10, casing: { calibreMm: 39, kind: 'beef-round' } }).kgPerMLow).toBeCloseTo(1.1, 3)
  })

  it('falls back on geometry with a wide band where no capacity is published', () => {
    const out = casing({ mixKg: 10, casing: { calibreMm: 300 } })
    expect(out.basis).toBe('geometry')
    expect(out.note).toMatch(/weigh it, and enter kgPerM/)
    expect(out.kgPerMHigh / out.kgPerMLow).toBeGreaterThan(2)
    // π/4 × 0.1² m² × 1030 kg/m³ by hand.
    expect(geometricKgPerM(100)).toBeCloseTo(8.0896, 3)
  })

  it('gives the fill weight that leaves 100 g after 20 % loss: 125 g', () => {
    const out = casing({ mixKg: 10, casing: { calibreMm: 32, kgPerM: 0.5 }, finishedLinkG: 100, lossPct: 20 })
    expect(out.fillG).toBeCloseTo(125, 9)
    expect(out.finishedG).toBeCloseTo(100, 9)
    expect(out.links).toBe(80)
    const raw = casing({ mixKg: 10, casing: { calibreMm: 32, kgPerM: 0.5 }, linkG: 100, lossPct: 20 })
    expect(raw.finishedG).toBeCloseTo(80, 9)
    expect(raw.fillForFinishedG).toBeCloseTo(125, 9)
    expect(raw.links).toBe(100)
  })

  it('warns of a capacity that the calibre cannot hold', () => {
    expect(casing({ mixKg: 10, casing: { calibreMm: 20, kgPerM: 2 } }).note).toMatch(/more than a full circle/)
  })

  it('balances mass: links and leftover, and pieces with the last one, make the mix', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        fc.double({ min: 10, max: 3000, noNaN: true }),
        fc.constantFrom(...casings.filter((c) => c.kgPerMLow !== undefined)),
        fc.double({ min: 0.2, max: 20, noNaN: true }),
        (mixKg, linkG, row, pieceM) => {
          const out = casing({ mixKg, linkG, casing: { calibreMm: row.minMm ?? row.maxMm!, kind: row.kind, pieceM } })
          expect((out.links * linkG) / 1000 + out.leftoverKg).toBeCloseTo(mixKg, 6)
          expect(out.leftoverKg).toBeLessThan(linkG / 1000 + 1e-6)
          expect((out.pieces! - 1) * pieceM * out.kgPerM + out.lastPieceKg!).toBeCloseTo(mixKg, 6)
          expect(out.lastPieceM!).toBeGreaterThanOrEqual(-1e-6)
          expect(out.lastPieceM!).toBeLessThanOrEqual(pieceM * (1 + 1e-6) + 1e-6)
          expect(out.metresLow).toBeLessThanOrEqual(out.metres * (1 + 1e-12))
          expect(out.metresHigh).toBeGreaterThanOrEqual(out.metres * (1 - 1e-12))
        },
      ),
    )
  })

  it.each([
    [{ mixKg: 0, casing: { calibreMm: 32 } }, /mixKg: is 0; allowed/],
    [{ mixKg: 10, casing: { calibreMm: -1 } }, /casing\.calibreMm: is -1; allowed/],
    [{ mixKg: 10, casing: { calibreMm: 32, colour: 'red' } }, /casing\.colour: is not a field/],
    [{ mixKg: 10, casing: { calibreMm: 32, kind: 'silk' } }, /casing\.kind: .*allowed: one of sheep/],
    [{ mixKg: 10, casing: { calibreMm: 32 }, linkG: 100, finishedLinkG: 90, lossPct: 5 }, /one of the two/],
    [{ mixKg: 10, casing: { calibreMm: 32 }, finishedLinkG: 90 }, /lossPct: is missing/],
    [{ mixKg: 10, casing: { calibreMm: 32 }, linkG: 90, lossPct: 100 }, /less than 100/],
  ])('refuses %j', (input, why) => {
    expect(faults(input)).toMatch(why)
  })
})

describe('casing table', () => {
  it('finds a casing by id and nothing for another', () => {
    expect(findCasing('hog-32-35')).toMatchObject({ kgPerMLow: 0.525, kgPerMHigh: 0.569 })
    expect(findCasing('toString')).toBeUndefined()
  })

  it('has ids of its own, bounds in order, and a capacity below a full circle of its largest calibre save retail figures', () => {
    expect(new Set(casings.map((c) => c.id)).size).toBe(casings.length)
    for (const c of casings) {
      if (c.minMm !== undefined && c.maxMm !== undefined) expect(c.maxMm).toBeGreaterThanOrEqual(c.minMm)
      if (c.kgPerMLow === undefined || c.maxMm === undefined || c.source.mark === 'common-practice') continue
      expect(c.kgPerMHigh!).toBeGreaterThanOrEqual(c.kgPerMLow)
      expect(c.kgPerMHigh!, c.id).toBeLessThan(geometricKgPerM(c.maxMm))
    }
  })
})
