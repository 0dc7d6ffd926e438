import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { BatchMeasure, Placement } from '../../src/batch/slow-facts.ts'
import { air, dried, fermented, measures, slow } from './slow-batch.ts'

const others = measures.filter((m) => m.what !== 'weight')
const weighed = (piece: string, last: number, first = 500): BatchMeasure[] =>
  [first, last].map((value, i) => ({
    step: 'dry',
    what: 'weight',
    unit: 'g',
    piece,
    value,
    taken: i === 0 ? '2026-03-02T08:00:00Z' : '2026-03-25T12:00:00Z',
    instrument: 'S2',
  }))
const judged = (change: Partial<BatchFacts>, logs = air) => judgeBatch(slow(change), [], { air: logs })
const loss = (...pieces: BatchMeasure[][]) => {
  const found = judged({ measures: [...others, ...pieces.flat()] })
  return { ...found.findings.find((f) => f.rule === 'record.dry-loss')!, mean: found.dry!.loss.meanPct }
}

describe('the loss of marked pieces (choices of ours)', () => {
  it('leaves out a weight typed in another unit, and says so', () => {
    const found = loss(weighed('P1', 0.32), weighed('P2', 320), weighed('P3', 319), weighed('P4', 319))
    expect(found.mean).toBeCloseTo(36.13, 2)
    expect(found).toMatchObject({ verdict: 'pass', because: expect.stringMatching(/P1.*99\.9 %.*left out/) })
  })
  it('of pieces that all have lost more than they held of water cannot be told', () => {
    const found = loss(weighed('P1', 0.32), weighed('P2', 0.32), weighed('P3', 0.32))
    expect(found).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/P1.*99\.9 %.*more than its water/),
      settle: expect.stringMatching(/corrected/),
    })
  })
  it('of a piece that lags far behind is not passed over', () => {
    const found = loss(weighed('P1', 420), weighed('P2', 318), weighed('P3', 319), weighed('P4', 318))
    expect(found).toMatchObject({ verdict: 'cannot-tell', because: expect.stringMatching(/P1.*16\.0 %/) })
  })
  it('that is a gain says so', () => {
    const found = loss(weighed('P1', 500, 320), weighed('P2', 500, 320), weighed('P3', 500, 320))
    expect(found).toMatchObject({ verdict: 'cannot-tell', because: expect.stringMatching(/P1 gained 56\.3 %/) })
  })
})

describe('the end of the drying', () => {
  const room = (at: string, purpose?: Placement['purpose']): Placement => ({
    at,
    ...(purpose === undefined ? {} : { room: 'D', purpose }),
  })
  /** The log of the room goes on for a fortnight after the batch. */
  const long = [
    fermented(),
    { ...dried, readings: Array.from({ length: 2 * 24 * 36 }, (_, i) => ({ minute: i * 30, value: 14 })) },
  ]
  const end = (placements: Placement[]) =>
    judged({ placements }, long).findings.find((f) => f.rule === 'record.dry-end')!.verdict
  const hung = room('2026-03-04T08:30:00Z', 'dry')
  it('is its taking out, though the log of the room goes on', () => {
    expect(end([hung])).toBe('cannot-tell')
    expect(end([hung, room('2026-03-25T13:00:00Z')])).toBe('pass')
    expect(end([hung, room('2026-03-25T13:00:00Z', 'cold')])).toBe('pass')
    expect(end([hung, room('2026-03-15T13:00:00Z'), room('2026-03-16T13:00:00Z', 'dry')])).toBe('cannot-tell')
  })
  it('a measure of days before the taking out is not of the end', () => {
    expect(end([hung, room('2026-03-28T13:00:00Z')])).toBe('cannot-tell')
  })
})
