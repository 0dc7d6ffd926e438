import { describe, expect, it } from 'vitest'
import { cook, type CookInput } from '@forcemeat/craft/heat/cook'

/**
 * Measured coolings of cylindrical cooked meat, as printed in S. J. James & C. James, Meat Refrigeration (2002), Table 16.7 (after Burfoot et
 * al. 1990) and Table 16.4 (survey data); read in stored text of the book's pages. Rolled beef of 2.7 kg and 110 mm: length from weight at
 * 1060 kg/m³. Composition of the beef, humidity of the air and stirring of the water are not printed; common values are put in once and nothing is tuned.
 * These are joints, not sausages: they bound the model's error, they do not validate it for sausages.
 */
const beef = { waterPct: 70, proteinPct: 21.5, fatPct: 7.5, ashPct: 1 }
const lengthMm = (kg: number, diameterMm: number) => (kg / 1060 / ((Math.PI / 4) * (diameterMm / 1000) ** 2)) * 1000

function hoursBetween(input: CookInput, from: number, to: number): number {
  const { series } = cook(input)
  const at = (c: number) => {
    const i = series.findLastIndex((p) => p.coreC >= c)
    const [a, b] = [series[i]!, series[i + 1]!]
    return a.minute + ((a.coreC - c) / (a.coreC - b.coreC)) * (b.minute - a.minute)
  }
  return (at(to) - at(from)) / 60
}
const roll = (stage: CookInput['stages'][number], surface: CookInput['surface'] = 'drying'): CookInput => ({
  diameterMm: 110,
  lengthMm: lengthMm(2.7, 110),
  composition: beef,
  startC: 72,
  surface,
  stages: [stage],
})

describe('rolled beef of 110 mm cooled from 70 to 10 °C (Meat Refrigeration 2002, Table 16.7)', () => {
  it('in air of 0 °C and 1.2 m/s took 4.9 and 5.1 h: the model gives 3.5 h wet and 4.7 h sealed, 3 to 32 % too soon', () => {
    const wet = hoursBetween(roll({ medium: 'air', tempC: 0, rhPct: 90, airSpeedMPerS: 1.2, untilCoreC: 5 }), 70, 10)
    const sealed = hoursBetween(
      roll({ medium: 'air', tempC: 0, airSpeedMPerS: 1.2, untilCoreC: 5 }, 'moisture-proof'),
      70,
      10,
    )
    expect(wet / 4.9).toBeCloseTo(0.72, 1)
    expect(wet / 5.1).toBeCloseTo(0.69, 1)
    expect(sealed / 4.9).toBeCloseTo(0.97, 1)
    expect(sealed / 5.1).toBeCloseTo(0.93, 1)
  })
  it('in water of 0 °C took 3.1 and 3.6 h: the model gives 2.3 h, 26 to 36 % too soon', () => {
    const hours = hoursBetween(roll({ medium: 'water', tempC: 0, untilCoreC: 5 }), 70, 10)
    expect(hours / 3.1).toBeCloseTo(0.74, 1)
    expect(hours / 3.6).toBeCloseTo(0.64, 1)
  })
})

describe('bacon of 114 mm in a bag, hung in factory air of 20 falling to 12 °C (Meat Refrigeration 2002, Table 16.4)', () => {
  // Air speed is not printed: still to 1 m/s are run. Measured: 1.9, 2.6 and 2.7 h to 50 °C (from 76, 71 and 76 °C), and 14, 15 and 16 °C after 12.5 h.
  const bagged = (airSpeedMPerS: number) =>
    cook({
      diameterMm: 114,
      lengthMm: lengthMm(4.3, 114),
      composition: { waterPct: 60, proteinPct: 18, fatPct: 18, ashPct: 4 },
      startC: 76,
      surface: 'moisture-proof',
      stages: [
        { medium: 'air', tempC: 20, airSpeedMPerS, minutes: 0.1 },
        { medium: 'air', tempC: 12, airSpeedMPerS, rampMinutes: 750, minutes: 750 },
      ],
    })
  it('falls to 50 °C in 2.2 to 2.7 h, where 1.9 to 2.7 h were measured', () => {
    const hours = (speed: number) => bagged(speed).series.find((p) => p.coreC < 50)!.minute / 60
    expect(hours(0)).toBeCloseTo(2.7, 1)
    expect(hours(1)).toBeCloseTo(2.2, 1)
  })
  it('stands at 14.5 to 15.9 °C after 12.5 h, where 14 to 16 °C were measured', () => {
    expect(Math.abs(bagged(0).series.at(-1)!.coreC - 15.9)).toBeLessThan(0.2)
    expect(Math.abs(bagged(1).series.at(-1)!.coreC - 14.5)).toBeLessThan(0.2)
  })
})
