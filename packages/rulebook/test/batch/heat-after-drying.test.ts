import { describe, expect, it } from 'vitest'
import type { BatchFacts, CurveChannel } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import { air, checks, dried, epoch, fermented, measures, slow } from './slow-batch.ts'

const body = slow().recipeBody
/** A core that comes up to so many °C in two hours and is held there. */
const core = (begins: string | undefined, peak = 75, holdH = 2, zone: 'said' | 'unsaid' = 'said'): CurveChannel => ({
  seq: 13,
  column: 'core',
  log: Array.from({ length: 60 * (2 + holdH) + 1 }, (_, minute) => ({
    minute,
    coreC: Math.min(peak, 8 + ((peak - 8) * minute) / 120),
  })),
  ...(begins === undefined ? {} : { starts: { at: epoch(begins), zone } }),
})
const curves: BatchFacts['curves'] = [
  ...slow().curves,
  { seq: 13, purpose: 'cook', channels: [{ column: 'core', role: 'core', instrument: 'T1' }] },
]
const beef: Partial<BatchFacts> = {
  lines: slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'beef-trim-90-10' } : l)),
  lots: slow().lots.map((l) => (l.lot === 'L1' ? { ...l, material: 'beef-trim-90-10' } : l)),
}
/** All instruments checked late enough for a cook at the end of the month. */
const late = [...checks, { ...checks.find((c) => c.instrument === 'T1')!, on: '2026-03-20' }]
const judged = (cook: CurveChannel, change: Partial<BatchFacts> = {}) => {
  const starts = cook.starts ? [{ seq: 13, starts: cook.starts }] : []
  const { findings } = judgeBatch(slow({ ...beef, treatments: [], curves, checks: late, ...change }), [cook], {
    air,
    starts,
  })
  const of = (rule: string) => findings.find((f) => f.rule === rule)
  return {
    findings,
    shown: findings.filter((f) => f.rule.includes('lethality')),
    lethality: findings.filter((f) => f.rule.includes('lethality') && f.weight !== 'advice'),
    coli: of('us.ferment.e-coli')?.verdict,
    pork: of('process.raw-pork')?.verdict,
  }
}

describe('heat after drying proves nothing by the tables (FSIS-GD-2021-14, p. 46–47: do not dry before the moist cook)', () => {
  it('a cook between the souring and the drying counts', () => {
    const found = judged(core('2026-03-03T20:00:00Z'))
    expect([found.coli, found.pork]).toEqual(['pass', 'pass'])
    expect(found.lethality.some((f) => f.verdict === 'pass')).toBe(true)
  })
  it('a cook after the log of the drying began does not, nor one of which nobody knows', () => {
    for (const begins of ['2026-03-21T08:00:00Z', '2026-03-05T08:00:00Z', undefined]) {
      const found = judged(core(begins))
      expect([found.coli, found.pork], begins).toEqual(['cannot-tell', 'cannot-tell'])
      expect(found.lethality.some((f) => f.verdict === 'pass')).toBe(false)
      expect(found.shown.find((f) => /tables are made for/.test(f.because))).toMatchObject({
        verdict: 'cannot-tell',
        because: expect.stringMatching(begins ? /after the drying/ : /nothing says whether/),
        settle: expect.stringMatching(/0\.96/),
      })
    }
  })
  it('a clock without a zone leaves it open where a zone could turn the order', () => {
    expect(judged(core('2026-03-03T20:00:00Z', 75, 2, 'unsaid')).pork).toBe('pass')
    expect(judged(core('2026-03-04T00:00:00Z', 75, 2, 'unsaid')).pork).toBe('cannot-tell')
  })
  it('a water activity below 0.96 or a tenth of the weight gone before the cook says that it had dried', () => {
    const noRoom = { curves: [slow().curves[0]!, curves[2]!] }
    const aw = (value: number, taken = '2026-03-20T12:00:00Z') => ({
      measures: [
        ...measures.filter((m) => m.what === 'ph' && m.step === 'ferment'),
        { step: 'dry', what: 'aw' as const, value, taken, instrument: 'AW' },
      ],
      checks: [...late, { ...checks.find((c) => c.instrument === 'AW')!, on: taken.slice(0, 10) }],
    })
    const at = core('2026-03-21T08:00:00Z')
    expect(judged(at, { ...noRoom, ...aw(0.895) }).pork).toBe('cannot-tell')
    expect(judged(at, { ...noRoom, ...aw(0.97) }).pork).toBe('pass')
    const weighed = (g: number) => ({
      measures: [
        ...measures.filter((m) => m.what === 'ph' && m.step === 'ferment'),
        ...[500, g].map((value, i) => ({
          step: 'dry',
          what: 'weight' as const,
          unit: 'g',
          piece: 'P1',
          value,
          taken: i === 0 ? '2026-03-02T08:00:00Z' : '2026-03-20T12:00:00Z',
          instrument: 'S2',
        })),
      ],
    })
    expect(judged(at, { ...noRoom, ...weighed(440) }).pork).toBe('cannot-tell')
    expect(judged(at, { ...noRoom, ...weighed(460) }).pork).toBe('pass')
  })
  it('a water activity of 0.96 or more by a checked meter within a day before the cook shows that it had not', () => {
    const moist = (taken: string) => ({
      measures: [...measures, { step: 'dry', what: 'aw' as const, value: 0.97, taken, instrument: 'AW' }],
      checks: [...late, { ...checks.find((c) => c.instrument === 'AW')!, on: taken.slice(0, 10) }],
    })
    expect(judged(core('2026-03-06T08:00:00Z'), moist('2026-03-05T20:00:00Z')).pork).toBe('pass')
    expect(judged(core('2026-03-06T08:00:00Z'), moist('2026-03-04T20:00:00Z')).pork).toBe('cannot-tell')
  })
})

describe('a product that is only cooked', () => {
  it('is not asked whether it dried before: its undated log counts, whatever its pieces lost and its water activity is', () => {
    const { ferment: _ferment, dry: _dry, ...only } = body
    const { lethality } = judged(core(undefined), {
      recipeBody: { ...only, kind: 'cooked' },
      curves: [curves[2]!],
      measures: measures.filter((m) => m.what === 'weight' || m.what === 'aw'),
    })
    expect(lethality.some((f) => f.verdict === 'pass')).toBe(true)
  })
})

describe('a published combination is followed without a drying in between (Hinkens et al. 1996: 36 °C to pH 5.0, then heat)', () => {
  const warm = fermented((h) => (h <= 28 ? 36.5 : 20))
  const ph49 = measures.map((m) => (m.what === 'ph' && m.value === 5.1 ? { ...m, value: 4.9 } : m))
  const asked = (begins: string) => {
    const cook = core(begins, 54, 1.4)
    const { findings } = judgeBatch(
      slow({ ...beef, jurisdictions: ['CA'], curves, checks: late, measures: ph49 }),
      [cook],
      { air: [warm, dried], starts: [{ seq: 13, starts: cook.starts! }] },
    )
    return findings.find((f) => f.rule === 'ca.ferment.e-coli')
  }
  it('heat on the evening of the souring counts, heat after seventeen days of drying does not', () => {
    expect(asked('2026-03-03T20:00:00Z')?.verdict).toBe('pass')
    expect(asked('2026-03-21T08:00:00Z')?.verdict).toBe('cannot-tell')
  })
})

describe('a warm smoke logged as a cook', () => {
  const smoke = { recipeBody: body, curves, treatments: slow().treatments!, lines: slow().lines, lots: slow().lots }
  it('of a recipe that cooks nothing is shown and stops nothing', () => {
    const { findings, lethality } = judged(core('2026-03-04T02:00:00Z', 45, 1), smoke)
    expect(lethality.filter((f) => f.verdict !== 'pass')).toEqual([])
    const shown = findings.find((f) => f.rule.includes('lethality'))
    expect(shown).toMatchObject({ weight: 'advice', settle: expect.stringMatching(/warm smoke.*purpose/) })
  })
  it('of a recipe that cooks stops the batch', () => {
    const cook = { targetCoreC: 70, stages: [] } as unknown as NonNullable<typeof body.cook>
    const { lethality } = judged(core('2026-03-04T02:00:00Z', 45, 1), { ...smoke, recipeBody: { ...body, cook } })
    expect(lethality.some((f) => f.verdict === 'fail')).toBe(true)
  })
})
