import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { MeatContentInput, MeatContentOutput } from '../../src/declare/meat-content.ts'

const run = (input: MeatContentInput) => calculations['declare.meat-content']!.run(input) as MeatContentOutput
const pork = (kg: number, fatPct: number, proteinPct: number, collagenPct: number) => ({
  kg,
  species: 'pork' as const,
  fatPct,
  proteinPct,
  collagenPct,
})

// Illustrative compositions worked by the FSA steps with the limits of Reg. (EU) 1169/2011; arithmetic done by hand to four places.
describe('declare.meat-content', () => {
  it('takes 14.2857 points of excess fat out of pork at 40 % fat: 60 kg in 100 kg is 51.43 %', () => {
    const output = run({ parts: [pork(60, 40, 13, 1.5)], totalKg: 100 })
    expect(output.meatPct).toBeCloseTo(51.43, 2)
    expect(output.excessFatPct).toBeCloseTo(8.57, 2)
    expect(output.perSpecies[0]!.collagenInProteinPct).toBeCloseTo(11.54, 2)
    expect(output.perSpecies[0]!.declarablePct).toBeCloseTo(85.7143, 4)
  })

  it('lets lean shoulder carry belly and rind: 73 of 100 kg all count', () => {
    const output = run({ parts: [pork(50, 20, 17, 2.5), pork(20, 50, 10, 2.2), pork(3, 20, 33, 28)], totalKg: 100 })
    expect(output.meatPct).toBeCloseTo(73, 9)
    expect(output.excessConnectivePct).toBe(0)
    expect(output.perSpecies[0]!.collagenInProteinPct).toBeCloseTo(22.02, 2)
  })

  it('gives 49.87 % for 55 kg of beef at 32 % fat', () => {
    const output = run({
      parts: [{ kg: 55, species: 'beef', fatPct: 32, proteinPct: 15, collagenPct: 2.4 }],
      totalKg: 100,
    })
    expect(output.meatPct).toBeCloseTo(49.87, 2)
  })

  it('states grams for 100 g where salami passes 100 %: 97 kg of pork dried to 65 kg is 149 g', () => {
    const output = run({ parts: [pork(97, 26, 17, 2.2)], totalKg: 100, finishedKg: 65 })
    expect(output.meatPct).toBeCloseTo(149.2, 1)
    expect(output.statement).toContain('149 g')
  })

  // Published figures for products that lose weight: salami 160 g of pork for 100 g (konsument.at), cooked ham 128 g (FSA guidance of 2003,
  // p. 30, as quoted), cooked streaky bacon 169 g (report of a public analyst).
  it.each([
    [160, 'salami'],
    [128, 'cooked ham'],
    [169, 'cooked streaky bacon'],
  ])('says %d g per 100 g for %s, as published', (grams) => {
    const output = run({ parts: [pork(grams, 20, 18, 2)], totalKg: grams, finishedKg: 100 })
    expect(output.meatPct).toBeCloseTo(grams, 9)
    expect(output.statement).toBe(`made with ${grams} g of meat per 100 g of finished product`)
  })

  it('takes excess connective tissue out of rind-rich meat until its ratio is the limit', () => {
    const output = run({ parts: [pork(100, 20, 18, 8)], totalKg: 100 })
    const allowed = (25 * 10) / 75
    expect(output.excessConnectivePct).toBeCloseTo((8 - allowed) * 4.625, 9)
    expect(output.meatPct + output.excessConnectivePct + output.excessFatPct).toBeCloseTo(100, 9)
  })

  it('accounts for all meat, and never declares more with more fat', () => {
    const share = fc.double({ min: 0, max: 60, noNaN: true })
    fc.assert(
      fc.property(
        share,
        fc.double({ min: 5, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        share,
        (fat, protein, c, more) => {
          const of = (fatPct: number) =>
            run({ parts: [pork(80, Math.min(75, fatPct), protein, protein * c)], totalKg: 100 })
          const lean = of(fat)
          expect(lean.meatPct + lean.excessFatPct + lean.excessConnectivePct).toBeCloseTo(80, 9)
          expect(of(fat + more).meatPct).toBeLessThanOrEqual(lean.meatPct + 1e-9)
        },
      ),
    )
  })

  it('does not change when everything is scaled', () => {
    const one = run({ parts: [pork(6, 40, 13, 1.5)], totalKg: 10 })
    expect(run({ parts: [pork(600, 40, 13, 1.5)], totalKg: 1000 }).meatPct).toBeCloseTo(one.meatPct, 9)
  })

  it('refuses more meat than everything together, and more collagen than protein', () => {
    expect(() => run({ parts: [pork(60, 40, 13, 1.5)], totalKg: 50 })).toThrow(/totalKg/)
    expect(() => run({ parts: [pork(60, 40, 13, 14)], totalKg: 100 })).toThrow(/parts\[0\]\.collagenPct/)
  })

  // 60 kg of pork at 40 % fat in 100 kg declares (100 − F) / 0.70 × 0.60; with a spread of 3 points F is 40 ± 5.88.
  it('gives the interval that the spread of the trim leaves: 51.43 lies between 46.39 and 56.47, so 46 can be stood behind', () => {
    const output = run({ parts: [{ ...pork(60, 40, 13, 1.5), fatSdPct: 3 }], totalKg: 100 })
    expect(output.meatPct).toBeCloseTo(51.43, 2)
    expect(output.lowPct).toBeCloseTo(((100 - 40 - 1.959964 * 3) / 0.7) * 0.6, 6)
    expect(output.highPct).toBeCloseTo(((100 - 40 + 1.959964 * 3) / 0.7) * 0.6, 6)
    expect(output.standBehindPct).toBe(46)
  })

  it('gives each group of species the lower end of its own interval', () => {
    const output = run({
      parts: [
        { ...pork(40, 40, 13, 1.5), fatSdPct: 3 },
        { kg: 30, species: 'beef', fatPct: 15, proteinPct: 18, collagenPct: 2 },
      ],
      totalKg: 100,
    })
    const [p, b] = output.perSpecies
    expect(p!.lowPct).toBeCloseTo(((100 - 40 - 1.959964 * 3) / 0.7) * 0.4, 6)
    expect(b!.lowPct).toBeCloseTo(30, 9)
  })

  it('reports each species by itself, and keeps the limits, and the sum, of its group', () => {
    const of = (species: 'beef' | 'lamb' | 'pork', kg: number, fatPct = 20) => ({
      kg,
      species,
      fatPct,
      proteinPct: 17,
      collagenPct: 2,
    })
    const out = run({ parts: [of('beef', 40), of('lamb', 20), of('pork', 10)], totalKg: 100 })
    expect(Object.fromEntries(out.perSpecies.map((s) => [s.species.join(), s.meatPct]))).toEqual({
      pork: 10,
      beef: 40,
      lamb: 20,
    })
    expect(new Set(out.perSpecies.map((s) => s.group)).size).toBe(2)
    // Lamb at 60 % fat beside lean beef: 60 kg at 33.33 % of fat, and (100 − 33.33) / 0.75 of it counts, whoever brought the fat.
    const fat = run({ parts: [of('beef', 40), of('lamb', 20, 60)], totalKg: 100 })
    expect(fat.meatPct).toBeCloseTo((60 * (100 - 100 / 3)) / 75, 6)
    expect(fat.perSpecies.reduce((s, x) => s + x.meatPct, 0)).toBeCloseTo(fat.meatPct, 9)
    expect(fat.perSpecies.reduce((s, x) => s + x.excessFatPct, 0)).toBeCloseTo(fat.excessFatPct, 9)
    const [beef, lamb] = fat.perSpecies
    expect(beef!.meatPct / lamb!.meatPct).toBeCloseTo(2, 9)
    expect(beef!.excessFatPct / lamb!.excessFatPct).toBeCloseTo((40 * 20) / (20 * 60), 9)
  })

  it('narrows the interval where the same spread is shared by more lots, and leaves it out where none is given', () => {
    const lots = (n: number) =>
      run({ parts: Array.from({ length: n }, () => ({ ...pork(60 / n, 40, 13, 1.5), fatSdPct: 3 })), totalKg: 100 })
    const width = (n: number) => lots(n).highPct! - lots(n).lowPct!
    expect(width(4)).toBeCloseTo(width(1) / 2, 6)
    expect(run({ parts: [pork(60, 40, 13, 1.5)], totalKg: 100 }).lowPct).toBeUndefined()
  })
})
