import { calculations } from '@forcemeat/craft'
import { describe, expect, it } from 'vitest'
import { standingLevels, type PhPoint } from '../../src/ferment/ph-course.ts'
import type { DegreeHoursInput, DegreeHoursOutput } from '../../src/ferment/schema.ts'

const run = (input: DegreeHoursInput) => calculations['ferment.degree-hours']!.run(input) as DegreeHoursOutput
/** 30 °C by the hour, with pH at some of the hours; several at one hour are several pieces. */
const log = (phs: readonly (readonly [hour: number, ph: number, more?: object])[], hours = 72) =>
  [
    ...Array.from({ length: hours + 1 }, (_, hour) => ({ hour, tempC: 30 })),
    ...phs.map(([hour, ph, more]) => ({ hour, tempC: 30, ph, ...more })),
  ].toSorted((a, b) => a.hour - b.hour)

describe('where a count of degree-hours ends (common practice, no source)', () => {
  it('not at a pH that rises again: the count goes on to where it stays down', () => {
    // 65 h × (30 − 15.6) °C by hand.
    const output = run({
      log: log([
        [0, 5.8],
        [10, 5.2],
        [12, 5.8],
        [30, 5.6],
        [65, 5.2],
      ]),
    })
    expect(output.hoursToTarget).toBe(65)
    expect(output.degreeHours).toBeCloseTo(65 * 14.4, 9)
    expect(output.findings.find((f) => f.jurisdiction === 'CA')!.verdict).toBe('fail')
  })
  it('not while another piece of the same sampling lags', () => {
    const output = run({
      log: log(
        [
          [10, 5.2],
          [10, 5.9],
        ],
        30,
      ),
    })
    expect(output.hoursToTarget).toBeUndefined()
    expect(output.findings[0]!.because).toMatch(/pH 5\.3 was not reached/)
  })
  it('a pH that rises in the drying, days later, reopens nothing', () => {
    const phs = [
      [20, 5.2],
      [20 + 80, 5.6, { step: 'dry' }],
    ] as const
    expect(run({ log: log(phs, 110) }).hoursToTarget).toBe(20)
    expect(run({ log: log([phs[0], [20 + 70, 5.6, { step: 'dry' }]], 110) }).hoursToTarget).toBeUndefined()
  })
  it('a reading of a meter not calibrated that day ends no count where a later one may', () => {
    const output = run({
      log: log([
        [10, 5.2, { phCounts: false }],
        [20, 5.2],
      ]),
    })
    expect(output.hoursToTarget).toBe(20)
  })
})

describe('pieces that are cut for each reading', () => {
  const at = (hour: number, ph: number, piece?: string): PhPoint => ({
    at: hour * 3600,
    ph,
    tolerance: 0.02,
    counts: true,
    ...(piece === undefined ? {} : { piece }),
  })
  const levels = (...readings: PhPoint[]) => standingLevels(readings).map((l) => l.highest.ph)
  it('a new one each time: the last sampling stands (readings of one lapse after four hours, a choice of ours)', () => {
    expect(levels(at(0, 5.8, 'Q1'), at(20, 5.4, 'Q2'), at(28, 5.1, 'Q3'))).toEqual([5.8, 5.4, 5.1])
    expect(levels(at(0, 5.8), at(28, 5.1, 'Q1'))).toEqual([5.8, 5.1])
    expect(levels(at(24, 5.8, 'Q1'), at(27, 5.1, 'Q2'))).toEqual([5.8, 5.8])
  })
  it('one that lagged and is not measured again goes on holding, whatever is read of those beside it', () => {
    expect(levels(at(10, 5.1, 'P1'), at(10.1, 5.8, 'P2'), at(20, 5, 'P1'))).toEqual([5.8, 5.8, 5.8])
    expect(levels(at(8, 5.1, 'P1'), at(10, 5.8, 'P2'), at(20, 5, 'P1'))).toEqual([5.1, 5.8, 5.8])
    // One new piece does not speak for two.
    expect(levels(at(10, 5.1, 'P1'), at(10.1, 5.8, 'P2'), at(20, 5, 'P3')).at(-1)).toBe(5.8)
    expect(levels(at(10, 5.1, 'P1'), at(10.1, 5.8, 'P2'), at(20, 5, 'P3'), at(20.2, 5.2, 'P4')).at(-1)).toBe(5.2)
  })
  it('one that is measured over and over holds until it is measured again', () => {
    expect(levels(at(0, 5.9, 'P2'), at(10, 5.8, 'P2'), at(28, 5.1, 'Q3')).at(-1)).toBe(5.8)
  })
})
