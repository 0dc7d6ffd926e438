import { expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeReworkUsed } from '../../src/batch/rework-limits.ts'
import type { WeighedLine } from '../../src/batch/weights.ts'

const line = { line: 'meat', material: 'pork-shoulder-trim', targetKg: 20 }
const facts = (own: BatchFacts['ownLimits']) =>
  ({
    on: '2026-11-25',
    jurisdictions: ['EU'],
    ownLimits: own,
    lots: [
      { lot: 'A', material: line.material, on: '2026-11-24' },
      { lot: 'RW', material: line.material, on: '2026-11-20', origin: { batch: 'B-0', allergens: [] } },
    ],
  }) as unknown as BatchFacts
const lines: readonly WeighedLine[] = [
  {
    line,
    kg: 20,
    parts: [
      { kg: 18, lot: 'A' },
      { kg: 2, lot: 'RW' },
    ],
  },
]

it('rework counts by what was weighed of lots that came out of a batch: 2 of 20 kg are 10 %, five days old', () => {
  expect(judgeReworkUsed(facts({ reworkMaxPct: 10, reworkMaxDays: 4 }), lines)).toMatchObject([
    { rule: 'rework.own-share', verdict: 'pass', measured: 10 },
    { rule: 'rework.own-age', verdict: 'fail', measured: 5 },
  ])
  expect(judgeReworkUsed(facts(undefined), lines)).toEqual([])
  const none = [{ ...lines[0]!, parts: [{ kg: 20, lot: 'A' }] }]
  expect(judgeReworkUsed(facts({ reworkMaxPct: 1 }), none)).toEqual([])
})
