import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { BatchMeasure } from '../../src/batch/slow-facts.ts'
import { air, checks, instruments, measures, slow } from './slow-batch.ts'

const judged = (change: Partial<BatchFacts> = {}) => judgeBatch(slow(change), [], { air })
const found = (rule: string, change: Partial<BatchFacts> = {}) => judged(change).findings.find((f) => f.rule === rule)!
const swap = (
  what: BatchMeasure['what'],
  to: Partial<BatchMeasure> | undefined,
  step?: string,
): readonly BatchMeasure[] =>
  measures.flatMap((m) =>
    m.what !== what || (step && m.step !== step) ? [m] : to === undefined ? [] : [{ ...m, ...to }],
  )

describe('the end of drying: a measured water activity and pH in the published classes (Leistner & Rödel, as quoted)', () => {
  it('pH 5.15 and water activity 0.90 are shelf stable', () => {
    const { dry } = judged()
    expect(dry?.class).toBe('shelf-stable')
    expect(found('record.dry-end').verdict).toBe('pass')
  })

  it.each([
    // pH at most 5.2 and water activity at most 0.95 together: shelf stable; either alone: perishable; neither: very perishable.
    [5.15, 0.944, 'shelf-stable'],
    [5.15, 0.946, 'cannot-tell'],
    [5.15, 0.97, 'perishable'],
    [5.4, 0.944, 'perishable'],
    [5.4, 0.97, 'very-perishable'],
  ])('pH %d and water activity %d within ± 0.02 and ± 0.005: %s', (ph, aw, expected) => {
    const set = measures.map((m) =>
      m.what === 'aw' ? { ...m, value: aw } : m.what === 'ph' && m.step === 'dry' ? { ...m, value: ph } : m,
    )
    expect(judged({ measures: set }).dry?.class).toBe(expected)
    expect(found('record.dry-end', { measures: set }).verdict).toBe(
      expected === 'shelf-stable' || expected === 'perishable' ? 'pass' : 'cannot-tell',
    )
  })

  it('a water activity meter never checked, or checked another day, leaves it open', () => {
    const without = checks.filter((c) => c.instrument !== 'AW')
    const before = checks.map((c) => (c.instrument === 'AW' ? { ...c, on: '2026-03-24' } : c))
    for (const change of [without, before]) {
      expect(found('record.dry-aw', { checks: change }).verdict).toBe('cannot-tell')
      expect(judged({ checks: change }).verdict).not.toBe('pass')
      expect(judged({ checks: change }).dry?.class).not.toBe('shelf-stable')
    }
  })

  it('no water activity, and no pH either: cannot be released', () => {
    const none = measures.filter((m) => m.what !== 'aw')
    expect(found('record.dry-aw', { measures: none }).verdict).toBe('cannot-tell')
    expect(judged({ measures: none }).verdict).not.toBe('pass')
    const neither = none.filter((m) => m.what !== 'ph')
    expect(found('record.dry-end', { measures: neither }).settle).toMatch(/measure water activity and pH/)
  })

  it('a pH measured before the drying says nothing of the end', () => {
    const before = measures.filter((m) => !(m.what === 'ph' && m.step === 'dry'))
    expect(judged({ measures: before }).dry?.measures.ph?.unproven).toMatch(/before the drying/)
    expect(
      judged({ measures: swap('aw', { value: 0.94 }).filter((m) => !(m.what === 'ph' && m.step === 'dry')) }).dry
        ?.class,
    ).toBe('cannot-tell')
  })

  it('of the samples of a day the highest stands', () => {
    const two = [...measures, { ...measures.find((m) => m.what === 'aw')!, value: 0.955 }]
    expect(judged({ measures: two }).dry?.measures.aw?.value).toBe(0.955)
  })

  it("the recipe's own water activity: met, within the meter's error, missed", () => {
    expect(found('record.dry-aw').verdict).toBe('pass')
    expect(found('record.dry-aw', { measures: swap('aw', { value: 0.905 }) }).verdict).toBe('pass')
    expect(found('record.dry-aw', { measures: swap('aw', { value: 0.906 }) }).verdict).toBe('cannot-tell')
    expect(found('record.dry-aw', { measures: swap('aw', { value: 0.92 }) }).verdict).toBe('fail')
  })
})

describe('loss of the marked pieces', () => {
  it('36, 36.2 and 36.4 % lost: mean 36.2, spread 0.2 (by hand)', () => {
    const { loss } = judged().dry!
    expect(loss.meanPct).toBeCloseTo(36.2, 9)
    expect(loss.sdPct).toBeCloseTo(0.2, 9)
    // t(2) 4.303 × 0.2 / √3 + (0.15 + 0.15) / 500 × 100
    expect(loss.highPct! - loss.meanPct!).toBeCloseTo((4.303 * 0.2) / Math.sqrt(3) + 0.06, 6)
    expect(found('record.dry-loss').verdict).toBe('pass')
  })

  it('is advice: it never releases a batch, and never stops one that a water activity ended', () => {
    expect(found('record.dry-loss').weight).toBe('advice')
    const recipeBody = { ...slow().recipeBody, dry: { lossPct: 40, targetAw: 0.91 } }
    expect(found('record.dry-loss', { recipeBody }).verdict).toBe('fail')
  })

  it('cannot be told on a scale out of date, of one piece, or of none', () => {
    const old = checks.map((c) => (c.instrument === 'S2' ? { ...c, on: '2026-01-01' } : c))
    expect(found('record.dry-loss', { checks: old }).verdict).toBe('cannot-tell')
    expect(found('record.dry-loss', { checks: old }).because).toMatch(/past its check/)
    const one = measures.filter((m) => m.what !== 'weight' || m.piece === 'P1')
    expect(found('record.dry-loss', { measures: one }).because).toMatch(/one piece/)
    expect(found('record.dry-loss', { measures: measures.filter((m) => m.what !== 'weight') }).verdict).toBe(
      'cannot-tell',
    )
  })

  it('a scale that fell out of date between the two weighings does not count for the second', () => {
    const short = instruments.map((i) => (i.instrument === 'S2' ? { ...i, checkEveryDays: 10 } : i))
    expect(found('record.dry-loss', { instruments: short }).because).toMatch(/2026-03-25/)
  })
})

describe('weights of the pieces in other units', () => {
  const g = (unit: string | undefined, each: number, from = '2026-03-25') =>
    measures.map((m) => {
      if (m.what !== 'weight' || m.taken < from) return m
      const { unit: _unit, ...rest } = m
      return { ...rest, value: m.value! / each, ...(unit === undefined ? {} : { unit }) }
    })
  it.each([
    // International avoirdupois pound of 1959: 453.59237 g exactly, an ounce a sixteenth of it.
    ['oz', 28.349523125],
    ['lb', 453.59237],
    ['kg', 1000],
  ])('%s is %d g', (unit, each) => {
    const { loss } = judged({ measures: g(unit, each) }).dry!
    expect(loss.meanPct).toBeCloseTo(36.2, 9)
    expect(loss.pieces[0]!.lastG).toBeCloseTo(320, 9)
  })
  it('one of no unit or of a strange one cannot be told', () => {
    for (const unit of ['stone', undefined])
      expect(found('record.dry-loss', { measures: g(unit, 1) }).verdict).toBe('cannot-tell')
    const one = measures.map((m) => (m.piece === 'P2' && m.taken > '2026-03-25' ? { ...m, unit: 'stone' } : m))
    expect(found('record.dry-loss', { measures: one }).because).toMatch(/P2 .*"stone"/)
  })
})

describe('a measure of the end is one of the finished product', () => {
  const meters = [
    ...checks,
    ...(['AW', 'PH'] as const).flatMap((i) =>
      ['2026-02-20', '2026-03-02', '2026-03-03', '2026-03-04', '2026-03-23'].map((on) => ({
        ...checks.find((c) => c.instrument === i && c.on === '2026-03-25')!,
        on,
      })),
    ),
  ]
  const aw = (over: Partial<BatchMeasure>) => ({ checks: meters, measures: swap('aw', over) })
  const none = (over: Partial<BatchMeasure>, change: Partial<BatchFacts> = {}, logs = air) =>
    judgeBatch(slow({ ...aw(over), ...change }), [], { air: logs }).findings.find((f) => f.rule === 'record.dry-aw')!

  it('not one dated before the batch, or on its day', () => {
    expect(none({ taken: '2026-02-20T12:00:00Z' }).because).toMatch(/before the batch was made/)
    expect(none({ taken: '2026-03-02T12:00:00Z' }).verdict).toBe('cannot-tell')
    expect(judged(aw({ taken: '2026-02-20T12:00:00Z' })).verdict).not.toBe('pass')
  })
  it('not one of the mix or of the stuffing, however late it is dated', () => {
    for (const step of ['mix', 'stuff', 'ferment']) expect(none({ step }).verdict).toBe('cannot-tell')
  })
  it('not one more than a day before the last weighing, or before the log of the drying ends', () => {
    expect(none({ taken: '2026-03-23T12:00:00Z' }).because).toMatch(/weighed on/)
    const unweighed = { measures: swap('aw', { taken: '2026-03-23T12:00:00Z' }).filter((m) => m.what !== 'weight') }
    expect(none({}, unweighed).because).toMatch(/log of the drying/)
    expect(none({}, unweighed, air.slice(0, 1)).verdict).toBe('pass')
  })
  it('a pH called one of the drying minutes after that of the souring is not the end', () => {
    const soon = measures
      .filter((m) => m.what !== 'weight')
      .map((m) => (m.what === 'ph' && m.step === 'dry' ? { ...m, taken: '2026-03-03T12:30:00Z' } : m))
    const { dry } = judgeBatch(slow({ checks: meters, measures: soon }), [], { air: air.slice(0, 1) })
    expect(dry?.measures.ph?.unproven).toMatch(/within a day/)
  })
  it('an early one beside one of the end changes nothing', () => {
    const wet = { ...measures.find((m) => m.what === 'aw')!, value: 0.97, taken: '2026-03-04T12:00:00Z' }
    expect(found('record.dry-aw', { checks: meters, measures: [...measures, wet] }).verdict).toBe('pass')
  })
  it('an analysis of moisture to protein dated before the batch is none of it', () => {
    const recipeBody = { ...slow().recipeBody, dry: { lossPct: 35, targetMoistureToProtein: 1.9 } }
    const old = { step: 'dry', what: 'moisture-protein' as const, value: 1.5, taken: '2026-02-20T12:00:00Z' }
    expect(found('record.moisture-protein', { recipeBody, measures: [...measures, old] }).verdict).toBe('cannot-tell')
  })
})

describe('moisture to protein', () => {
  const recipeBody = { ...slow().recipeBody, dry: { lossPct: 35, targetMoistureToProtein: 1.9 } }
  it('computed from the composition and the loss it decides nothing; analysed it does', () => {
    const computed = found('record.moisture-protein', { recipeBody })
    expect(computed.verdict).toBe('cannot-tell')
    expect(computed.because).toMatch(/about \d/)
    const lab = (value: number): BatchMeasure => ({
      step: 'dry',
      what: 'moisture-protein',
      value,
      taken: '2026-03-26T09:00:00Z',
    })
    expect(found('record.moisture-protein', { recipeBody, measures: [...measures, lab(1.9)] }).verdict).toBe('pass')
    expect(found('record.moisture-protein', { recipeBody, measures: [...measures, lab(1.91)] }).verdict).toBe('fail')
  })
})
