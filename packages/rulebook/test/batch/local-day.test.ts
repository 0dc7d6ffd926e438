import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import { dayOf } from '../../src/batch/local-day.ts'
import type { BatchMeasure, InstrumentCheck } from '../../src/batch/slow-facts.ts'
import { air, checks, dried, fermented, measures, slow } from './slow-batch.ts'

const withoutMeter = (instrument: string) => checks.filter((c) => c.instrument !== instrument)
const set = (on: string): InstrumentCheck[] =>
  checks.filter((c) => c.instrument === 'PH' && c.on === '2026-03-02').map((c) => ({ ...c, on }))
const ph = (taken: string, value: number, step = 'ferment'): BatchMeasure => ({
  step,
  what: 'ph',
  value,
  taken,
  instrument: 'PH',
})
const end = measures.filter((m) => m.step === 'dry')
const judged = (days: readonly string[], reached: BatchMeasure, timeZone?: string, logs = air) =>
  judgeBatch(
    slow({
      ...(timeZone === undefined ? {} : { timeZone }),
      checks: [...withoutMeter('PH'), ...days.flatMap(set)],
      measures: [ph('2026-03-02T08:30:00Z', 5.8), reached, ...end],
    }),
    [],
    { air: logs },
  )
const counts = (...of: Parameters<typeof judged>) => judged(...of).ferment!.ph[1]!.counts
const degreeHours = (...of: Parameters<typeof judged>) =>
  judged(...of).findings.find((f) => f.rule === 'us.ferment.degree-hours')!

describe('the day of a reading is the day at the kitchen', () => {
  it('and a check of that day is the one of the morning before an evening in Chicago, not of the morning after', () => {
    const evening = ph('2026-03-04T01:00:00Z', 5.1)
    expect(dayOf({ timeZone: 'America/Chicago' }, evening.taken)).toBe('2026-03-03')
    expect(counts(['2026-03-03', '2026-03-25'], evening, 'America/Chicago')).toBe(true)
    expect(counts(['2026-03-04', '2026-03-25'], evening, 'America/Chicago')).toBe(false)
  })
  it('and the one of the same morning in Auckland, not of the day before', () => {
    const morning = ph('2026-03-02T20:00:00Z', 5.1)
    expect(dayOf({ timeZone: 'Pacific/Auckland' }, morning.taken)).toBe('2026-03-03')
    expect(counts(['2026-03-03', '2026-03-25'], morning, 'Pacific/Auckland')).toBe(true)
    expect(counts(['2026-03-02', '2026-03-25'], morning, 'Pacific/Auckland')).toBe(false)
  })
  it('for the water activity and the pH of the end as well', () => {
    const taken = '2026-03-24T20:00:00Z'
    const at = (timeZone?: string) =>
      judgeBatch(
        slow({
          ...(timeZone === undefined ? {} : { timeZone }),
          measures: measures.map((m) => (m.step === 'dry' && m.what !== 'weight' ? { ...m, taken } : m)),
        }),
        [],
        { air: [fermented(), { ...dried, readings: dried.readings.slice(0, 2 * 24 * 20) }] },
      ).findings.find((f) => f.rule === 'record.dry-end')?.verdict
    expect(at()).toBe('cannot-tell')
    expect(at('Pacific/Auckland')).toBe('pass')
  })
  it('without a zone it is the day in UTC', () => {
    expect(dayOf({}, '2026-03-04T01:00:00Z')).toBe('2026-03-04')
    expect(dayOf({}, '2026-03-04T01:00:00+05:00')).toBe('2026-03-03')
  })
})

describe('a pH that does not count', () => {
  it('is named as the reason, not the error of the meter', () => {
    // 44 h at 31.5 °C are over 1200 °F·h when counted to the end of the log, and 20 h are not.
    const hot = [fermented((h) => (h < 44 ? 31.5 : 20)), dried]
    const found = degreeHours(['2026-03-02', '2026-03-25'], ph('2026-03-03T04:00:00Z', 5.1), undefined, hot)
    expect(found.verdict).toBe('cannot-tell')
    expect(found.because).toMatch(/not calibrated against two buffers.*on 2026-03-03/)
    expect(found.because).not.toMatch(/the error of the pH meter allows/)
  })
})

describe('the standards a meter was set against lie about the reading (choices of ours)', () => {
  const meter = (...references: number[]): InstrumentCheck[] =>
    ['2026-03-02', '2026-03-03', '2026-03-25'].flatMap((on) =>
      references.map((reference) => ({ ...set(on)[0]!, reference })),
    )
  const target = (...references: number[]) =>
    judgeBatch(slow({ checks: [...withoutMeter('PH'), ...meter(...references)] }), [], { air }).findings.find(
      (f) => f.rule === 'record.ferment-ph',
    )!
  it('pH 5.1 between buffers 4.01 and 7, or no more than half a pH outside them', () => {
    expect(target(4.01, 7).verdict).toBe('pass')
    expect(target(3, 4.65).verdict).toBe('pass')
    expect(target(3, 4.55).verdict).toBe('cannot-tell')
    expect(target(1.68, 4.01)).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/pH 5\.1.*buffers of 1\.68 to 4\.01/),
    })
  })
  const aw = (...references: number[]) =>
    judgeBatch(
      slow({
        checks: [
          ...withoutMeter('AW'),
          ...references.map((reference) => ({ ...checks.find((c) => c.instrument === 'AW')!, reference })),
        ],
      }),
      [],
      { air },
    ).findings.find((f) => f.rule === 'record.dry-aw')!
  it('a water activity of 0.90 within 0.25 of a salt, or between two', () => {
    expect(aw(0.753).verdict).toBe('pass')
    expect(aw(0.113)).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/salt standard of 0\.113/),
    })
    expect(aw(0.6).verdict).toBe('cannot-tell')
    expect(aw(0.113, 0.973).verdict).toBe('pass')
  })
})

describe('analyses of the finished product', () => {
  const facts = (...more: BatchMeasure[]): Partial<BatchFacts> => ({
    recipeBody: { ...slow().recipeBody, dry: { lossPct: 35, targetMoistureToProtein: 1.6 } },
    measures: [...measures, ...more],
  })
  const mp = (value: number, taken = '2026-03-25T12:00:00Z'): BatchMeasure => ({
    step: 'dry',
    what: 'moisture-protein',
    value,
    taken,
  })
  const ratio = (...more: BatchMeasure[]) =>
    judgeBatch(slow(facts(...more)), [], { air }).findings.find((f) => f.rule === 'record.moisture-protein')!
  it('a ratio no sausage has is not counted', () => {
    for (const value of [0, 0.001, -1, 11]) expect(ratio(mp(value)).verdict, String(value)).toBe('cannot-tell')
    expect(ratio(mp(1.5)).verdict).toBe('pass')
  })
  it('of one sampling the worst counts', () => {
    expect(ratio(mp(2), mp(1.5, '2026-03-25T12:05:00Z')).verdict).toBe('fail')
    expect(ratio(mp(2, '2026-03-24T12:00:00Z'), mp(1.5)).verdict).toBe('pass')
  })
})
