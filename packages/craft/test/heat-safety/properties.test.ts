import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { chill } from '../../src/heat/chill.ts'
import { lethality } from '../../src/heat/lethality.ts'
import type { Reading } from '../../src/heat/reading.ts'

/** A smooth cook: readings a minute apart that rise and hold, no fall a probe could be blamed for. */
const cook = fc
  .record({
    rate: fc.double({ min: 0.5, max: 3, noNaN: true }),
    top: fc.double({ min: 53, max: 72, noNaN: true }),
    minutes: fc.integer({ min: 20, max: 200 }),
  })
  .map(({ rate, top, minutes }) =>
    Array.from({ length: minutes }, (_, minute): Reading => ({ minute, coreC: Math.min(top, 8 + rate * minute) })),
  )

const order = { fail: 0, 'cannot-tell': 1, pass: 2 } as const
const table = (log: readonly Reading[]) =>
  order[lethality({ log, organism: 'salmonella', product: { species: 'meat' } }).findings[0]!.verdict]

it('a hotter cook never does worse at the table', () => {
  fc.assert(
    fc.property(cook, fc.double({ min: 0, max: 5, noNaN: true }), (log, more) => {
      expect(table(log.map((r) => ({ minute: r.minute, coreC: r.coreC! + more })))).toBeGreaterThanOrEqual(table(log))
    }),
    { numRuns: 60 },
  )
})

it('readings put in between on the same lines change no verdict, no minutes and no reduction', () => {
  fc.assert(
    fc.property(cook, fc.integer({ min: 60, max: 500 }), (up, minutes) => {
      const top = up.at(-1)!
      const down = Array.from({ length: minutes }, (_, i): Reading => ({
        minute: top.minute + i + 1,
        coreC: 3 + (top.coreC! - 3) * Math.exp(-(i + 1) / (minutes / 4)),
      }))
      const log = [...up, ...down]
      const finer = log.flatMap((r, i) => {
        const before = log[i - 1]
        return before === undefined
          ? [r]
          : [{ minute: (before.minute + r.minute) / 2, coreC: (before.coreC! + r.coreC!) / 2 }, r]
      })
      const judged = (l: readonly Reading[]) => {
        const c = chill({ log: l, product: { cured: true, nitritePpm: 150 }, acceptFalls: true })
        const k = lethality({ log: l, organism: 'salmonella', product: { species: 'meat' }, acceptFalls: true })
        return {
          minutes: c.findings.map((f) => [f.rule, f.verdict, f.measured]),
          logs: k.logReduction,
          cook: k.findings.map((f) => f.verdict),
        }
      }
      const [a, b] = [judged(log), judged(finer)]
      expect(b.minutes).toEqual(a.minutes)
      expect(b.cook).toEqual(a.cook)
      expect(Math.abs(b.logs - a.logs)).toBeLessThanOrEqual(1e-9 * (1 + a.logs))
    }),
    { numRuns: 60 },
  )
})

it('a larger thermometer error never makes a pass of what was none', () => {
  fc.assert(
    fc.property(cook, fc.double({ min: 0, max: 3, noNaN: true }), (log, toleranceC) => {
      const sure = lethality({ log, organism: 'salmonella', product: { species: 'meat' } }).findings[0]!.verdict
      const loose = lethality({ log, organism: 'salmonella', product: { species: 'meat' }, toleranceC }).findings[0]!
        .verdict
      if (sure !== 'pass') expect(loose).not.toBe('pass')
      if (sure !== 'fail') expect(loose).not.toBe('fail')
    }),
    { numRuns: 60 },
  )
})
