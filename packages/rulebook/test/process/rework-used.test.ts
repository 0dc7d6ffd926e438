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

it('a part split off rework, and a part of that part, is rework as old as the rework itself', () => {
  const base = facts({ reworkMaxPct: 5, reworkMaxDays: 4 })
  const split = {
    ...base,
    lots: [
      { lot: 'A', material: line.material, on: '2026-11-24', origin: { lot: 'WHOLE' } },
      { lot: 'RW-1a', material: line.material, on: '2026-11-25', origin: { lot: 'RW-1' } },
    ],
    ancestry: {
      lots: [
        { lot: 'RW-1', material: line.material, on: '2026-11-25', origin: { lot: 'RW' } },
        { lot: 'RW', material: line.material, on: '2026-11-20', origin: { batch: 'B-0', allergens: [] } },
        { lot: 'WHOLE', material: line.material, on: '2026-11-23' },
      ],
      batches: [],
    },
  }
  const parts = [
    { kg: 18, lot: 'A' },
    { kg: 2, lot: 'RW-1a' },
  ]
  expect(judgeReworkUsed(split, [{ ...lines[0]!, parts }])).toMatchObject([
    { rule: 'rework.own-share', verdict: 'fail', measured: 10 },
    {
      rule: 'rework.own-age',
      verdict: 'fail',
      measured: 5,
      because: expect.stringMatching(/^RW-1a \(of RW\) was taken on 2026-11-20/) as string,
    },
  ])
})

it('lots that name each other as their whole end the search, and are no rework', () => {
  const round = {
    ...facts({ reworkMaxPct: 5 }),
    lots: [
      { lot: 'A', material: line.material, on: '2026-11-24', origin: { lot: 'RW' } },
      { lot: 'RW', material: line.material, on: '2026-11-24', origin: { lot: 'A' } },
    ],
  }
  expect(judgeReworkUsed(round, lines)).toEqual([])
})
