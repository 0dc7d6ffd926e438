import { describe, expect, it } from 'vitest'
import { chill, type CoolingProduct } from '../../src/heat/chill.ts'
import type { Reading } from '../../src/heat/reading.ts'

// Stages as quoted from FSIS Appendix B (1999) and FSIS-GD-2021-13, CFIA manual 4.5 and FDA Food Code 3-501.14.
const inC = (f: number): number => ((f - 32) * 5) / 9

/** A core through (°F, minute) points, a reading every minute or so on straight lines. */
function course(points: readonly (readonly [f: number, minute: number])[]): Reading[] {
  const log: Reading[] = []
  for (let i = 0; i < points.length - 1; i++) {
    const [[f0, t0], [f1, t1]] = [points[i]!, points[i + 1]!]
    const steps = Math.ceil((t1 - t0) / 2)
    for (let k = 0; k < steps; k++)
      log.push({ minute: t0 + ((t1 - t0) * k) / steps, coreC: inC(f0 + ((f1 - f0) * k) / steps) })
  }
  const [f, minute] = points.at(-1)!
  return [...log, { minute, coreC: inC(f) }]
}
const SECOND = 1 / 60
const uncured: CoolingProduct = { cured: false }
const cured: CoolingProduct = { cured: true, nitritePpm: 156, erythorbatePpm: 547, saltPct: 2.2, waterPct: 58 }
const verdict = (points: readonly (readonly [number, number])[], product: CoolingProduct, rule: string) =>
  chill({ log: course(points), product }).findings.find((f) => f.rule === rule)?.verdict

describe('FSIS Appendix B, each option at both sides of its edges', () => {
  it('option 1 passes with 90 min from 130 to 80 °F and 300 min from 80 to 40 °F, and fails a second beyond either', () => {
    const rule = 'us.fsis.cooling.option-1'
    expect(
      verdict(
        [
          [130, 0],
          [80, 90],
          [40, 390],
        ],
        uncured,
        rule,
      ),
    ).toBe('pass')
    expect(
      verdict(
        [
          [130, 0],
          [80, 90 + SECOND],
          [40, 390],
        ],
        uncured,
        rule,
      ),
    ).toBe('fail')
    expect(
      verdict(
        [
          [130, 0],
          [80, 90],
          [40, 390 + SECOND],
        ],
        uncured,
        rule,
      ),
    ).toBe('fail')
  })

  it('option 1 fails where the lower temperature is missed by a degree at the end of its time', () => {
    expect(
      verdict(
        [
          [130, 0],
          [81, 90],
          [40, 390],
        ],
        uncured,
        'us.fsis.cooling.option-1',
      ),
    ).toBe('fail')
  })

  it('option 2 passes with 60 min from 120 to 80 °F and 300 min to 55 °F, and fails a second beyond either', () => {
    const rule = 'us.fsis.cooling.option-2'
    expect(
      verdict(
        [
          [150, 0],
          [120, 30],
          [80, 90],
          [55, 390],
          [40, 600],
        ],
        uncured,
        rule,
      ),
    ).toBe('pass')
    expect(
      verdict(
        [
          [150, 0],
          [120, 30],
          [80, 90 + SECOND],
          [55, 390],
          [40, 600],
        ],
        uncured,
        rule,
      ),
    ).toBe('fail')
    expect(
      verdict(
        [
          [150, 0],
          [120, 30],
          [80, 90],
          [55, 390 + SECOND],
          [40, 600],
        ],
        uncured,
        rule,
      ),
    ).toBe('fail')
  })

  it('option 2 in its 1999 form passes with 360 min from 120 to 55 °F and fails a second beyond; it never carries the standard', () => {
    const rule = 'us.fsis.cooling.option-2-1999'
    const slow = (extra: number) =>
      [
        [120, 0],
        [80, 180],
        [55, 360 + extra],
        [40, 500],
      ] as const
    expect(verdict(slow(0), uncured, rule)).toBe('pass')
    expect(verdict(slow(SECOND), uncured, rule)).toBe('fail')
    expect(chill({ log: course(slow(0)), product: uncured }).stabilization.verdict).toBe('fail')
  })

  it('the large-mass gap asks less than 360 min: 360 fail, a second less passes', () => {
    const rule = 'us.fsis.cooling.gap-large-mass'
    const at = (m: number) =>
      [
        [120, 0],
        [80, 180],
        [55, m],
        [40, 500],
      ] as const
    const product = { cured: false, largeMassNonIntact: true }
    expect(verdict(at(360), product, rule)).toBe('fail')
    expect(verdict(at(360 - SECOND), product, rule)).toBe('pass')
    expect(verdict(at(300), uncured, rule)).toBeUndefined()
  })

  it('option 3 in its 1999 form passes cured product with 5 h and 10 h, fails a second beyond, and asks 100 ppm nitrite', () => {
    const rule = 'us.fsis.cooling.option-3-1999'
    expect(
      verdict(
        [
          [130, 0],
          [80, 300],
          [40, 900],
        ],
        cured,
        rule,
      ),
    ).toBe('pass')
    expect(
      verdict(
        [
          [130, 0],
          [80, 300 + SECOND],
          [40, 900],
        ],
        cured,
        rule,
      ),
    ).toBe('fail')
    // Its end is 40 °F in one source and 45 °F in another: late to both it fails.
    expect(
      verdict(
        [
          [130, 0],
          [80, 300],
          [45, 900 + SECOND],
          [40, 1000],
        ],
        cured,
        rule,
      ),
    ).toBe('fail')
    expect(
      verdict(
        [
          [130, 0],
          [80, 300],
          [40, 900],
        ],
        { cured: true, nitritePpm: 99 },
        rule,
      ),
    ).toBeUndefined()
    expect(
      verdict(
        [
          [130, 0],
          [80, 300],
          [40, 900],
        ],
        { cured: true, nitritePpm: 100 },
        rule,
      ),
    ).toBe('pass')
    expect(
      verdict(
        [
          [130, 0],
          [80, 300],
          [40, 900],
        ],
        { cured: true },
        rule,
      ),
    ).toBe('cannot-tell')
  })

  it('option 3 of 2021 can fail on its times but never passes: its erythorbate figure is from memory', () => {
    const rule = 'us.fsis.cooling.option-3'
    expect(
      verdict(
        [
          [130, 0],
          [80, 300],
          [40, 900],
        ],
        cured,
        rule,
      ),
    ).toBe('cannot-tell')
    expect(
      verdict(
        [
          [130, 0],
          [80, 301],
          [40, 900],
        ],
        cured,
        rule,
      ),
    ).toBe('fail')
  })

  it('option 4 is from memory and can only be cannot-tell', () => {
    const rule = 'us.fsis.cooling.option-4'
    expect(
      verdict(
        [
          [130, 0],
          [40, 900],
        ],
        cured,
        rule,
      ),
    ).toBe('cannot-tell')
    expect(
      verdict(
        [
          [130, 0],
          [40, 3000],
        ],
        cured,
        rule,
      ),
    ).toBe('cannot-tell')
  })
})

describe('hand-taken readings', () => {
  const at = (end: number) =>
    chill({
      log: [
        { minute: 0, coreC: 54.4 },
        { minute: 90, coreC: 26.6 },
        { minute: end, coreC: 4.4 },
      ],
      product: uncured,
    }).findings[0]!.verdict
  it('three readings that show each step of option 1 in time pass; the printed 54.4 °C begins the clock of 130 °F', () => {
    expect(at(380)).toBe('pass')
    expect(at(400)).toBe('fail')
  })

  it('a lost reading is joined, two in a row are a hole', () => {
    const good = course([
      [160, 0],
      [130, 30],
      [80, 100],
      [40, 300],
    ])
    const without = (lost: number) => good.filter((_, i) => i < 40 || i >= 40 + lost)
    expect(chill({ log: without(1), product: uncured }).summary.verdict).toBe('pass')
    expect(chill({ log: without(2), product: uncured }).summary.verdict).toBe('cannot-tell')
  })
})

describe('other authorities', () => {
  it('CFIA 4.5 for intact muscle: 2 h from 50 to 20 °C and 7.5 h to 4 °C; not for a comminuted product', () => {
    const rule = 'ca.cfia.cooling.intact'
    const f = (c: number) => (c * 9) / 5 + 32
    const product = { cured: false, intact: true }
    expect(
      verdict(
        [
          [f(50), 0],
          [f(20), 120],
          [f(4), 450],
        ],
        product,
        rule,
      ),
    ).toBe('pass')
    expect(
      verdict(
        [
          [f(50), 0],
          [f(20), 120 + SECOND],
          [f(4), 450],
        ],
        product,
        rule,
      ),
    ).toBe('fail')
    expect(
      verdict(
        [
          [f(50), 0],
          [f(20), 120],
          [f(4), 450 + SECOND],
        ],
        product,
        rule,
      ),
    ).toBe('fail')
    expect(
      verdict(
        [
          [f(50), 0],
          [f(20), 120],
          [f(4), 450],
        ],
        uncured,
        rule,
      ),
    ).toBeUndefined()
  })

  it('FDA Food Code 3-501.14 at retail: 2 h from 135 to 70 °F and 6 h in all to 41 °F', () => {
    const rule = 'us.food-code.cooling'
    const product = { cured: false, retail: true }
    expect(
      verdict(
        [
          [135, 0],
          [70, 120],
          [41, 360],
        ],
        product,
        rule,
      ),
    ).toBe('pass')
    expect(
      verdict(
        [
          [135, 0],
          [70, 120 + SECOND],
          [41, 360],
        ],
        product,
        rule,
      ),
    ).toBe('fail')
    expect(
      verdict(
        [
          [135, 0],
          [70, 120],
          [41, 360 + SECOND],
        ],
        product,
        rule,
      ),
    ).toBe('fail')
  })
})

describe('stabilization', () => {
  it('passes where any current option passes, though others fail', () => {
    const out = chill({
      log: course([
        [130, 0],
        [80, 90],
        [40, 390],
      ]),
      product: uncured,
    })
    expect(out.summary).toMatchObject({ verdict: 'pass', met: ['us.fsis.cooling.option-1'] })
    expect(out.findings.some((f) => f.verdict === 'fail')).toBe(true)
    expect(out.findings.every((f) => f.weight === 'advice')).toBe(true)
  })

  it('fails where every option that applies fails', () => {
    expect(
      chill({
        log: course([
          [150, 0],
          [80, 300],
          [40, 700],
        ]),
        product: uncured,
      }).summary.verdict,
    ).toBe('fail')
  })

  it('a thermometer past its check never gives a pass', () => {
    const out = chill({
      log: course([
        [130, 0],
        [80, 80],
        [40, 300],
      ]),
      product: uncured,
      checkOverdue: true,
    })
    expect(out.summary.verdict).toBe('cannot-tell')
    expect(out.summary.because).toContain('check is overdue')
  })

  it('times met by less than the thermometer error are cannot-tell, met by more pass', () => {
    const log = course([
      [150, 0],
      [130, 20],
      [80, 108],
      [40, 400],
      [30, 500],
    ])
    expect(chill({ log, product: uncured, toleranceC: 0.1 }).summary.verdict).toBe('pass')
    expect(chill({ log, product: uncured, toleranceC: 2 }).findings[0]).toMatchObject({ verdict: 'cannot-tell' })
  })
})

describe('logs that do not show the whole chill', () => {
  const good = course([
    [160, 0],
    [130, 30],
    [80, 100],
    [40, 300],
  ])
  const judged = (log: readonly Reading[]) => chill({ log, product: uncured }).summary
  const between = (log: readonly Reading[], from: number, to: number, coreC: (r: Reading) => number | null) =>
    log.map((r) => (r.minute >= from && r.minute <= to ? { minute: r.minute, coreC: coreC(r) } : r))

  it('the whole log passes', () => expect(judged(good).verdict).toBe('pass'))

  it('one that ends warm is cannot-tell and says how warm', () => {
    const out = judged(good.filter((r) => r.minute <= 120))
    expect(out.verdict).toBe('cannot-tell')
    expect(out.because).toMatch(/ends (warm, )?at 2\d/)
  })

  it('one that ends warm after the time is already over fails', () => {
    const slow = course([
      [160, 0],
      [130, 30],
      [100, 400],
    ])
    expect(judged(slow).verdict).toBe('fail')
  })

  it('one that begins below the window is cannot-tell', () => {
    const out = judged(good.filter((r) => r.minute >= 60))
    expect(out.verdict).toBe('cannot-tell')
    expect(out.because).toContain('begins at')
  })

  it('missing rows and empty readings on the way are cannot-tell with the minutes', () => {
    const cut = judged(good.filter((r) => r.minute < 80 || r.minute > 110))
    expect(cut.verdict).toBe('cannot-tell')
    expect(cut.because).toMatch(/no reading \(steps over \d+ min are not joined\) from minute 7\d/)
    expect(judged(between(good, 80, 110, () => null)).verdict).toBe('cannot-tell')
  })

  it('a probe that falls out of the meat is cannot-tell, whether it comes back or not', () => {
    const out = judged(between(good, 60, 90, () => 4))
    expect(out.verdict).toBe('cannot-tell')
    expect(out.because).toContain('probe left the product')
    expect(judged(between(good, 60, 1000, () => 4)).verdict).toBe('cannot-tell')
  })

  it('a reading of three months ends no argument: rewarming after 40 °F does not lengthen the chill', () => {
    const stored = course([
      [160, 0],
      [130, 30],
      [80, 100],
      [39, 300],
      [42, 400],
      [38, 500],
    ])
    expect(judged(stored).verdict).toBe('pass')
  })

  it('rewarming above the window on the way down lengthens it to the last passing', () => {
    const back = course([
      [160, 0],
      [130, 30],
      [79, 100],
      [95, 110],
      [80, 140],
      [40, 300],
    ])
    expect(judged(back).verdict).toBe('fail')
  })
})
