import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chillCalculation, lethalityCalculation } from '../../src/heat/safety-calculations.ts'
import { equivalentOfSegment } from '../../src/heat/death-integral.ts'
import { deathSets } from '../../src/heat/data/death.ts'
import { equivalentMinutes, lethality } from '../../src/heat/lethality.ts'
import { growthOf, perfringensRate } from '../../src/heat/perfringens.ts'
import { chill } from '../../src/heat/chill.ts'
import type { Reading } from '../../src/heat/reading.ts'

const inC = (f: number): number => ((f - 32) * 5) / 9
const rate = { referenceC: 70, dMinutes: 1, zC: 10 }

describe('equivalent minutes', () => {
  it('hand-worked: 10 min at the reference are 10 min, one z above 100, one z below 1', () => {
    expect(equivalentOfSegment(70, 70, 10, rate)).toBeCloseTo(10, 12)
    expect(equivalentOfSegment(80, 80, 10, rate)).toBeCloseTo(100, 10)
    expect(equivalentOfSegment(60, 60, 10, rate)).toBeCloseTo(1, 12)
  })

  it('a straight rise of one z is (10 - 1)/ln 10 of its time, exact, where a trapezium gives 5.5', () => {
    expect(equivalentOfSegment(70, 80, 1, rate)).toBeCloseTo(9 / Math.LN10, 12)
    expect(equivalentOfSegment(80, 70, 1, rate)).toBeCloseTo(9 / Math.LN10, 12)
  })

  it('cutting a segment anywhere changes nothing', () => {
    const t = fc.double({ min: 0, max: 90, noNaN: true })
    fc.assert(
      fc.property(t, t, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (a, b, share) => {
        const limited = { ...rate, lowestC: 55, highestC: 75 }
        const mid = a + share * (b - a)
        const whole = equivalentOfSegment(a, b, 10, limited)
        const parts =
          equivalentOfSegment(a, mid, 10 * share, limited) + equivalentOfSegment(mid, b, 10 * (1 - share), limited)
        expect(Math.abs(whole - parts)).toBeLessThan(1e-6 * (1 + whole))
      }),
    )
  })

  it('hotter readings never lower it, for every published set', () => {
    const log = fc.array(
      fc.tuple(fc.double({ min: 0, max: 90, noNaN: true }), fc.double({ min: 0, max: 20, noNaN: true })),
      { minLength: 2, maxLength: 30 },
    )
    fc.assert(
      fc.property(log, fc.constantFrom(...deathSets), (points, set) => {
        const cool = points.map(([coreC], minute) => ({ minute, coreC }))
        const hot = points.map(([coreC, more], minute) => ({ minute, coreC: coreC + more }))
        expect(equivalentMinutes(hot, set, 5)).toBeGreaterThanOrEqual(equivalentMinutes(cool, set, 5) * (1 - 1e-9))
      }),
    )
  })

  it('earns nothing below the lowest temperature studied and nothing across a hole', () => {
    const at = (coreC: number) =>
      lethality({
        log: [
          { minute: 0, coreC },
          { minute: 600, coreC },
        ],
        organism: 'listeria',
        maxGapMinutes: 600,
      })
    expect(at(54.9).logReduction).toBe(0)
    expect(at(55).logReduction).toBeGreaterThan(10)
    const every = Array.from({ length: 61 }, (_, minute): Reading => ({ minute, coreC: 62 }))
    const cut = every.filter((r) => r.minute <= 20 || r.minute >= 40)
    expect(lethality({ log: cut, organism: 'listeria' }).equivalentMinutes).toBeCloseTo(
      (40 / 60) * lethality({ log: every, organism: 'listeria' }).equivalentMinutes,
      9,
    )
  })
})

describe('published figures', () => {
  // FSIS-GD-2021-14 Table 2: D of 0.1716 min at 150 °F and z of 10 °F, rounded up, give the 6.5-log column but for 136 °F.
  it('the FSIS meat set gives 6.5-log at every timed row but 136 °F, within the rounding of the table', () => {
    const rows = [
      [130, 112],
      [131, 89],
      [132, 71],
      [133, 56],
      [134, 45],
      [135, 36],
      [137, 23],
      [138, 18],
      [139, 15],
      [140, 12],
      [141, 9],
      [142, 8],
      [143, 6],
      [144, 5],
      [145, 4],
      [146, 169 / 60],
      [150, 67 / 60],
      [155, 22 / 60],
      [157, 14 / 60],
    ] as const
    for (const [f, minute] of rows) {
      const out = lethality({
        log: [
          { minute: 0, coreC: inC(f) },
          { minute, coreC: inC(f) },
        ],
        maxGapMinutes: 112,
        organism: 'salmonella',
      })
      expect(out.logReduction, `${f} °F`).toBeGreaterThan(6.5 * 0.998)
      expect(out.logReduction, `${f} °F`).toBeLessThan(6.5 * 1.16)
    }
    expect(
      lethality({
        log: [
          { minute: 0, coreC: inC(136) },
          { minute: 28, coreC: inC(136) },
        ],
        organism: 'salmonella',
      }).logReduction,
    ).toBeCloseTo(6.5, 0)
  })

  // Murphy et al. 2004 link sausage, D60 5.58 min, z 5.75: 6.5 D is 36.4 min at 60 °C, 4.9 at 65 °C, 0.66 at 70 °C (1 % for rounding of D and z).
  it('link sausage needs 36.4, 4.9 and 0.66 min at 60, 65 and 70 °C for 6.5-log', () => {
    for (const [coreC, minute] of [
      [60, 36.4],
      [65, 4.9],
      [70, 0.66],
    ] as const) {
      const out = lethality({
        log: [
          { minute: 0, coreC },
          { minute, coreC },
        ],
        organism: 'salmonella',
        basis: 'salmonella.link-sausage',
      })
      expect(Math.abs(out.logReduction / 6.5 - 1)).toBeLessThan(0.01)
    }
  })

  it('the table and the strictest published estimate are shown side by side where they disagree', () => {
    const log = [
      { minute: 0, coreC: 60 },
      { minute: 12, coreC: 60 },
    ]
    const out = lethality({ log, organism: 'salmonella', product: { species: 'meat' } })
    expect(out.findings[0]).toMatchObject({ rule: 'us.fsis.lethality.meat.6.5-log', verdict: 'pass' })
    expect(out.estimates[0]!.logReduction).toBeLessThan(2)
  })
})

describe('judging a cook', () => {
  const meat = { product: { species: 'meat' as const }, organism: 'salmonella' as const }
  const cook = (top: number, minutes: number): Reading[] =>
    Array.from({ length: minutes + 61 }, (_, minute): Reading => ({ minute, coreC: Math.min(top, 8 + minute * 1.5) }))

  it('a limit met by less than the thermometer error is cannot-tell, met by more passes', () => {
    const log = [
      { minute: 0, coreC: 8 },
      { minute: 60, coreC: 70.2 },
    ]
    expect(lethality({ ...meat, log, toleranceC: 0.1 }).findings[0]!.verdict).toBe('pass')
    expect(lethality({ ...meat, log, toleranceC: 4 }).findings[0]!.verdict).toBe('cannot-tell')
    expect(lethality({ ...meat, log: cook(50, 60), toleranceC: 0.5 }).findings[0]!.verdict).toBe('fail')
  })

  it('a thermometer past its check gives no pass', () => {
    expect(lethality({ ...meat, log: cook(72, 20), checkOverdue: true }).findings[0]).toMatchObject({
      verdict: 'cannot-tell',
    })
  })

  it('missing readings while they are needed are cannot-tell with the minutes; elsewhere they do no harm', () => {
    const held = cook(62, 10)
    expect(lethality({ ...meat, log: held }).findings[0]!.verdict).toBe('pass')
    const needed = held.map((r) => (r.minute > 37 && r.minute < 68 ? { minute: r.minute, coreC: null } : r))
    const out = lethality({ ...meat, log: needed }).findings[0]!
    expect(out.verdict).toBe('cannot-tell')
    expect(out.because).toMatch(/not known from minute 3\d/)
    const early = held.map((r) => (r.minute > 5 && r.minute < 15 ? { minute: r.minute, coreC: null } : r))
    expect(lethality({ ...meat, log: early }).findings[0]!.verdict).toBe('pass')
  })

  it('a probe that falls out while cooking is cannot-tell, never a fail of the product or a pass', () => {
    const log = cook(72, 40).map((r) => (r.minute > 36 ? { minute: r.minute, coreC: 22 } : r))
    const out = lethality({ ...meat, log }).findings[0]!
    expect(out.verdict).toBe('cannot-tell')
    expect(out.because).toContain('probe left the product')
  })

  it('separate stretches that only add up to a row are cannot-tell', () => {
    const log: Reading[] = []
    for (let k = 0; k < 4; k++)
      for (let i = 0; i < 6; i++) log.push({ minute: log.length, coreC: i < 4 ? inC(140) : inC(129) })
    expect(lethality({ ...meat, log }).findings[0]).toMatchObject({ verdict: 'cannot-tell' })
  })

  it('without a species every table is judged as advice and the question which one decides stays open', () => {
    const { findings } = lethality({ organism: 'salmonella', log: cook(72, 30) })
    expect(findings.filter((f) => f.weight === 'limit')).toMatchObject([
      { verdict: 'cannot-tell', rule: 'us.fsis.lethality.which-table' },
    ])
    expect(findings.find((f) => f.rule === 'us.fsis.lethality.meat.6.5-log')!.verdict).toBe('pass')
  })

  it('patty rows from memory never pass: 152 °F for 32 s; 155 °F for 16 s, quoted, does', () => {
    const at = (f: number, s: number) =>
      lethality({
        organism: 'salmonella',
        product: { species: 'meat', target: 'patties' },
        log: [
          { minute: 0, coreC: inC(f) },
          { minute: s / 60, coreC: inC(f) },
        ],
      }).findings[0]!.verdict
    expect(at(152, 32)).toBe('cannot-tell')
    expect(at(155, 16)).toBe('pass')
    expect(at(155, 15)).toBe('fail')
  })

  it('come-up: 6 h from 50 to 130 °F pass, a second more fails, a log that begins warmer is cannot-tell', () => {
    const up = (minutes: number, from = 50) => {
      const log = Array.from({ length: 361 }, (_, i): Reading => ({
        minute: (i * minutes) / 360,
        coreC: inC(from + ((130 - from) * i) / 360),
      }))
      return lethality({ ...meat, log }).findings.find((f) => f.rule === 'us.fsis.lethality.come-up')!.verdict
    }
    expect(up(360)).toBe('pass')
    expect(up(360 + 1 / 60)).toBe('fail')
    expect(up(100, 60)).toBe('cannot-tell')
    expect(up(400, 60)).toBe('fail')
  })

  it('humidity: option 1 serves 145 °F and above, for half the cook or an hour, whichever is longer', () => {
    const humid = (heldMinutes: number, cookMinutes: number, top: number) =>
      lethality({ ...meat, log: cook(top, 120), humidity: { option: 1, heldMinutes, cookMinutes } }).findings.find(
        (f) => f.rule === 'us.fsis.lethality.humidity',
      )!.verdict
    expect(humid(60, 100, 72)).toBe('pass')
    expect(humid(59, 100, 72)).toBe('fail')
    expect(humid(99, 200, 72)).toBe('fail')
    expect(humid(100, 200, inC(140))).toBe('fail')
  })
})

describe('refusals', () => {
  it('name the field, what was given and what is allowed', () => {
    const bad = (input: unknown): string => {
      try {
        lethalityCalculation.run(input)
      } catch (e) {
        return (e as Error).message
      }
      return ''
    }
    expect(
      bad({
        log: [
          { minute: 5, coreC: 20 },
          { minute: 5, coreC: 30 },
        ],
        organism: 'salmonella',
      }),
    ).toContain('log[1].minute: is 5, not after 5')
    expect(bad({ log: [{ minute: 5, coreC: null }], organism: 'salmonella' })).toContain('no reading at all')
    expect(bad({ log: [{ minute: 5, coreC: 60 }], organism: 'yeast' })).toContain(
      'allowed: one of salmonella, listeria, e-coli-o157',
    )
    expect(bad({ log: [{ minute: 5, coreC: 60 }], organism: 'listeria', basis: 'salmonella.frankfurter' })).toContain(
      'allowed for listeria: listeria.pooled-sausage',
    )
    expect(bad({ log: [{ minute: 5, coreC: 6000 }], organism: 'listeria' })).toContain('log[0].coreC')
  })

  it('the examples of both calculations run and give findings and a working', () => {
    for (const c of [lethalityCalculation, chillCalculation]) {
      const out = c.run(c.example)
      expect(c.output.safeParse(out).success).toBe(true)
      expect(out.findings.length).toBeGreaterThan(0)
      expect(out.working.length).toBeGreaterThan(0)
    }
  })
})

describe('C. perfringens, estimate', () => {
  // Rates (ln/h) of the braised-beef set as computed from its cardinal temperatures; 0.01 for the printed rounding.
  it('grows at 0.830, 2.275, 4.777 and 5.633 per hour at 20, 27, 37 and 43 °C, and not at 10 or 54 °C', () => {
    for (const [c, r] of [
      [20, 0.83],
      [27, 2.275],
      [37, 4.777],
      [43, 5.633],
    ] as const)
      expect(perfringensRate(c)).toBeCloseTo(r, 2)
    expect(perfringensRate(10)).toBe(0)
    expect(perfringensRate(54)).toBe(0)
  })

  // Juneja, Marks & Thippareddi 2008: 54.4 to 27 °C in 1.5 h 1.1 log (this point set the lag), in 3 h 3.6 log (tolerance 0.15: another model).
  it('54.4 to 27 °C: 1.1 log in 1.5 h, 3.6 log in 3 h', () => {
    const grown = (hours: number): number =>
      chill({
        product: { cured: false },
        log: Array.from({ length: 91 }, (_, i) => ({ minute: (i * hours * 60) / 90, coreC: 54.4 - (27.4 * i) / 90 })),
      }).perfringens.logGrowth
    expect(Math.abs(grown(1.5) - 1.1)).toBeLessThan(0.03)
    expect(Math.abs(grown(3) - 3.6)).toBeLessThan(0.15)
  })

  it('never falls with time and has no step at the change of formula', () => {
    expect(growthOf(0)).toBe(0)
    expect(growthOf(500.001)).toBeGreaterThan(growthOf(499.999))
    expect(growthOf(500.001) - growthOf(499.999)).toBeLessThan(0.001)
  })
})
