import { describe, expect, it } from 'vitest'
import type { BatchMeasure } from '../../src/batch/slow-facts.ts'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'

const rule = 'us.424.21.nitrite.finished'
const scale = {
  instrument: 'S2',
  name: 'cure scale',
  readabilityG: 0.1,
  toleranceG: 0.1,
  standing: 'in-date',
} as const
const lines = [
  { line: 'lean', material: 'pork-leg-lean', targetKg: 20, scale: 'S2' },
  { line: 'cure', material: 'curing-salt-6.25-nitrite-4-nitrate', targetKg: 0.048, scale: 'S2' },
]
const dried = (measures: readonly BatchMeasure[]): BatchFacts => ({
  batch: 'B1',
  on: '2026-11-20',
  meatKg: 20,
  jurisdictions: ['US'],
  recipeBody: {
    name: 'Slow sausage',
    kind: 'dried',
    smoked: false,
    readyToEat: true,
    meat: [{ material: 'pork-leg-lean', pct: 100 }],
    additions: [{ material: 'curing-salt-6.25-nitrite-4-nitrate', pct: 0.24 }],
    dry: { lossPct: 35 },
  },
  lines,
  weighings: lines.map((l) => ({ line: l.line, kg: l.targetKg, instrument: l.scale })),
  lots: [],
  instruments: [scale],
  curves: [],
  measures,
})
const nitrite = (value: number): BatchMeasure => ({
  step: 'dry',
  what: 'nitrite',
  value,
  unit: 'mg/kg',
  taken: '2026-12-20T10:00:00Z',
})
const found = (measures: readonly BatchMeasure[]) => judgeBatch(dried(measures)).findings.find((f) => f.rule === rule)

// 9 CFR 424.21(c): at most 200 ppm of nitrite, as sodium nitrite, in the finished product.
describe('nitrite analysed in the finished product', () => {
  it('settles what the ingoing cure alone cannot: what may be left lies on both sides of 200 mg/kg', () => {
    expect(found([])).toMatchObject({ verdict: 'cannot-tell' })
    expect(found([nitrite(38)])).toMatchObject({ verdict: 'pass', measured: 38, limit: 200 })
  })

  it('passes at 200 mg/kg and fails above it', () => {
    expect(found([nitrite(200)])?.verdict).toBe('pass')
    expect(found([nitrite(200.1)])?.verdict).toBe('fail')
  })

  it('counts the highest of several analyses', () => {
    expect(found([nitrite(240), nitrite(90)])).toMatchObject({ verdict: 'fail', measured: 240 })
  })

  it('counts the finished product alone, and no residue below nothing', () => {
    const raw = (value: number, step: string): BatchMeasure => ({
      ...nitrite(value),
      step,
      taken: '2026-11-20T06:00:00Z',
    })
    for (const early of [raw(0, 'grind'), raw(-5, 'grind'), raw(10, 'receive'), raw(10, 'dry'), nitrite(-5)])
      expect(found([early])?.verdict, `${early.step} ${early.value}`).toBe('cannot-tell')
    expect(found([raw(0, 'grind'), nitrite(240)])?.verdict).toBe('fail')
  })

  it('of a cooked product on the day it was made, after the cook', () => {
    const on = (step: string): BatchMeasure => ({ ...nitrite(38), step, taken: '2026-11-20T18:00:00Z' })
    const { dry: _dry, ...recipeBody } = dried([]).recipeBody
    const cooked = (m: BatchMeasure) =>
      judgeBatch({ ...dried([m]), recipeBody: { ...recipeBody, kind: 'cooked' } }).findings.find((f) => f.rule === rule)
    expect(cooked(on('pack'))).toMatchObject({ verdict: 'pass', measured: 38 })
    expect(cooked(on('mix'))?.verdict).toBe('cannot-tell')
  })
})
