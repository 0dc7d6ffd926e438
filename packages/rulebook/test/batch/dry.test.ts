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
