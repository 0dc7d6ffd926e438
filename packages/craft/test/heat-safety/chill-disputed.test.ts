import { describe, expect, it } from 'vitest'
import { chill, type CoolingProduct } from '../../src/heat/chill.ts'
import type { Reading } from '../../src/heat/reading.ts'

const inC = (f: number): number => ((f - 32) * 5) / 9

/** A core through (°F, minute) points, a reading every two minutes on straight lines. */
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
const cured: CoolingProduct = { cured: true, nitritePpm: 156, erythorbatePpm: 547, saltPct: 2.2, waterPct: 58 }
const judged = (points: readonly (readonly [number, number])[], product: CoolingProduct) =>
  chill({ log: course(points), product })
const of = (rule: string, points: readonly (readonly [number, number])[], product: CoolingProduct = cured) =>
  judged(points, product).findings.find((f) => f.rule === rule)!

// The 1999 text is quoted with an end of 40 °F in one place and of 45 °F (from memory) in another.
describe('the end of option 3, 40 °F or 45 °F by its sources', () => {
  const end = (to45: number, to40: number) =>
    [
      [130, 0],
      [80, 200],
      [45, 200 + to45],
      [40, 200 + to40],
    ] as const

  it('passes where both are met, and fails where both are missed', () => {
    expect(of('us.fsis.cooling.option-3-1999', end(500, 590)).verdict).toBe('pass')
    expect(of('us.fsis.cooling.option-3-1999', end(601, 640)).verdict).toBe('fail')
    expect(of('us.fsis.cooling.option-3', end(601, 640)).verdict).toBe('fail')
  })

  it.each(['us.fsis.cooling.option-3-1999', 'us.fsis.cooling.option-3'])(
    '%s cannot be told between the two',
    (rule) => {
      const f = of(rule, end(599, 630))
      expect(f).toMatchObject({ verdict: 'cannot-tell' })
      expect(f.because).toMatch(/met to 7\.22 °C and missed to 4\.44 °C: sources disagree/)
      expect(f.settle).toMatch(/option in its source/)
    },
  )

  it('leaves the standard open between the two, where no other option decides', () => {
    // With 1 % salt option 4 does not speak for it.
    const product = { ...cured, saltPct: 1 }
    expect(judged(end(599, 630), product).stabilization.verdict).toBe('cannot-tell')
    expect(judged(end(601, 640), product).stabilization.verdict).toBe('fail')
  })
})

// The forms of 1999 and of the gap time 120 to 55 °F in one and name no step at 80 °F; cooling is asked to be continuous in all of them.
describe('a core that warms from 80 to 84 °F on the way down', () => {
  const back = [
    [160, 0],
    [130, 20],
    [80, 50],
    [84, 60],
    [55, 120],
    [40, 180],
  ] as const
  const uncured: CoolingProduct = { cured: false }

  it('has not cooled continuously where 80 °F is a step', () => {
    for (const rule of ['us.fsis.cooling.option-1', 'us.fsis.cooling.option-2'])
      expect(of(rule, back, uncured)).toMatchObject({ verdict: 'fail' })
  })

  it('cannot be told where no step is there', () => {
    const f = of('us.fsis.cooling.option-2-1999', back, uncured)
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(/warmed again over 26\.67 °C until minute .*no step there/)
    expect(of('us.fsis.cooling.gap-large-mass', back, { cured: false, largeMassNonIntact: true }).verdict).toBe(
      'cannot-tell',
    )
  })

  it('is a wobble of the reading within a degree: 0.3 °F changes nothing', () => {
    const wobble = [
      [160, 0],
      [130, 20],
      [80, 50],
      [80.3, 52],
      [55, 120],
      [40, 180],
    ] as const
    for (const rule of ['us.fsis.cooling.option-1', 'us.fsis.cooling.option-2-1999'])
      expect(of(rule, wobble, uncured).verdict).toBe('pass')
  })
})
