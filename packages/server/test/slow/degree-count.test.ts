import { describe, expect, it } from 'vitest'
import { countDegreeHours, hourLog } from '../../src/slow/degree-count.ts'

const start = Date.parse('2026-03-02T08:00:00Z')
const at = (hour: number): string => new Date(start + hour * 3_600_000).toISOString()
const points = Array.from({ length: 73 }, (_, hour) => ({
  at: start + hour * 3_600_000,
  highC: 30,
  meanC: 30,
  rhPct: null,
}))
type Read = { hour: number; ph: number; calibrated?: boolean; piece?: string; step?: string }
const counted = (...phs: Read[]) => {
  const log = hourLog(
    points,
    phs.map(({ hour, calibrated = true, ...p }) => ({ ...p, taken: at(hour), calibrated })),
  )!
  const { systems, findings } = countDegreeHours(log, 5.3, { phTolerance: 0.02 })
  const ca = systems.find((s) => s.jurisdiction === 'CA')!
  return { ...ca, verdict: findings.find((f) => f.jurisdiction === 'CA')!.verdict }
}

describe('the count on the page ends where the batch’s judgement ends it', () => {
  it('not at a pH that rises again', () => {
    const found = counted({ hour: 10, ph: 5.2 }, { hour: 12, ph: 5.8 }, { hour: 30, ph: 5.6 }, { hour: 65, ph: 5.2 })
    expect([found.hoursToTarget, found.verdict]).toEqual([65, 'fail'])
    expect(found.degreeHours).toBeCloseTo(65 * 14.4, 6)
  })
  it('not while a piece lags', () => {
    const found = counted({ hour: 10, ph: 5.1, piece: 'P1' }, { hour: 10.1, ph: 5.6, piece: 'P2' })
    expect([found.hoursToTarget, found.verdict]).toEqual([undefined, 'fail'])
  })
  it('not at a pH that does not count, while a higher one reopens it all the same', () => {
    expect(counted({ hour: 10, ph: 5.2, calibrated: false }).hoursToTarget).toBeUndefined()
    const found = counted({ hour: 10, ph: 5.2 }, { hour: 20, ph: 5.6, calibrated: false })
    expect(found.hoursToTarget).toBeUndefined()
  })
  it('at the pH of the souring, whatever mould does to it in the drying', () => {
    const days = Array.from({ length: 200 }, (_, hour) => ({
      at: start + hour * 3_600_000,
      highC: 24,
      meanC: 24,
      rhPct: null,
    }))
    const log = hourLog(days, [
      { taken: at(28), ph: 5.1, calibrated: true, step: 'ferment' },
      { taken: at(150), ph: 5.6, calibrated: true, step: 'dry' },
    ])!
    expect(countDegreeHours(log, 5.3, {}).systems[0]!.hoursToTarget).toBe(28)
  })
})
