import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { CentreLog } from '../../src/batch/slow-facts.ts'
import { air, checks, frozen, instruments, slow } from './slow-batch.ts'

const judged = (change: Partial<BatchFacts> = {}, centres: readonly CentreLog[] = []) =>
  judgeBatch(slow(change), [], { air, centres })
const meat = (change: Partial<BatchFacts> = {}, centres: readonly CentreLog[] = []) =>
  judged(change, centres).findings.find((f) => f.rule === 'process.raw-pork')!
const with1 = (over: Parameters<typeof frozen>[1]) => ({ treatments: [frozen('L1', over), frozen('L2')] })

describe('pork eaten raw, by room and days (former 9 CFR 318.10, Table 1)', () => {
  it('150 mm at −24 °C for eleven days passes; each edge of the row for −23.3 °C on both sides', () => {
    expect(meat().verdict).toBe('pass')
    expect(meat(with1({ until: '2026-02-23T00:00:00Z' })).verdict).toBe('pass')
    expect(meat(with1({ until: '2026-02-22T23:00:00Z' })).verdict).toBe('fail')
    expect(meat(with1({ thicknessMm: 152.4 })).verdict).toBe('pass')
    expect(meat(with1({ thicknessMm: 152.5 })).verdict).toBe('fail')
    // The thermometer of ± 0.5 °C: −23.8 °C is surely at −23.3 °C, −23.7 °C meets that row only as read,
    // −22.7 °C falls back on the twenty days of −15 °C.
    expect(meat(with1({ roomC: -23.8 })).verdict).toBe('pass')
    expect(meat(with1({ roomC: -23.7 })).verdict).toBe('cannot-tell')
    expect(meat(with1({ roomC: -22.7 })).verdict).toBe('fail')
  })

  it('a block thinner than such blocks are passes where the days are enough for centimetres and inches too, or a person said it is so', () => {
    // 14 mm may be 140 mm, in the same row, or 14 inches, in the next: twenty days at −23.3 °C.
    const thin = meat(with1({ thicknessMm: 14 }))
    expect([thin.verdict, thin.because]).toEqual(['cannot-tell', expect.stringMatching(/14 mm is thin.*355\.6 mm/)])
    expect(meat(with1({ thicknessMm: 14, thicknessConfirmed: true })).verdict).toBe('pass')
    const lots = slow().lots.map((l) => ({ ...l, on: '2026-02-01' }))
    expect(meat({ lots, ...with1({ thicknessMm: 14, from: '2026-02-03T00:00:00Z' }) }).verdict).toBe('pass')
    expect(meat(with1({ thicknessMm: 25 })).verdict).toBe('pass')
  })

  it('one lot without anything cannot be told, and stops the batch', () => {
    const f = meat({ treatments: [frozen('L2')] })
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(/^L1: nothing/)
    expect(f.settle).toMatch(/freezing by a published schedule/)
    expect(judged({ treatments: [frozen('L2')] }).verdict).toBe('cannot-tell')
    expect(meat({ treatments: [] }).verdict).toBe('cannot-tell')
    expect(judged({ treatments: [] }).verdict).not.toBe('pass')
  })

  it('a line without a lot cannot be told', () => {
    const lines = slow().lines.map((l) => ({ ...l, lot: undefined }))
    expect(meat({ lines }).verdict).toBe('cannot-tell')
  })

  it('a freezer thermometer past its check, unnamed or of unknown error leaves it open', () => {
    expect(meat({ checks: checks.filter((c) => c.instrument !== 'T2') }).verdict).toBe('cannot-tell')
    expect(meat(with1({ instrument: undefined })).verdict).toBe('cannot-tell')
    expect(
      meat({ instruments: instruments.map((i) => (i.instrument === 'T2' ? { ...i, toleranceC: undefined } : i)) })
        .verdict,
    ).toBe('cannot-tell')
  })

  it('a freezing that ended after the lot was weighed in proves nothing', () => {
    expect(meat(with1({ until: '2026-03-03T00:00:00Z' })).because).toMatch(/after the meat was taken/)
    const weighings = slow().weighings.map((w) => ({
      ...w,
      at: '2026-02-23T08:00:00Z',
      lot: w.line === '1' ? 'L1' : undefined,
    }))
    expect(meat({ weighings }).verdict).toBe('fail')
  })

  it('judges by the schedule of each place: the EU asks −25 °C or the rows of method 2', () => {
    // 150 mm, −24 °C less the thermometer: ten days at −23 °C of method 2.
    expect(meat({ jurisdictions: ['EU'] }).verdict).toBe('pass')
    expect(meat({ jurisdictions: ['EU'], ...with1({ thicknessMm: 151 }) }).verdict).toBe('fail')
    expect(meat({ jurisdictions: ['US', 'EU'] }).verdict).toBe('pass')
    expect(meat({ jurisdictions: ['AU-NZ'] }).because).toMatch(/no schedule of AU-NZ/)
  })

  it('meat kept for a product that is cooked later is not made safe', () => {
    expect(meat(with1({ way: 'cooked-later' })).verdict).toBe('fail')
  })
})

describe('by a log of the centre (former 9 CFR 318.10, Table 2: 106 h at −17.8 °C)', () => {
  const log = (hours: number, centreC: number, hole = false): CentreLog => ({
    seq: 21,
    log: Array.from({ length: hours + 1 }, (_, hour) => ({ hour, centreC: hole && hour === 50 ? null : centreC })),
    endsAt: Date.parse('2026-02-24T00:00:00Z') / 1000,
  })
  const way = with1({
    way: 'frozen-centre',
    file: 'f'.repeat(64),
    thicknessMm: undefined,
    roomC: undefined,
    from: undefined,
    until: undefined,
  })
  it('both sides of the edge, the thermometer taken off', () => {
    expect(meat(way, [log(106, -18.3)]).verdict).toBe('pass')
    expect(meat(way, [log(105, -18.3)]).verdict).toBe('fail')
    expect(meat(way, [log(106, -18.2)]).verdict).toBe('cannot-tell')
    expect(meat(way, [log(106, -18.3, true)]).verdict).toBe('cannot-tell')
  })
  it('a log that outlasts the weighing counts to its own end, whatever end was typed', () => {
    const long = { ...log(106, -18.3), endsAt: Date.parse('2026-03-04T00:00:00Z') / 1000 }
    const typed = with1({ way: 'frozen-centre', file: 'f'.repeat(64), until: '2026-02-24T00:00:00Z' })
    expect(meat(typed, [log(106, -18.3)]).verdict).toBe('pass')
    expect(meat(typed, [long]).because).toMatch(/after the meat was taken/)
    // Ten hours before midnight on a clock that may run twelve hours behind.
    const near = Date.parse('2026-03-02T14:00:00Z') / 1000
    const unstuffed = { ...way, measures: slow().measures!.filter((m) => m.what !== 'weight') }
    expect(meat(unstuffed, [{ ...log(106, -18.3), endsAt: near, zone: 'said' }]).verdict).toBe('pass')
    expect(meat(unstuffed, [{ ...log(106, -18.3), endsAt: near, zone: 'unsaid' }]).verdict).toBe('fail')
    // Its pieces were weighed as stuffed at eight that morning.
    expect(meat(way, [{ ...log(106, -18.3), endsAt: near, zone: 'said' }]).because).toMatch(/after the meat was taken/)
  })
  it('a log from before the lot came in is not of that lot', () => {
    const begun = (at: string) => ({ ...log(106, -18.3), startsAt: Date.parse(at) / 1000, zone: 'said' as const })
    expect(meat(way, [begun('2026-02-12T00:00:00Z')]).verdict).toBe('pass')
    expect(meat(way, [begun('2026-01-12T00:00:00Z')]).because).toMatch(/before L1 came in/)
    expect(meat(way, [begun('2026-01-12T00:00:00Z')]).verdict).toBe('cannot-tell')
  })
  it('a file that is missing or cannot be read leaves it open', () => {
    expect(meat(way).verdict).toBe('cannot-tell')
    expect(meat(way, [{ seq: 21, log: [], trouble: 'centre.csv holds no line of text' }]).because).toMatch(
      /centre\.csv/,
    )
  })
})

describe('papers', () => {
  const named = {
    'certified-herd': 'controlled housing (Trichinella-free herd) certificate',
    tested: 'Trichinella test certificate',
    'published-cure': 'certificate',
  } as const
  const paper = (way: 'certified-herd' | 'tested' | 'published-cure', document = true) =>
    with1({ way, ...(document ? { document: { kind: named[way], reference: '12' } } : {}) })
  it('a certificate of the herd and a test stand in the US and the EU; named without a paper they do not', () => {
    for (const jurisdictions of [['US'], ['EU'], ['GB']])
      for (const way of ['certified-herd', 'tested'] as const) {
        expect(meat({ jurisdictions, ...paper(way) }).verdict).toBe('pass')
        expect(meat({ jurisdictions, ...paper(way, false) }).verdict).toBe('cannot-tell')
      }
  })
  it('where the law of the place was not read a paper settles nothing', () => {
    expect(meat({ jurisdictions: ['CA'], ...paper('tested') }).verdict).toBe('cannot-tell')
  })
  it('a curing method named on paper is not proven by it', () => {
    expect(meat(paper('published-cure')).verdict).toBe('cannot-tell')
  })
  const free = [
    'not frozen',
    'certificate refused',
    'untested declaration',
    'organic certificate',
    'halal certificate',
    'certificate of origin',
    'Salmonella test',
    'temperature test',
    'delivery note, frozen meat',
    'frozen storage invoice',
    'no Trichinella test certificate',
  ]
  it('a paper in free text, whatever words are in it, leaves it open and names the kinds that count', () => {
    for (const kind of free) {
      const lots = slow().lots.map((l) => ({ ...l, documents: [{ kind, reference: '9' }] }))
      const f = meat({ lots, treatments: [] })
      expect(f.verdict, kind).toBe('cannot-tell')
      expect(f.settle, kind).toMatch(/Trichinella test certificate/)
      const boar = lots.map((l) => ({ ...l, material: 'wild-boar' }))
      expect(meat({ lots: boar, treatments: [] }).verdict, kind).toBe('cannot-tell')
      for (const way of ['tested', 'certified-herd'] as const)
        expect(meat(with1({ way, document: { kind, reference: '12' } })).verdict, kind).toBe('cannot-tell')
    }
    expect(meat(with1({ way: 'tested', document: { kind: 'invoice', reference: '1' } })).verdict).toBe('cannot-tell')
    expect(meat(with1({ way: 'tested', document: { kind: named['certified-herd'], reference: '1' } })).verdict).toBe(
      'cannot-tell',
    )
  })
  it('a paper of freezing entered with the lot stands as before', () => {
    const lots = slow().lots.map((l) => ({ ...l, documents: [{ kind: 'pork freezing certificate', reference: '9' }] }))
    expect(meat({ lots, treatments: [] }).verdict).toBe('pass')
  })
})

describe('game and horse: kinds of Trichinella that survive freezing (International Commission on Trichinellosis)', () => {
  const boar: Partial<BatchFacts> = {
    lines: slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'wild-boar' } : l)),
    lots: slow().lots.map((l) => (l.lot === 'L1' ? { ...l, material: 'wild-boar' } : l)),
  }
  it('freezing fails, a certified herd does not stand, a test does', () => {
    expect(meat(boar).verdict).toBe('fail')
    const herd = { kind: 'controlled housing (Trichinella-free herd) certificate', reference: '7' }
    const document = { kind: 'Trichinella test certificate', reference: '7' }
    expect(meat({ ...boar, ...with1({ way: 'certified-herd', document: herd }) }).verdict).toBe('cannot-tell')
    expect(meat({ ...boar, ...with1({ way: 'tested', document }) }).verdict).toBe('pass')
  })
  it('a certificate of freezing on a lot of wild boar fails', () => {
    const lots = boar.lots!.map((l) => ({ ...l, documents: [{ kind: 'pork freezing certificate', reference: '9' }] }))
    expect(meat({ ...boar, lots, treatments: [frozen('L2')] }).verdict).toBe('fail')
  })
  it('horse is asked about, too', () => {
    const horse = {
      lines: slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'horse' } : l)),
      lots: slow().lots.map((l) => (l.lot === 'L1' ? { ...l, material: 'horse' } : l)),
    }
    expect(meat(horse).verdict).toBe('fail')
  })
})

describe('lots behind lots', () => {
  const split = (on: string): Partial<BatchFacts> => ({
    lots: [{ lot: 'L1', material: 'pork-shoulder-trim', on, origin: { lot: 'W1' } }, slow().lots[1]!],
    ancestry: { lots: [{ lot: 'W1', material: 'pork-shoulder-trim', on: '2026-02-01' }], batches: [] },
  })
  it('a part inherits what was done to the whole before it was taken off', () => {
    const treatments = [frozen('W1'), frozen('L2')]
    expect(meat({ ...split('2026-02-24'), treatments }).verdict).toBe('pass')
    expect(meat({ ...split('2026-02-23'), treatments }).verdict).toBe('fail')
    expect(meat({ ...split('2026-02-24'), treatments: [frozen('L2')] }).because).toMatch(/of W1/)
  })
  it('a part treated by itself stands by that', () => {
    expect(meat({ ...split('2026-02-12') }).verdict).toBe('pass')
  })

  const rework = (kind: 'fermented' | 'cooked', treated: boolean): Partial<BatchFacts> => ({
    lines: slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'beef-trim-90-10' } : l)),
    lots: [
      { lot: 'L1', material: 'beef-trim-90-10', on: '2026-02-25', origin: { batch: 'B0', allergens: [] } },
      slow().lots[1]!,
    ],
    ancestry: {
      lots: [{ lot: 'W1', material: 'pork-shoulder-trim', on: '2026-02-01' }],
      batches: [{ batch: 'B0', on: '2026-02-25', kind, lots: ['W1'] }],
    },
    treatments: [...(treated ? [frozen('W1')] : []), frozen('L2')],
  })
  it('rework stands as the lots of its batch do, whatever it counts as in the recipe', () => {
    expect(meat(rework('fermented', true)).verdict).toBe('pass')
    expect(meat(rework('fermented', false)).verdict).toBe('cannot-tell')
    expect(meat(rework('cooked', false)).verdict).toBe('cannot-tell')
    expect(meat({ ...rework('fermented', true), ancestry: { lots: [], batches: [] } }).verdict).toBe('cannot-tell')
  })
})

describe('what is not asked', () => {
  const { ferment: _ferment, dry: _dry, ...recipeBody } = slow().recipeBody
  const neither = { curves: [], measures: [], treatments: [] }
  it('a cooked product, and fresh sausage the eater cooks, neither soured nor dried', () => {
    expect(judged({ ...neither, recipeBody: { ...recipeBody, kind: 'cooked' } }).meats).toEqual([])
    const fresh = { ...recipeBody, kind: 'fresh' as const, readyToEat: false }
    expect(judged({ ...neither, recipeBody: fresh }).meats).toEqual([])
    expect(meat({ ...neither, recipeBody: { ...fresh, readyToEat: true } }).verdict).toBe('cannot-tell')
  })
})
