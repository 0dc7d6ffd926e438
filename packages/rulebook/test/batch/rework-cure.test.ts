// 9 CFR 424.21(c): 1/4 oz of nitrite to 100 lb of chopped meat, 156.25 ppm on the green weight of the meat block. Rework brings what its own
// batch was given; that it counts is a reading of our own, which can only make a figure higher.
import { describe, expect, it } from 'vitest'
import type { BatchFacts, BatchInstrument } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { MadeBatch } from '../../src/batch/slow-facts.ts'

const scale = (readabilityG: number): BatchInstrument => ({
  instrument: 'S',
  name: 'scale',
  readabilityG,
  toleranceG: 0,
  standing: 'in-date',
})
const exact = scale(1e-6)

type Weighed = readonly (readonly [material: string, kg: number, lot?: string])[]
const made = (lines: Weighed, change: Partial<MadeBatch> = {}): MadeBatch => ({
  meatKg: 10,
  recipeBody: {
    name: 'Ring',
    kind: 'cooked',
    smoked: false,
    readyToEat: true,
    route: 'comminuted',
    meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
    additions: [
      { material: 'ice', pct: 20 },
      { material: 'curing-salt-6.25-nitrite', pct: 0.25 },
    ],
    cook: { targetCoreC: 70, lossPct: 20 },
  },
  lines: lines.map(([material, targetKg, lot], i) => ({
    line: String(i),
    material,
    targetKg,
    scale: 'S',
    ...(lot === undefined ? {} : { lot }),
  })),
  weighings: lines.map(([, kg, lot], i) => ({
    line: String(i),
    kg,
    instrument: 'S',
    ...(lot === undefined ? {} : { lot }),
  })),
  instruments: [exact],
  ...change,
})
const cured = (g: number): Weighed => [
  ['pork-shoulder-trim', 10],
  ['ice', 2],
  ['curing-salt-6.25-nitrite', g / 1000],
]
/** Rework of B0 in the batch as meat. */
const with_ = (g: number, reworkKg = 2, meatKg = 8): Weighed => [
  ['pork-shoulder-trim', meatKg],
  ['pork-shoulder-trim', reworkKg, 'RW'],
  ['ice', 2],
  ['curing-salt-6.25-nitrite', g / 1000],
]
const batch = (
  lines: Weighed,
  origins: Readonly<Record<string, MadeBatch | undefined>>,
  lots: BatchFacts['lots'] = [],
  place = 'US',
): BatchFacts => ({
  batch: 'B1',
  on: '2026-11-25',
  jurisdictions: [place],
  ...made(lines),
  lots: [{ lot: 'RW', material: 'pork-shoulder-trim', on: '2026-11-24', origin: { batch: 'B0' } }, ...lots],
  ancestry: {
    lots: [],
    batches: Object.entries(origins).map(([code, m]) => ({
      batch: code,
      on: '2026-11-24',
      kind: 'cooked' as const,
      lots: [],
      made: m,
    })),
  },
  curves: [],
})
const rule = 'us.424.21.nitrite.comminuted'
const judged = (facts: BatchFacts) => {
  const { findings, measures, computed } = judgeBatch(facts)
  return {
    nitrite: measures['nitritePpm'] as { value: number; low: number; high: number },
    measures,
    finding: findings.find((f) => f.rule === rule),
    rework: findings.find((f) => f.rule === 'record.rework-cure'),
    working: computed.cure.working,
    findings,
  }
}

describe('nitrite brought in by rework', () => {
  it('counts: a batch dosed for all of its meat, rework included, holds more than it was given', () => {
    // 25 g of 6.25 % on 10 kg: 156.25 mg/kg both. 2 kg of rework hold 20/12.025 kg of meat block, raw; after 20 % loss 1.25 times that.
    const inRework = 20 / 12.025
    const { nitrite, finding, rework } = judged(batch(with_(25), { B0: made(cured(25)) }))
    expect(nitrite.value).toBeCloseTo((1562.5 + 156.25 * inRework) / (8 + inRework), 6)
    expect(nitrite.value).toBeCloseTo(188.59, 1)
    expect(finding).toMatchObject({ verdict: 'fail' })
    expect(rework).toMatchObject({ verdict: 'pass' })
    expect(rework?.because).toMatch(/RW, out of B0: 1\.663 kg of meat block with 259\.9 mg of nitrite/)
  })

  it('leaves a batch that was dosed for its fresh meat alone where it is: two shares of one strength mix to that strength', () => {
    const { nitrite, finding } = judged(batch(with_(20), { B0: made(cured(25)) }))
    expect(nitrite.value).toBeCloseTo(156.25, 6)
    expect(nitrite.high).toBeCloseTo(156.25, 3)
    // The interval of the scale lies across the limit.
    expect(finding?.verdict).not.toBe('fail')
    expect(judged(batch(with_(19.5), { B0: made(cured(24.9)) })).finding?.verdict).toBe('pass')
  })

  it('is at most what rework taken after all its loss brings, and that decides', () => {
    // 120 mg/kg fresh, 156.25 in the rework: the drier it came back, the more of its batch is in it.
    const { nitrite } = judged(batch(with_(15.36), { B0: made(cured(25)) }))
    const most = (20 / 12.025) * 1.25
    expect(nitrite.high).toBeCloseTo((960 + 156.25 * most) / (8 + most), 3)
    expect(nitrite.low).toBeLessThan(nitrite.value)
  })

  it('never lowers the most: over many doses the highest is at least the mean of either loss', () => {
    for (const fresh of [0, 5, 10, 20, 30])
      for (const old of [0, 10, 20, 25]) {
        const { nitrite } = judged(batch(with_(fresh), { B0: made(cured(old)) }))
        for (const w of [1, 1.25]) {
          const meat = (20 / (12 + old / 1000)) * w
          const mean = (fresh * 62.5 + old * 6.25 * meat) / (8 + meat)
          expect(nitrite.high).toBeGreaterThanOrEqual(mean - 1e-6)
          expect(nitrite.low).toBeLessThanOrEqual(mean + 1e-6)
        }
      }
  })

  it('carries the error of the scales of its own batch', () => {
    const coarse = made(cured(25), { instruments: [scale(5)] })
    const fine = judged(batch(with_(15), { B0: made(cured(25)) })).nitrite
    expect(judged(batch(with_(15), { B0: coarse })).nitrite.high).toBeGreaterThan(fine.high + 1)
  })

  it('goes back through rework of rework', () => {
    const middle = made([
      ['pork-shoulder-trim', 8],
      ['pork-shoulder-trim', 2, 'RW-0'],
    ])
    const origin: BatchFacts['lots'][number] = {
      lot: 'RW-0',
      material: 'pork-shoulder-trim',
      on: '2026-11-23',
      origin: { batch: 'A0' },
    }
    const { nitrite, rework } = judged(batch(with_(0), { B0: middle, A0: made(cured(25)) }, [origin]))
    const inMiddle = 20 / 12.025
    // 2 of the middle's 10 kg came on.
    expect(nitrite.value).toBeCloseTo((0.2 * 156.25 * inMiddle) / (8 + 0.2 * (8 + inMiddle)), 6)
    expect(rework?.because).toContain('RW ← RW-0, out of A0')
  })

  it('shows the working', () => {
    const { working } = judged(batch(with_(25), { B0: made(cured(25)) }))
    expect(working.map((s) => s.step)).toEqual(
      expect.arrayContaining([
        'meat block in RW, out of B0',
        'nitrite it brings, as NaNO2',
        'ingoing nitrite with the rework, as NaNO2',
      ]),
    )
  })

  it('counts for nitrate, accelerators, phosphate and binders as well', () => {
    const B0 = made([
      ['pork-shoulder-trim', 10],
      ['curing-salt-6.25-nitrite-4-nitrate', 0.025],
      ['sodium-erythorbate', 0.005],
      ['tripolyphosphate', 0.04],
      ['milk-powder-skimmed', 0.3],
    ])
    const { measures } = judged(batch(with_(0), { B0 }))
    const kg = 10.37
    const at = (name: string) => (measures[name] as { value: number }).value
    const meat = 20 / kg
    expect(at('nitratePpm')).toBeCloseTo((100 * meat) / (8 + meat), 6)
    expect(at('acceleratorSaltsPpm')).toBeCloseTo((500 * meat) / (8 + meat), 6)
    expect(at('phosphatePct')).toBeCloseTo((100 * 0.04 * (2 / kg)) / (12 * 0.8), 6)
    expect(at('binderPct')).toBeCloseTo((100 * 0.3 * (2 / kg)) / 12, 6)
  })

  it('makes a batch without a cure of its own a cured one', () => {
    const { finding } = judged(batch(with_(0), { B0: made(cured(25)) }))
    expect(finding?.verdict).toBe('pass')
  })

  // Canadian Standards of Identity, volume 7, section 1: cured meat holds at least 100 ppm, added.
  it('does not count towards a least amount', () => {
    const facts = batch(with_(15, 5, 5), { B0: made(cured(25)) }, [], 'CA')
    const least = judged(facts).findings.filter((f) => f.because.includes('at least 100 mg/kg'))
    // 15 g on 5 kg of fresh meat are 188 mg/kg, on all of it at most 102.
    expect(least.length).toBeGreaterThan(0)
    const some = batch(with_(8, 5, 5), { B0: made(cured(25)) }, [], 'CA')
    expect(
      judged(some).findings.filter((f) => f.because.includes('does not count towards a least amount')),
    ).not.toEqual([])
  })
})

describe('rework whose cure nobody knows', () => {
  it.each([
    ['what was weighed into that batch is not known', { B0: undefined }],
    [
      'not weighed: curing-salt-6.25-nitrite',
      { B0: made(cured(25), { weighings: made(cured(25)).weighings.slice(0, 2) }) },
    ],
    ['in no table of materials: house-mix', { B0: made([...cured(25), ['house-mix', 0.1]]) }],
    ['what was weighed into that batch is not known', {}],
    [
      'the scale that curing-salt-6.25-nitrite was weighed on is not recorded',
      { B0: made(cured(25), { instruments: [] }) },
    ],
  ])('cannot be told: %s', (why, origins) => {
    const { finding, rework } = judged(batch(with_(15), origins))
    expect(rework).toMatchObject({ verdict: 'cannot-tell' })
    expect(rework?.because).toContain(why)
    expect(rework?.settle).toBeTruthy()
    expect(finding?.verdict).toBe('cannot-tell')
    expect(finding?.because).toContain(why)
  })

  it('cannot be told where it goes round in a ring', () => {
    const B0 = made([
      ['pork-shoulder-trim', 8],
      ['pork-shoulder-trim', 2, 'RW-1'],
    ])
    const ring: BatchFacts['lots'][number] = {
      lot: 'RW-1',
      material: 'pork-shoulder-trim',
      on: '2026-11-23',
      origin: { batch: 'B1' },
    }
    expect(judged(batch(with_(15), { B0 }, [ring])).rework?.because).toContain('a batch that it went into')
  })

  it('says nothing where no rework went in', () => {
    expect(judged(batch(cured(25), {})).rework).toBeUndefined()
  })
})
