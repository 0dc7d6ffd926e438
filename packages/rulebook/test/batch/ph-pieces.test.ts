import { describe, expect, it } from 'vitest'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { BatchMeasure } from '../../src/batch/slow-facts.ts'
import { air, measures, slow } from './slow-batch.ts'

const ph = (taken: string, value: number, piece: string, step = 'ferment'): BatchMeasure => ({
  step,
  what: 'ph',
  value,
  taken,
  piece,
  instrument: 'PH',
})
const judged = (...phs: BatchMeasure[]) =>
  judgeBatch(slow({ measures: [...measures.filter((m) => m.what !== 'ph'), ...phs] }), [], { air })

describe('pH read each time of another marked piece', () => {
  it('falls as the batch does', () => {
    const found = judged(
      ph('2026-03-02T08:30:00Z', 5.8, 'Q1'),
      ph('2026-03-03T04:00:00Z', 5.4, 'Q2'),
      ph('2026-03-03T12:00:00Z', 5.1, 'Q3'),
      ph('2026-03-25T12:00:00Z', 5.15, 'Q4', 'dry'),
    )
    expect(found.ferment?.reachedHour).toBeCloseTo(28, 6)
    expect(found.dry?.measures.ph?.value).toBe(5.15)
    expect(found.verdict).toBe('pass')
  })
  it('names the last reading, and the piece that holds the batch above it', () => {
    const found = judged(ph('2026-03-03T11:50:00Z', 5.6, 'Q2'), ph('2026-03-03T12:00:00Z', 5.1, 'Q1')).findings.find(
      (f) => f.rule === 'us.ferment.degree-hours',
    )!
    expect(found.because).toMatch(/pH 5\.3 was not reached \(last 5\.1 ± 0\.02; Q2 stands at 5\.6\)/)
  })
})
