import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chill } from '../../src/heat/chill.ts'
import { lethality } from '../../src/heat/lethality.ts'
import type { Reading } from '../../src/heat/reading.ts'
import { judgeLog } from '../../src/log/judge-log.ts'

const cook = (log: readonly Reading[], more = {}) =>
  lethality({ organism: 'salmonella', product: { species: 'meat', target: '6.5-log' }, log, toleranceC: 0, ...more })
const meat = (log: readonly Reading[], more = {}) =>
  cook(log, more).findings.find((f) => f.rule.startsWith('us.fsis.lethality.meat'))!
const uncounted = (log: readonly Reading[], more = {}) =>
  cook(log, more).working.find((w) => w.step === 'Minutes not counted')!.value

/** Up to 57.5 °C in an hour and there on; read at the minutes given. */
const at = (minutes: readonly number[]): Reading[] =>
  minutes.map((minute) => ({ minute, coreC: Math.min(57.5, 5 + 0.875 * minute) }))
const every = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.floor((to - from) / step + 1e-9) + 1 }, (_, i) => from + i * step)

describe('a log whose pace changes', () => {
  const slowThenFast = at([...every(0, 110, 10), ...every(120, 140, 1)])

  it('counts the slow part and the fast one, as with a limit of 15 min that is given', () => {
    const out = cook(slowThenFast)
    expect(out.logReduction).toBeCloseTo(cook(slowThenFast, { maxGapMinutes: 15 }).logReduction, 12)
    expect(uncounted(slowThenFast)).toBe(0)
    expect(cook(at(every(0, 140, 1))).logReduction).toBeCloseTo(out.logReduction, 1)
  })

  it('does so whichever comes first, and beyond the head of the log, in a stream alike', async () => {
    const fastThenSlow = at([...every(0, 300, 1), ...every(310, 400, 10), ...every(401, 500, 1)])
    expect(uncounted(fastThenSlow)).toBe(0)
    const rows = fastThenSlow.map(
      (r) =>
        `${new Date(Date.UTC(2026, 10, 20, 8) + r.minute * 60_000).toISOString().slice(0, 19).replace('T', ' ')};${r.coreC!.toFixed(4)}`,
    )
    const stream = await judgeLog([new TextEncoder().encode(['Time;Core °C', ...rows].join('\n'))], {
      product: { species: 'meat' },
      cookOnly: true,
    })
    expect(stream.lethality!.logReduction).toBeCloseTo(cook(fastThenSlow).logReduction, 3)
  })

  it('of 30, then 10, then 5 minutes is counted whole, and a chill of such a log is judged', () => {
    expect(uncounted(at([0, 30, 60, 90, 100, 105, 110, 115]))).toBe(0)
    const log = [
      { minute: 0, coreC: 70 },
      ...[60, 50, 40, 30, 24, 20, 19].map((coreC, i) => ({ minute: 10 * (i + 1), coreC })),
      ...every(71, 130, 1).map((minute) => ({ minute, coreC: 19 - ((minute - 70) * 15) / 60 })),
    ]
    expect(chill({ log, product: { cured: false }, toleranceC: 0 }).findings[0]!.verdict).toBe('pass')
  })

  it('still shows a gap of its logger as a hole: one long step, or two, among short ones', () => {
    for (const lost of [
      [40, 60],
      [40, 55, 70],
    ]) {
      const minutes = every(0, 140, 1).filter((m) => m <= lost[0]! || m >= lost.at(-1)! || lost.includes(m))
      expect(uncounted(at(minutes))).toBe(lost.at(-1)! - lost[0]!)
    }
  })

  it('is never joined over more than half an hour by its local pace', () => {
    expect(uncounted(at([...every(0, 40, 1), 80, 120, 160, 200, ...every(201, 300, 1)]))).toBe(160)
  })
})

describe('readings by hand, at no even pace', () => {
  it('are joined up to half an hour; one more reading does not undo the rest', () => {
    expect(uncounted(at([0, 28, 40, 61, 70, 74, 83, 85]))).toBe(0)
  })

  it('prove nothing over more than an hour between two, though both ends are hot', () => {
    const two = [
      { minute: 0, coreC: 60 },
      { minute: 300, coreC: 60 },
    ]
    expect(meat(two)).toMatchObject({ verdict: 'cannot-tell', measured: 0 })
    expect(meat(two).because).toMatch(/from minute 0 to 300/)
    expect(cook(two).logReduction).toBe(0)
    expect(meat([two[0]!, { minute: 60, coreC: 60 }]).verdict).toBe('pass')
  })
})

describe('minutes that are not counted', () => {
  it('are told in the working and the caution of a cook and of a chill', () => {
    const log = at([...every(0, 40, 1), ...every(61, 140, 1)])
    expect(uncounted(log)).toBe(21)
    expect(cook(log).caution).toMatch(/21 min of the log are not counted/)
    expect(cook(at(every(0, 140, 1))).caution).not.toMatch(/not counted/)
    const cooling = chill({ log: log.map((r) => ({ ...r, coreC: 70 - r.minute / 3 })), product: { cured: false } })
    expect(cooling.caution).toMatch(/21 min of the log/)
    expect(cooling.working.find((w) => w.step === 'Minutes not counted')!.value).toBe(21)
  })

  it('never make a cook look better: taking readings out of a rising and holding core adds no kill', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 139 }), { minLength: 0, maxLength: 100 }), (out) => {
        const all = every(0, 140, 1)
        const kept = all.filter((m) => !out.includes(m))
        expect(cook(at(kept)).logReduction).toBeLessThanOrEqual(cook(at(all)).logReduction * 1.05 + 0.05)
      }),
      { numRuns: 60 },
    )
  })
})
