import { calculations } from '@forcemeat/craft'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FreezingInput, FreezingOutput } from '../../src/pork/schema.ts'
import { longestAtOrBelow } from '../../src/pork/stretch.ts'

const run = (input: FreezingInput) => calculations['pork.freezing']!.run(input) as FreezingOutput
const verdict = (output: FreezingOutput, rule: string) => output.findings.find((f) => f.rule === rule)?.verdict

// Former 9 CFR 318.10(c)(2), Table 1: days by thickness (6 in, 27 in) and room temperature.
const usRoom = [
  [152.4, -15, 20],
  [152.4, -23.3, 10],
  [152.4, -28.9, 6],
  [685.8, -15, 30],
  [685.8, -23.3, 20],
  [685.8, -28.9, 12],
] as const

// Regulation (EU) 2015/1375, Annex II, methods 1 and 2: thickness mm, °C, days.
const euRoom = [
  ['eu.pork.freezing.1', 250, -25, 10],
  ['eu.pork.freezing.1', 500, -25, 20],
  ['eu.pork.freezing.2', 150, -15, 20],
  ['eu.pork.freezing.2', 150, -23, 10],
  ['eu.pork.freezing.2', 150, -29, 6],
  ['eu.pork.freezing.2', 500, -15, 30],
  ['eu.pork.freezing.2', 500, -25, 20],
  ['eu.pork.freezing.2', 500, -29, 12],
] as const

// Former 9 CFR 318.10(c)(2), Table 2, and Regulation (EU) 2015/1375, Annex II, method 3: °C at the centre, hours.
const centre = [
  ...(
    [
      [-17.8, 106],
      [-20.6, 82],
      [-23.3, 63],
      [-26.1, 48],
      [-28.9, 35],
      [-31.7, 22],
      [-34.5, 8],
      [-37.2, 0.5],
    ] as const
  ).map(([c, h]) => ['us.pork.freezing.centre', c, h] as const),
  ...(
    [
      [-18, 106],
      [-21, 82],
      [-23.5, 63],
      [-26, 48],
      [-29, 35],
      [-32, 22],
      [-35, 8],
      [-37, 0.5],
    ] as const
  ).map(([c, h]) => ['eu.pork.freezing.3', c, h] as const),
]

/** Read each hour, and at the end. */
const held = (centreC: number, hours: number) => [
  ...Array.from({ length: Math.ceil(hours) }, (_, hour) => ({ hour, centreC })),
  { hour: hours, centreC },
]

describe('pork.freezing by room', () => {
  it.each(usRoom)(
    'asks for the days of former 9 CFR 318.10 Table 1: %d mm at %d °C, %d days',
    (thicknessMm, storageC, days) => {
      expect(run({ thicknessMm, storageC }).requiredDays).toBe(days)
      expect(verdict(run({ thicknessMm, storageC, days }), 'us.pork.freezing.room')).toBe('pass')
      expect(verdict(run({ thicknessMm, storageC, days: days - 0.01 }), 'us.pork.freezing.room')).toBe('fail')
    },
  )

  it.each(euRoom)(
    'holds %s of Regulation (EU) 2015/1375: %d mm at %d °C, %d days',
    (rule, thicknessMm, storageC, days) => {
      expect(verdict(run({ thicknessMm, storageC, days }), rule)).toBe('pass')
      expect(verdict(run({ thicknessMm, storageC, days: days - 0.01 }), rule)).toBe('fail')
    },
  )

  it('asks for the warmer row when the room is between two rows, never an interpolation', () => {
    expect(run({ thicknessMm: 100, storageC: -23.2 }).requiredDays).toBe(20)
    expect(run({ thicknessMm: 100, storageC: -18 }).requiredDays).toBe(20)
  })

  it('asks for the thicker group just above 6 inches', () => {
    expect(run({ thicknessMm: 152.41, storageC: -15 }).requiredDays).toBe(30)
  })

  it('fails a room warmer than the warmest row and a piece thicker than any row', () => {
    expect(run({ thicknessMm: 100, storageC: -14.9, days: 400 }).achieved).toBe(false)
    expect(run({ thicknessMm: 700, storageC: -30, days: 400 }).achieved).toBe(false)
  })

  it('cannot tell without the days, or where only the thermometer’s error reaches the row', () => {
    expect(run({ thicknessMm: 100, storageC: -20 }).achieved).toBeUndefined()
    const near = run({ thicknessMm: 100, storageC: -15.2, days: 30, toleranceC: 0.5, jurisdictions: ['US'] })
    expect(verdict(near, 'us.pork.freezing.room')).toBe('cannot-tell')
  })
})

describe('pork.freezing by centre temperature', () => {
  it.each(centre)(
    'holds %s: %d °C at the centre for %d h, and not one minute less or a tenth of a degree warmer',
    (rule, c, hours) => {
      expect(verdict(run({ thicknessMm: 200, log: held(c, hours) }), rule)).toBe('pass')
      expect(verdict(run({ thicknessMm: 200, log: held(c, hours - 1 / 60) }), rule)).not.toBe('pass')
      expect(verdict(run({ thicknessMm: 200, log: held(c + 0.1, hours) }), rule)).not.toBe('pass')
    },
  )

  it('counts from where the line between two readings crosses the row', () => {
    const log = [0, 6, 12, 18].map((hour) => ({ hour, centreC: hour === 0 ? 0 : -20 }))
    expect(longestAtOrBelow(log, -10).hours).toBeCloseTo(15, 12)
  })

  it('joins readings at most six hours apart where the log has no usual spacing, and no usual spacing over that (common practice, no source)', () => {
    const every = (step: number, n: number) => Array.from({ length: n }, (_, i) => ({ hour: i * step, centreC: -20 }))
    for (const log of [every(107, 2), every(30, 5), every(6.1, 6), every(18, 12)])
      expect(longestAtOrBelow(log, -17.8)).toEqual({ hours: 0, broken: true })
    expect(longestAtOrBelow(every(6, 6), -17.8)).toEqual({ hours: 30, broken: false })
    expect(verdict(run({ thicknessMm: 200, log: every(107, 2) }), 'us.pork.freezing.centre')).toBe('cannot-tell')
  })

  it('cannot tell across a missing reading', () => {
    const log = Array.from({ length: 121 }, (_, hour) => ({ hour, centreC: hour === 60 ? null : -18 }))
    const output = run({ thicknessMm: 200, log, jurisdictions: ['US'] })
    expect(verdict(output, 'us.pork.freezing.centre')).toBe('cannot-tell')
    expect(output.achieved).toBeUndefined()
  })

  it('never credits a longer time when any reading is warmer', () => {
    const reading = fc.integer({ min: -40, max: 5 })
    fc.assert(
      fc.property(
        fc.array(reading, { minLength: 3, maxLength: 60 }),
        fc.nat(59),
        fc.integer({ min: 1, max: 20 }),
        (values, at, rise) => {
          const log = values.map((centreC, hour) => ({ hour, centreC }))
          const warmer = log.map((r, i) => (i === at % values.length ? { ...r, centreC: r.centreC + rise } : r))
          expect(longestAtOrBelow(warmer, -18).hours).toBeLessThanOrEqual(longestAtOrBelow(log, -18).hours + 1e-9)
        },
      ),
    )
  })
})

describe('what pork.freezing says', () => {
  const because = (input: FreezingInput, rule: string) => run(input).findings.find((f) => f.rule === rule)!

  it('prints days to a tenth, with a true minus, and keeps the exact number as measured', () => {
    const days = 29 + 20 / 24
    const finding = because({ thicknessMm: 100, storageC: -26, days, jurisdictions: ['US'] }, 'us.pork.freezing.room')
    expect(finding.because).toBe(
      'held 29.8 days at \u221226 °C; the schedule asks for 10 days at or below \u221223.3 °C for meat up to 152.4 mm',
    )
    expect(finding.measured).toBe(days)
  })

  it('never prints what fell short as what was asked for', () => {
    const short = because({ thicknessMm: 100, storageC: -15, days: 19.99 }, 'us.pork.freezing.room')
    expect([short.verdict, short.because]).toEqual(['fail', expect.stringContaining('held 19.9 days at \u221215 °C')])
    const warm = because({ thicknessMm: 100, storageC: -14.996, days: 30 }, 'us.pork.freezing.room')
    expect(warm.because).toContain('\u221214.99 °C is warmer than the warmest row of the schedule (\u221215 °C)')
    const log = held(-17.8, 105.99)
    expect(because({ thicknessMm: 100, log }, 'us.pork.freezing.centre').because).toBe(
      '105.9 h unbroken at or below \u221217.8 °C; the schedule asks for 106 h',
    )
  })
})

describe('pork.freezing of other meats', () => {
  it('never passes wild boar, bear or horse, however cold and long (International Commission on Trichinellosis)', () => {
    for (const species of ['wild-boar', 'bear', 'horse'] as const)
      expect(run({ thicknessMm: 50, storageC: -40, days: 400, species }).achieved).toBe(false)
  })
})
