import { describe, expect, it } from 'vitest'
import type { BatchFacts, BatchInstrument } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'

const scale: BatchInstrument = {
  instrument: 'S1',
  name: 'cure scale',
  readabilityG: 0.1,
  toleranceG: 0.1,
  standing: 'in-date',
}
const probe: BatchInstrument = { instrument: 'T1', name: 'probe logger', toleranceC: 0.5, standing: 'in-date' }
const inDoubt = { found: '2026-11-25', error: -2, unit: '°C', tolerance: 0.5, since: '2026-11-10' }
const lines = [
  { line: '1', material: 'pork-shoulder-trim', targetKg: 20, scale: 'S1', lot: 'L1' },
  { line: '2', material: 'salt', targetKg: 0.34, scale: 'S1' },
  { line: '3', material: 'curing-salt-6.25-nitrite', targetKg: 0.046, scale: 'S1' },
]
const batch = (change: Partial<BatchFacts> = {}): BatchFacts => ({
  batch: 'B1',
  on: '2026-11-20',
  meatKg: 20,
  jurisdictions: ['US'],
  recipeBody: {
    name: 'Smoked link',
    kind: 'cooked',
    smoked: true,
    readyToEat: true,
    meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
    additions: [
      { material: 'salt', pct: 1.7 },
      { material: 'curing-salt-6.25-nitrite', pct: 0.23 },
    ],
    casing: { calibreMm: 34 },
    cook: { targetCoreC: 71 },
  },
  lines,
  weighings: lines.map((l) => ({ line: l.line, kg: l.targetKg, instrument: 'S1' })),
  lots: [{ lot: 'L1', material: 'pork-shoulder-trim', on: '2026-11-18' }],
  instruments: [scale, probe],
  curves: [{ seq: 9, purpose: 'cook', channels: [{ column: 'core', role: 'core', instrument: 'T1' }] }],
  ...change,
})
/** Up to 75 °C in an hour, and held there. */
const log = Array.from({ length: 120 }, (_, minute) => ({ minute, coreC: Math.min(75, 10 + minute * 1.2) }))
const channels = [{ seq: 9, column: 'core', log }]
const verdicts = (facts: BatchFacts) => new Map(judgeBatch(facts, channels).findings.map((f) => [f.rule, f]))

describe('an instrument found wrong after the batch', () => {
  it('makes every finding that rests on it cannot-tell, and names instrument, error and last good check', () => {
    const before = verdicts(batch())
    const after = verdicts(batch({ instruments: [scale, { ...probe, inDoubt }] }))
    const cooked = [...before.values()].filter((f) => /salmonella/i.test(f.title) && f.verdict === 'pass')
    expect(cooked.length).toBeGreaterThan(0)
    for (const f of cooked) expect(after.get(f.rule)!.verdict, f.title).toBe('cannot-tell')
    expect(before.get('record.instrument-doubt')).toBeUndefined()
    expect(after.get('record.instrument-doubt')).toMatchObject({ verdict: 'cannot-tell', weight: 'limit' })
    expect(after.get('record.instrument-doubt')!.because).toMatch(
      /probe logger.*2 °C off on 2026-11-25.*last found good on 2026-11-10/,
    )
  })

  it('holds for the scale of a cure as well', () => {
    const nitrite = (facts: BatchFacts) =>
      judgeBatch(facts, channels).findings.find((f) => f.title.startsWith('Ingoing nitrite'))!.verdict
    expect(nitrite(batch())).toBe('pass')
    expect(nitrite(batch({ instruments: [{ ...scale, inDoubt: { ...inDoubt, unit: 'g' } }, probe] }))).toBe(
      'cannot-tell',
    )
  })
})

describe('rework weighed into a batch', () => {
  const withRework = (allergens?: readonly string[], materials?: readonly string[]) => {
    const lot = {
      lot: 'RW',
      material: 'pork-shoulder-trim',
      on: '2026-11-19',
      origin: { batch: 'B0', ...(allergens ? { allergens } : {}) },
    }
    const facts = batch()
    const batches = materials ? [{ batch: 'B0', on: '2026-11-19', kind: 'cooked' as const, lots: [], materials }] : []
    return verdicts({
      ...facts,
      lots: [...facts.lots, lot],
      ancestry: { lots: [], batches },
      weighings: [
        { line: '1', lot: 'L1', kg: 18, instrument: 'S1' },
        { line: '1', lot: 'RW', kg: 2, instrument: 'S1' },
        ...facts.weighings.slice(1),
      ],
    }).get('record.rework-allergens')
  }

  it('fails where it brings an allergen the batch has not, passes where it brings none, and cannot be told where its lines are unknown', () => {
    expect(withRework(['mustard'])).toMatchObject({
      verdict: 'fail',
      because: expect.stringContaining('mustard by RW (out of B0)') as string,
    })
    const plain = ['pork-shoulder-trim', 'salt']
    expect(withRework([], plain)).toMatchObject({ verdict: 'pass' })
    expect(withRework(undefined, plain)).toMatchObject({ verdict: 'pass' })
    for (const unknown of [withRework([]), withRework(), withRework([], []), withRework([], ['unheard-of-spice'])])
      expect(unknown).toMatchObject({ verdict: 'cannot-tell' })
    expect(verdicts(batch()).get('record.rework-allergens')).toBeUndefined()
  })

  it('has the allergens of what was weighed into its batch, whatever was typed with it: a list only adds', () => {
    for (const typed of [[], undefined, ['milk']])
      expect(withRework(typed, ['pork-shoulder-trim', 'mustard-seed'])).toMatchObject({
        verdict: 'fail',
        because: expect.stringContaining('mustard by RW (out of B0), from mustard-seed in B0') as string,
      })
    expect(withRework(['milk'], ['mustard-seed'])!.because).toMatch(/milk by RW.*mustard, which the entry of RW leaves/)
  })

  it('brings what the rework in its own batch brought, through a split, however far back', () => {
    const facts = batch()
    const one = { material: 'pork-shoulder-trim', on: '2026-11-19' }
    const found = verdicts({
      ...facts,
      lots: [...facts.lots, { ...one, lot: 'RW', origin: { batch: 'B0', allergens: [] } }],
      ancestry: {
        lots: [
          { ...one, lot: 'OLD-a', origin: { lot: 'OLD' } },
          { ...one, lot: 'OLD', origin: { batch: 'B00', allergens: [] } },
        ],
        batches: [
          { batch: 'B0', on: '2026-11-18', kind: 'cooked', lots: ['OLD-a'], materials: ['pork-shoulder-trim'] },
          { batch: 'B00', on: '2026-11-17', kind: 'fresh', lots: [], materials: ['mustard-seed'] },
        ],
      },
      weighings: [
        { line: '1', lot: 'L1', kg: 18, instrument: 'S1' },
        { line: '1', lot: 'RW', kg: 2, instrument: 'S1' },
        ...facts.weighings.slice(1),
      ],
    }).get('record.rework-allergens')
    expect(found).toMatchObject({
      verdict: 'fail',
      because: expect.stringContaining('mustard by RW (out of B0), from mustard-seed in B00') as string,
    })
  })

  it('brings its allergens by a part split off it too', () => {
    const facts = batch()
    const split = (allergens?: readonly string[]) =>
      verdicts({
        ...facts,
        lots: [...facts.lots, { lot: 'RW-a', material: 'pork-shoulder-trim', on: '2026-11-20', origin: { lot: 'RW' } }],
        ancestry: {
          lots: [
            {
              lot: 'RW',
              material: 'pork-shoulder-trim',
              on: '2026-11-19',
              origin: { batch: 'B0', ...(allergens ? { allergens } : {}) },
            },
          ],
          batches: [{ batch: 'B0', on: '2026-11-19', kind: 'cooked', lots: [], materials: ['salt'] }],
        },
        weighings: [
          { line: '1', lot: 'L1', kg: 18, instrument: 'S1' },
          { line: '1', lot: 'RW-a', kg: 2, instrument: 'S1' },
          ...facts.weighings.slice(1),
        ],
      }).get('record.rework-allergens')
    expect(split(['mustard'])).toMatchObject({
      verdict: 'fail',
      because: expect.stringContaining('mustard by RW-a (of RW, out of B0)') as string,
    })
    expect(split([])).toMatchObject({ verdict: 'pass' })
    expect(split()).toMatchObject({ verdict: 'pass' })
  })
})
