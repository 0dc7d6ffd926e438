import { describe, expect, it } from 'vitest'
import type { CurveChannel } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import { air, epoch, measures, slow } from './slow-batch.ts'

/** A core coming up to 75 °C in an hour and kept there for another. */
const cook = (begins?: string): CurveChannel => ({
  seq: 13,
  column: 'core',
  log: Array.from({ length: 121 }, (_, minute) => ({ minute, coreC: Math.min(75, 20 + minute) })),
  ...(begins === undefined ? {} : { starts: { at: epoch(begins), zone: 'unsaid' as const } }),
})
const curves = [
  slow().curves[0]!,
  { seq: 13, purpose: 'cook' as const, channels: [{ column: 'core', role: 'core', instrument: 'T1' }] },
]
/** Nothing of its drying is recorded yet: whether the heat came before it is asked elsewhere. */
const ph = measures.filter((m) => m.what === 'ph' && m.step === 'ferment')
const meat = (begins?: string, kind: 'fermented' | 'cooked' = 'fermented') => {
  const { recipeBody, ...rest } = slow({ curves, treatments: [], measures: ph })
  const { findings } = judgeBatch({ ...rest, recipeBody: { ...recipeBody, kind } }, [cook(begins)], {
    air: air.slice(0, 1),
  })
  const of = (rule: RegExp) => findings.filter((f) => rule.test(f.rule))
  return {
    pork: of(/^process\.raw-pork$/)[0],
    lethality: of(/lethality/).filter((f) => f.weight !== 'advice'),
    dates: of(/^record\.curve-dates$/)[0],
  }
}

describe('a cook log of another time (a choice of ours: a slow batch may be cooked up to sixty days on)', () => {
  it('answers for the meat where it is of the batch’s days, or bears no date', () => {
    for (const begins of [undefined, '2026-03-02T10:00:00Z', '2026-03-05T10:00:00Z', '2026-03-20T10:00:00Z']) {
      expect(meat(begins).pork?.verdict, begins).toBe('pass')
      expect(meat(begins).dates).toBeUndefined()
    }
  })
  it('answers for nothing where it began before the batch was made, or months after', () => {
    for (const begins of ['2026-02-21T10:00:00Z', '2025-12-02T10:00:00Z', '2026-06-02T10:00:00Z']) {
      const found = meat(begins)
      expect(found.pork?.verdict, begins).toBe('cannot-tell')
      expect(found.lethality.some((f) => f.verdict === 'pass')).toBe(false)
      expect(found.dates?.because).toMatch(/the file's own dates are not the batch's/)
    }
  })
})

describe('a cook log of another time of a batch that is only cooked (a choice of ours: two days before and after its own)', () => {
  const { recipeBody, ...rest } = slow({ curves: curves.slice(-1), treatments: [], measures: [] })
  const { ferment: _ferment, dry: _dry, ...body } = recipeBody
  const cooked = (begins?: string) =>
    judgeBatch(
      { ...rest, recipeBody: { ...body, kind: 'cooked' }, curves: [{ ...curves.at(-1)!, purpose: 'cook-and-chill' }] },
      [cook(begins)],
    )
  const held = (begins?: string) =>
    cooked(begins).findings.filter((f) => /lethality/.test(f.rule) && f.weight !== 'advice')

  it('answers for the cook where it is of those days, or bears no date', () => {
    for (const begins of [undefined, '2026-03-01T10:00:00Z', '2026-03-02T10:00:00Z', '2026-03-04T10:00:00Z'])
      expect(
        held(begins).some((f) => f.verdict === 'pass'),
        begins,
      ).toBe(true)
  })
  it('answers for nothing on other days, and says what would settle it', () => {
    for (const begins of ['2026-02-25T10:00:00Z', '2026-03-12T10:00:00Z', '2025-03-02T10:00:00Z']) {
      const found = held(begins)
      expect(found.length, begins).toBeGreaterThan(0)
      expect(
        found.every((f) => f.verdict !== 'pass'),
        begins,
      ).toBe(true)
      const open = found.find((f) => f.because.includes("the file's own dates are not the batch's"))
      expect(open).toMatchObject({ verdict: 'cannot-tell', settle: expect.stringMatching(/log of this batch.*clock/) })
      expect(cooked(begins).verdict).not.toBe('pass')
    }
  })
})
