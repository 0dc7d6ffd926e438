import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { AirChannel, BatchMeasure } from '../../src/batch/slow-facts.ts'
import { air, dried, epoch, fermented, measures, slow } from './slow-batch.ts'

const judged = (change: Partial<BatchFacts> = {}, logs: readonly AirChannel[] = air) =>
  judgeBatch(slow({ jurisdictions: ['CA'], ...change }), [], { air: logs })
const found = (rule: string, change: Partial<BatchFacts> = {}, logs: readonly AirChannel[] = air) =>
  judged(change, logs).findings.find((f) => f.rule === rule)!
const ca = 'ca.ferment.degree-hours'

type Read = readonly [taken: string, ph: number, over?: Partial<BatchMeasure>]
/** The batch with these readings of pH in the place of the one that reached the target. */
const withPh = (...reads: readonly Read[]): Partial<BatchFacts> => ({
  measures: [
    ...measures.filter((m) => m.what !== 'ph' || m.step === 'dry' || m.value === 5.8),
    ...reads.map(([taken, value, over]): BatchMeasure => ({
      step: 'ferment',
      what: 'ph',
      value,
      taken,
      instrument: 'PH',
      ...over,
    })),
  ],
})
/** Warm for as long as it is not at its target: a count that goes on to the end of it is over. */
const warm = fermented(() => 36.5, {
  readings: Array.from({ length: 145 }, (_, i) => ({ minute: i * 30, value: 36.5 })),
})

describe('readings within an hour of each other are of one sampling, and the highest of them stands (a choice of ours)', () => {
  const three: readonly Read[] = [
    ['2026-03-03T12:00:00Z', 5.1],
    ['2026-03-03T12:06:00Z', 5.7],
    ['2026-03-03T12:12:00Z', 5.6],
  ]
  const orders = [[0, 1, 2] as const, [0, 2, 1] as const, [1, 0, 2] as const, [1, 2, 0] as const, [2, 1, 0] as const]
  it.each(orders)('three pieces, one of them fast, in the order %i %i %i: not reached', (...order) => {
    const times = three.map(([t]) => t)
    for (const marked of [true, false]) {
      const reads = order.map((of, i): Read => [times[i]!, three[of]![1], marked ? { piece: `P${of}` } : {}])
      const j = judged(withPh(...reads))
      expect(j.ferment?.levels.some((l) => l.step === 'ferment' && l.ph <= 5.3)).toBe(false)
      expect(j.verdict).not.toBe('pass')
    }
  })
  it('holds at 60 minutes and no longer', () => {
    const first = withPh(['2026-03-03T11:00:00Z', 5.6], ['2026-03-03T12:00:00Z', 5.1])
    expect(judged(first).ferment?.levels.find((l) => l.ph === 5.1 && l.step === 'ferment')).toBeUndefined()
    const later = withPh(['2026-03-03T10:59:00Z', 5.6], ['2026-03-03T12:00:00Z', 5.1])
    expect(found(ca, later).verdict).toBe('pass')
  })
  it('a second reading some minutes later that is high undoes the low one', () => {
    expect(judged(withPh(['2026-03-03T12:00:00Z', 5.1], ['2026-03-03T12:12:00Z', 5.6])).verdict).not.toBe('pass')
  })
})

describe('the error of the pH meter', () => {
  const withTolerance = (tolerance: number): Partial<BatchFacts> => ({
    checks: slow().checks!.map((c) => (c.method === 'buffer' ? { ...c, tolerance } : c)),
  })
  it('is what the buffer check of the day allowed: 5.29 within 0.02 of 5.3 ends no count', () => {
    const only = withPh(['2026-03-03T12:00:00Z', 5.29])
    const near = found(ca, { measures: only.measures!.filter((m) => m.what !== 'ph' || m.step !== 'dry') })
    expect([near.verdict, near.because]).toEqual([
      'cannot-tell',
      expect.stringContaining('pH 5.3 was not reached (last 5.29 ± 0.02)'),
    ])
  })
  it('is the usual one, and the finding says so, where the check allowed less than a meter can read', () => {
    expect(found(ca).because).not.toContain('not given')
    expect(found(ca, withTolerance(0))).toMatchObject({
      verdict: 'pass',
      because: expect.stringContaining('the error of the pH meter is not given: ± 0.05'),
    })
  })
})

describe('a later higher reading opens the count again', () => {
  it('5.1, then 5.9 five hours later: neither the target nor the degree-hours are met by the first', () => {
    const back = withPh(['2026-03-03T12:00:00Z', 5.1], ['2026-03-03T17:00:00Z', 5.9])
    const never = { measures: back.measures!.filter((m) => m.step !== 'dry') }
    expect(found('record.ferment-ph', never).verdict).not.toBe('pass')
    expect(judged(back, [warm]).verdict).not.toBe('pass')
    expect(found(ca, back, [warm]).verdict).not.toBe('pass')
  })
  it('the count goes on to the first sampling after which none is above', () => {
    const again = withPh(['2026-03-03T06:00:00Z', 5.1], ['2026-03-03T09:00:00Z', 5.5], ['2026-03-03T12:00:00Z', 5.1])
    expect(found(ca, again).measured).toBeCloseTo(28 * 8.4, 6)
  })
  it('nor does calling it a reading of the drying hide it, until mould may have raised it', () => {
    expect(
      judged(withPh(['2026-03-03T12:00:00Z', 5.1], ['2026-03-03T17:00:00Z', 5.9, { step: 'dry' }])).verdict,
    ).not.toBe('pass')
    const mould = withPh(['2026-03-03T12:00:00Z', 5.1], ['2026-03-20T12:00:00Z', 5.6, { step: 'dry' }])
    expect(found(ca, mould).verdict).toBe('pass')
  })
})

describe('the log has to see the batch from its stuffing on', () => {
  const at = (instant: string, zone: 'said' | 'unsaid' = 'said') =>
    fermented(() => 24, { starts: { at: epoch(instant), zone } })
  const record = (change: Partial<BatchFacts>, log = at('2026-03-02T08:00:00Z')) =>
    found('record.ferment', change, [log, dried])
  const plain = measures.filter((m) => m.what !== 'weight')
  const of = (step: string, taken: string): BatchMeasure => ({ step, what: 'temperature', value: 2, taken })
  const hung = (at: string, purpose: 'ferment' | 'dry' | 'cold', room = 'R1') => ({
    at,
    purpose,
    room,
    ...(purpose === 'cold' ? { tempC: 2 } : {}),
  })

  it('a piece weighed as stuffed, a measure of the stuffing, or any room: an hour and no more', () => {
    expect(record({}).verdict).toBe('pass')
    expect(record({}, at('2026-03-02T09:00:00Z')).verdict).toBe('pass')
    expect(record({}, at('2026-03-02T09:06:00Z')).because).toMatch(/1\.1 h after it was stuffed/)
    expect(record({ measures: [...plain, of('stuff', '2026-03-02T06:54:00Z')] }).verdict).toBe('cannot-tell')
    expect(record({ placements: [hung('2026-03-02T06:54:00Z', 'dry')] }).because).toMatch(/went in/)
  })
  it('a mix: four hours for filling and hanging (a choice of ours)', () => {
    expect(record({ measures: [...plain, of('mix', '2026-03-02T04:00:00Z')] }).verdict).toBe('pass')
    expect(record({ measures: [...plain, of('mix', '2026-03-02T03:54:00Z')] }).because).toMatch(/mixed/)
  })
  it('a hanging on record hides no day since the stuffing', () => {
    const set = { measures: [...plain, of('stuff', '2026-03-01T12:00:00Z')] }
    expect(record({ ...set, placements: [hung('2026-03-02T08:00:00Z', 'ferment')] }).verdict).toBe('cannot-tell')
  })
  it('nothing recorded of its stuffing or hanging, or only of weeks later', () => {
    expect(record({ measures: plain }).because).toMatch(/nothing recorded/)
    expect(record({ measures: plain, placements: [hung('2026-03-05T08:00:00Z', 'dry')] }).because).toMatch(/nothing/)
  })
  it('kept cold in between, until it was hung', () => {
    const placements = [hung('2026-03-02T10:00:00Z', 'cold'), hung('2026-03-03T08:00:00Z', 'ferment')]
    const log = at('2026-03-03T08:30:00Z')
    const late = withPh(['2026-03-03T12:00:00Z', 5.5])
    expect(record({ ...late, placements }, log).verdict).toBe('pass')
    expect(record({ ...late, placements: placements.slice(0, 1) }, log).because).toMatch(/out of the cold/)
    const warm = [hung('2026-03-02T12:30:00Z', 'cold'), placements[1]!]
    expect(record({ ...late, placements: warm }, log).because).toMatch(/into a room 4\.5 h after it was stuffed/)
  })
  it('a cold room before the mixing, or between mixing and a stuffing that nobody saw the end of, is no keeping cold', () => {
    const log = at('2026-03-03T08:30:00Z')
    const hungAfter = (cold: string, stuffed: string) =>
      record(
        {
          ...withPh(['2026-03-03T12:00:00Z', 5.5]),
          measures: [...plain, of('mix', '2026-03-01T06:00:00Z'), of('stuff', stuffed)],
          placements: [hung(cold, 'cold'), hung('2026-03-03T08:00:00Z', 'ferment')],
        },
        log,
      )
    expect(hungAfter('2026-02-26T08:00:00Z', '2026-03-01T07:00:00Z').verdict).toBe('cannot-tell')
    expect(hungAfter('2026-03-01T08:00:00Z', '2026-03-02T08:00:00Z').because).toMatch(/24\.0 h after it was stuffed/)
    expect(hungAfter('2026-03-01T08:00:00Z', '2026-03-03T06:00:00Z').because).not.toMatch(/stuffed/)
  })
  it('a clock of unsaid zone counts against the log', () => {
    expect(record({}, at('2026-03-02T08:00:00Z', 'unsaid')).because).toMatch(/time zone/)
  })
  it('each of two loggers side by side', () => {
    const curve = slow().curves[0]!
    const curves = [curve, { ...curve, seq: 13 }, slow().curves[1]!]
    const beside = fermented(() => 30, { seq: 13, starts: { at: epoch('2026-03-02T20:00:00Z'), zone: 'said' } })
    expect(found('record.ferment', { curves }, [fermented(), beside, dried]).verdict).toBe('cannot-tell')
  })
})

describe('several channels of the air in one log', () => {
  const curve = {
    seq: 11,
    purpose: 'ferment' as const,
    channels: [
      { column: 'air', role: 'house', instrument: 'T1' },
      { column: 'top', role: 'house', instrument: 'T1' },
    ],
  }
  const two = (top: (hour: number) => number | null, air: (hour: number) => number | null = () => 17) =>
    judged({ curves: [curve, slow().curves[1]!] }, [fermented(air), fermented(top, { column: 'top' }), dried])
  const count = (j: ReturnType<typeof judged>) => j.findings.find((f) => f.rule === ca)

  it('where the warm one is missing for 20 h the cold one does not stand in', () => {
    expect(count(two(() => 30))?.verdict).toBe('pass')
    const j = two((h) => (h > 5 && h < 25 ? null : 30))
    expect(count(j)?.verdict).toBe('cannot-tell')
    expect(j.verdict).not.toBe('pass')
    expect(two((h) => (h > 5 ? null : 30)).verdict).not.toBe('pass')
  })
  it('one that has no reading at all is said, and leaves it open', () => {
    const j = two(() => null)
    expect(j.findings.find((f) => f.rule === 'record.ferment')?.because).toMatch(/channel top .* no reading/)
  })
  it('each read at every other row is joined as one log is: 28 h × (30 − 15.6) °C, by hand', () => {
    const even = (c: number) => (h: number) => (Number.isInteger(h) ? c : null)
    const odd = (c: number) => (h: number) => (Number.isInteger(h) && h > 0 ? null : c)
    expect(count(two(even(30), odd(17)))?.measured).toBeCloseTo(28 * 14.4, 6)
  })
})
