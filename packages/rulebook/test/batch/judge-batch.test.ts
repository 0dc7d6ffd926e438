import type { Reading } from '@forcemeat/craft/heat/reading'
import { describe, expect, it } from 'vitest'
import type { BatchFacts, BatchInstrument } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'

const bench: BatchInstrument = {
  instrument: 'S1',
  name: 'floor scale',
  readabilityG: 5,
  toleranceG: 5,
  standing: 'in-date',
}
const fine: BatchInstrument = {
  instrument: 'S2',
  name: 'cure scale',
  readabilityG: 0.1,
  toleranceG: 0.1,
  standing: 'in-date',
}
const probe: BatchInstrument = { instrument: 'T1', name: 'probe logger', toleranceC: 0.5, standing: 'in-date' }

const line = (name: string, material: string, targetKg: number, scale: string, lot?: string) => ({
  line: name,
  material,
  targetKg,
  scale,
  ...(lot ? { lot } : {}),
})
const lines = [
  line('1', 'pork-shoulder-trim', 14, 'S1', 'L1'),
  line('2', 'pork-back-fat', 6, 'S1', 'L2'),
  line('3', 'ice', 2, 'S1'),
  line('4', 'salt', 0.34, 'S2'),
  line('5', 'curing-salt-6.25-nitrite', 0.046, 'S2'),
]

const batch = (change: Partial<BatchFacts> = {}): BatchFacts => ({
  batch: 'B1',
  on: '2026-11-20',
  meatKg: 20,
  jurisdictions: ['US'],
  recipeBody: {
    name: 'Smoked ring',
    kind: 'cooked',
    smoked: true,
    readyToEat: true,
    meat: [
      { material: 'pork-shoulder-trim', pct: 70 },
      { material: 'pork-back-fat', pct: 30 },
    ],
    additions: [
      { material: 'ice', pct: 10 },
      { material: 'salt', pct: 1.7 },
      { material: 'curing-salt-6.25-nitrite', pct: 0.23 },
    ],
    casing: { calibreMm: 34 },
    cook: { targetCoreC: 70, lossPct: 10 },
  },
  lines,
  weighings: lines.map((l) => ({ line: l.line, kg: l.targetKg, instrument: l.scale })),
  lots: [
    { lot: 'L1', material: 'pork-shoulder-trim', on: '2026-11-18', useBy: '2026-11-24' },
    { lot: 'L2', material: 'pork-back-fat', on: '2026-11-18', useBy: '2026-11-28' },
  ],
  instruments: [bench, fine, probe],
  curves: [{ seq: 9, purpose: 'cook-and-chill', channels: [{ column: 'core', role: 'core', instrument: 'T1' }] }],
  ...change,
})

/** Straight stretches between (minute, °C) corners, a reading a minute. */
const drawn = (corners: readonly (readonly [number, number])[]): Reading[] =>
  Array.from({ length: corners.at(-1)![0] + 1 }, (_, minute) => {
    const next = corners.findIndex(([m]) => m >= minute)
    const [m1, c1] = corners[next]!
    const [m0, c0] = corners[Math.max(0, next - 1)]!
    return { minute, coreC: m1 === m0 ? c1 : c0 + ((minute - m0) / (m1 - m0)) * (c1 - c0) }
  })

const good = drawn([
  [0, 8],
  [150, 71.5],
  [165, 72],
  [235, 25],
  [420, 3],
])
const slow = drawn([
  [0, 8],
  [150, 71.5],
  [165, 72],
  [700, 25],
  [1500, 3],
])
const judged = (facts: BatchFacts, log = good) => judgeBatch(facts, [{ seq: 9, column: 'core', log }])
const verdict = (facts: BatchFacts, rule: RegExp, log = good) =>
  judged(facts, log)
    .findings.filter((f) => rule.test(f.rule))
    .map((f) => f.verdict)
const cure = /^us\.424\.21\.nitrite\.comminuted$/

describe('judgeBatch', () => {
  it('keeps the mass of the batch: lines add up to the total', () => {
    const { computed } = judged(batch())
    expect(computed.totals.totalKg).toBeCloseTo(22.386, 9)
    expect(computed.lines.reduce((s, l) => s + l.kg, 0)).toBeCloseTo(computed.totals.totalKg, 9)
  })

  it('gives ingoing nitrite with the interval of its scales: 143.75 mg/kg for 46 g of 6.25 % in 20 kg (9 CFR 424.21(c) arithmetic)', () => {
    const m = judged(batch()).measures['nitritePpm']
    expect(m && 'value' in m && m.value).toBeCloseTo(143.75, 6)
    expect(m && 'value' in m && m.low! < 143.75 && m.high! > 143.75 && m.high! - m.low! < 2).toBe(true)
  })

  it('passes lethality and stabilization of a good log, and never stabilization of a slow chill', () => {
    expect(verdict(batch(), /lethality\.meat/)).toEqual(['pass'])
    expect(verdict(batch(), /stabilization/)).toEqual(['pass'])
    expect(verdict(batch(), /stabilization/, slow)).not.toContain('pass')
  })

  it('cannot tell a cure weighed on a scale past its check, never checked, or not named', () => {
    expect(verdict(batch(), cure)).toContain('pass')
    for (const standing of ['overdue', 'never-checked', 'out-of-tolerance'] as const)
      expect(verdict(batch({ instruments: [bench, { ...fine, standing }, probe] }), cure)).toEqual(['cannot-tell'])
    const unnamed = lines.map(({ line: name, material, targetKg, lot }) => ({
      line: name,
      material,
      targetKg,
      ...(lot ? { lot } : {}),
    }))
    expect(
      verdict(batch({ lines: unnamed, weighings: unnamed.map((l) => ({ line: l.line, kg: l.targetKg })) }), cure),
    ).toEqual(['cannot-tell'])
  })

  it('fails a cure weighed over the limit', () => {
    const over = lines.map((l) => ({ line: l.line, kg: l.line === '5' ? 0.06 : l.targetKg, instrument: l.scale }))
    expect(verdict(batch({ weighings: over }), cure)).toEqual(['fail'])
  })

  it('passes nothing of the recipe before it is weighed', () => {
    const planned = judged(batch({ weighings: [] }))
    expect(planned.verdict).not.toBe('pass')
    expect(planned.findings.filter((f) => f.rule.startsWith('us.424') && f.verdict === 'pass')).toEqual([])
  })

  it('cannot tell a cooked batch without a log, or with a probe nobody can name', () => {
    const none = judgeBatch(batch({ curves: [] }))
    expect(none.findings.find((f) => f.rule === 'record.cook-log')?.verdict).toBe('cannot-tell')
    const unnamed = batch({
      curves: [{ seq: 9, purpose: 'cook-and-chill', channels: [{ column: 'core', role: 'core' }] }],
    })
    expect(verdict(unnamed, /lethality\.meat/)).toEqual(['cannot-tell'])
  })

  it('takes the worst of several probes', () => {
    const facts = batch({
      curves: [
        {
          seq: 9,
          purpose: 'cook-and-chill',
          channels: [
            { column: 'core', role: 'core', instrument: 'T1' },
            { column: 'cold', role: 'core', instrument: 'T1' },
          ],
        },
      ],
    })
    const cold = good.map((r) => ({ ...r, coreC: r.coreC === null ? null : Math.min(r.coreC, 52) }))
    const { findings } = judgeBatch(facts, [
      { seq: 9, column: 'core', log: good },
      { seq: 9, column: 'cold', log: cold },
    ])
    expect(findings.find((f) => /lethality\.meat/.test(f.rule))?.verdict).toBe('fail')
  })

  it('fails a lot used past its date', () => {
    const { findings } = judged(batch({ on: '2026-11-25' }))
    expect(findings.find((f) => f.rule === 'record.use-by')?.verdict).toBe('fail')
  })

  it('cannot tell raw pork without a paper on trichinae on every lot', () => {
    const raw = batch().recipeBody
    const dry = (documents?: { kind: string; reference: string }[]) =>
      batch({
        recipeBody: { ...raw, kind: 'dried' },
        curves: [],
        lots: batch().lots.map((l) => ({ ...l, ...(documents ? { documents } : {}) })),
      })
    expect(verdict(dry(), /^process\.raw-pork$/)).toEqual(['cannot-tell'])
    expect(verdict(dry([{ kind: 'invoice', reference: '12' }]), /^process\.raw-pork$/)).toEqual(['cannot-tell'])
    expect(verdict(dry([{ kind: 'pork freezing certificate', reference: '12' }]), /^process\.raw-pork$/)).not.toContain(
      'cannot-tell',
    )
  })

  it('cannot tell a cure whose weighing names no scale, whatever scale was planned', () => {
    const noScale = lines.map((l) => ({
      line: l.line,
      kg: l.targetKg,
      ...(l.line === '5' ? {} : { instrument: l.scale }),
    }))
    expect(verdict(batch({ weighings: noScale }), cure)).toEqual(['cannot-tell'])
  })

  it('cannot tell a limit on the finished product where the loss in the cook is not stated, and still fails one that is over already', () => {
    const fatter = (pct: number, lossPct?: number) => {
      const { recipeBody } = batch()
      return judgeBatch({
        ...batch(),
        recipeBody: {
          ...recipeBody,
          standards: ['us.319.180.a'],
          meat: [
            { material: 'pork-butt', pct },
            { material: 'pork-belly', pct: 100 - pct },
          ],
          cook: lossPct === undefined ? { targetCoreC: 70 } : { targetCoreC: 70, lossPct },
        },
        lots: [
          { lot: 'L1', material: 'pork-butt', on: '2026-11-18', fatPct: 12, fatSdPct: 1 },
          { lot: 'L2', material: 'pork-belly', on: '2026-11-18', fatPct: 53, fatSdPct: 1 },
        ],
        lines: [
          line('1', 'pork-butt', pct / 5, 'S1', 'L1'),
          line('2', 'pork-belly', (100 - pct) / 5, 'S1', 'L2'),
          ...lines.slice(2),
        ],
        weighings: [
          { line: '1', kg: pct / 5, instrument: 'S1' },
          { line: '2', kg: (100 - pct) / 5, instrument: 'S1' },
          ...lines.slice(2).map((l) => ({ line: l.line, kg: l.targetKg, instrument: l.scale })),
        ],
      }).findings.find((f) => f.rule === 'us.319.180.a.fat')
    }
    expect(fatter(70)).toMatchObject({ verdict: 'cannot-tell' })
    expect(fatter(70)?.settle).toMatch(/loss of weight/)
    expect(fatter(90, 5)).toMatchObject({ verdict: 'pass' })
    expect(fatter(5)).toMatchObject({ verdict: 'fail' })
  })

  it('cannot tell by a thermometer whose error nobody entered', () => {
    const blunt: BatchInstrument = { instrument: 'T1', name: 'probe logger', standing: 'in-date' }
    expect(verdict(batch({ instruments: [bench, fine, blunt] }), /lethality\.meat/)).toEqual(['cannot-tell'])
  })

  it('never passes a probe that leaps to the house and stays there, a sentinel reading or a hidden come-up', () => {
    const climb = (minute: number) => 8 + Math.min(44, 0.8 * minute)
    const house = [
      ...good.slice(0, 56).map((r) => ({ ...r, coreC: climb(r.minute) })),
      ...good.slice(56).map((r) => ({ ...r, coreC: r.minute < 200 ? 75 : 3 })),
    ]
    const sentinel = good.map((r) => ({
      ...r,
      coreC: r.minute > 120 && r.minute < 150 ? 85 : Math.min(r.coreC ?? 0, 53),
    }))
    const hidden = good
      .map((r) => (r.minute > 5 && r.minute < 120 ? { ...r, coreC: null } : r))
      .map((r) => (r.minute < 120 ? r : { ...r, minute: r.minute + 500 }))
    for (const log of [house, sentinel, hidden]) expect(judged(batch(), log).verdict).not.toBe('pass')
    expect(judged(batch()).verdict).toBe('pass')
  })

  it('says of a log with no instrument named that none is named, and of one past its check which', () => {
    const open = (facts: BatchFacts) =>
      judged(facts).findings.filter(
        (f) => f.verdict === 'cannot-tell' && /lethality|cooling|stabilization/.test(f.rule),
      )
    const unnamed = open(
      batch({ curves: [{ seq: 9, purpose: 'cook-and-chill', channels: [{ column: 'core', role: 'core' }] }] }),
    )
    expect(unnamed.length).toBeGreaterThan(1)
    for (const f of unnamed) expect(f.because, f.rule).not.toContain('overdue')
    // In a casing that holds moisture no humidity is asked, whoever logged it.
    expect(unnamed.map((f) => f.rule)).not.toContain('us.fsis.lethality.humidity')
    for (const rule of [/lethality\.meat/, /stabilization/]) {
      const found = unnamed.find((f) => rule.test(f.rule))!
      expect(found.because).toContain('no instrument is named on the log of probe core')
      expect(found.settle).toContain('correct the curve')
    }
    const past = open(batch({ instruments: [bench, fine, { ...probe, standing: 'overdue' }] }))
    expect(past.find((f) => /lethality\.meat/.test(f.rule))).toMatchObject({
      because: expect.stringContaining('probe logger (T1) is past its check'),
      settle: expect.stringContaining('check probe logger'),
    })
    const doubted = open(
      batch({
        instruments: [
          bench,
          fine,
          { ...probe, inDoubt: { found: '2026-11-22', error: 2, unit: '°C', tolerance: 0.5 } },
        ],
      }),
    )
    expect(doubted.find((f) => /lethality\.meat/.test(f.rule))!.settle).toContain(
      'whether the readings of probe logger stand',
    )
  })
})
