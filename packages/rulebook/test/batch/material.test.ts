import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'

const lines = [
  { line: 'meat', material: 'pork-shoulder-trim', lot: 'PS-1', targetKg: 10 },
  { line: 'spice', material: 'black-pepper', targetKg: 0.03 },
]
const weighed = (spiceLot: string, meatLots: readonly [string, number][] = [['PS-1', 10]]): BatchFacts => ({
  batch: 'B1',
  on: '2026-11-20',
  meatKg: 10,
  jurisdictions: ['US'],
  recipeBody: {
    name: 'Link',
    kind: 'fresh',
    smoked: false,
    readyToEat: false,
    meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
    additions: [{ material: 'black-pepper', pct: 0.3 }],
  },
  lines,
  weighings: [...meatLots.map(([lot, kg]) => ({ line: 'meat', lot, kg })), { line: 'spice', lot: spiceLot, kg: 0.03 }],
  lots: [
    { lot: 'PS-1', material: 'pork-shoulder-trim', on: '2026-11-18' },
    { lot: 'BF-1', material: 'beef-trim-90-10', on: '2026-11-18' },
    { lot: 'BP-1', material: 'black-pepper', on: '2026-11-18' },
    { lot: 'MU-1', material: 'mustard-seed', on: '2026-11-18' },
  ],
  instruments: [],
  curves: [],
})
const finding = (facts: BatchFacts) => judgeBatch(facts).findings.find((f) => f.rule === 'record.material')

describe('a lot of another material than its line asks for', () => {
  it('is judged as what it is, and said', () => {
    expect(finding(weighed('BP-1'))).toBeUndefined()
    expect(finding(weighed('MU-1'))).toMatchObject({ verdict: 'fail', weight: 'advice' })
    expect(finding(weighed('MU-1'))?.because).toContain('MU-1 is mustard-seed')
    expect(judgeBatch(weighed('MU-1')).computed.lines.map((l) => l.material)).toContain('mustard-seed')
  })

  it('counts its species: beef weighed on a line of pork is beef', () => {
    const { computed } = judgeBatch(
      weighed('BP-1', [
        ['PS-1', 6],
        ['BF-1', 4],
      ]),
    )
    expect(computed.facts).toMatchObject({ 'species:pork': true, 'species:beef': true })
    expect(computed.totals.totalKg).toBeCloseTo(10.03, 9)
  })
})
