import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { CentreLog, LotTreatment } from '../../src/batch/slow-facts.ts'
import { air, checks, epoch, frozen, slow } from './slow-batch.ts'

const meat = (change: Partial<BatchFacts> = {}, centres: readonly CentreLog[] = []) =>
  judgeBatch(slow(change), [], { air, centres }).findings.find((f) => f.rule === 'process.raw-pork')!
const byCentre = (over: Partial<LotTreatment> = {}): Partial<BatchFacts> => ({
  treatments: [
    frozen('L1', {
      way: 'frozen-centre',
      file: 'f'.repeat(64),
      thicknessMm: undefined,
      roomC: undefined,
      from: undefined,
      until: undefined,
      ...over,
    }),
    frozen('L2'),
  ],
})
const at = (
  hours: number,
  centreC: (hour: number) => number,
  step = 0.5,
  over: Partial<CentreLog> = {},
): CentreLog => ({
  seq: 21,
  log: Array.from({ length: hours / step + 1 }, (_, i) => ({ hour: i * step, centreC: centreC(i * step) })),
  ...over,
})
const undated = at(116, () => -18.6)
const came = (on: string) => ({ lots: slow().lots.map((l) => (l.lot === 'L1' ? { ...l, on } : l)) })

describe('a centre log without a date (a choice of ours: asked when it began, as the log of a chamber is)', () => {
  it('proves nothing until its beginning or its end is stated', () => {
    expect(meat(byCentre(), [undated])).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/bears no date/),
      settle: expect.stringMatching(/first reading/),
    })
    expect(meat(byCentre({ from: '2026-02-12T00:00:00Z' }), [undated]).verdict).toBe('pass')
    expect(meat(byCentre({ until: '2026-02-24T00:00:00Z' }), [undated]).verdict).toBe('pass')
  })
  it('does not fit a lot that came in the day before the batch', () => {
    const late = came('2026-03-01')
    expect(meat({ ...late, ...byCentre({ on: '2026-03-01' }) }, [undated]).verdict).toBe('cannot-tell')
    // 116 h from the day it came in end after the batch was made.
    const from = byCentre({ on: '2026-03-01', from: '2026-03-01T08:00:00Z' })
    expect(meat({ ...late, ...from }, [undated]).because).toMatch(/after the meat was taken/)
    const until = byCentre({ on: '2026-03-01', until: '2026-03-02T00:00:00Z' })
    expect(meat({ ...late, ...until }, [undated])).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/before L1 came in/),
    })
  })
  it('is longer than a freezing that was typed as one hour', () => {
    const hour = byCentre({ from: '2026-02-20T08:00:00Z', until: '2026-02-20T09:00:00Z' })
    expect(meat(hour, [undated])).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/116 h.*1 h/),
    })
  })
})

describe('a centre log with dates of its own', () => {
  const dated = (from: string): CentreLog => ({
    ...undated,
    startsAt: epoch(from),
    endsAt: epoch(from) + 116 * 3600,
    zone: 'said',
  })
  it('lies within what was typed of its begin and end, or proves nothing', () => {
    const log = dated('2026-02-12T00:00:00Z')
    expect(meat(byCentre({ from: '2026-02-12T00:00:00Z', until: '2026-02-24T00:00:00Z' }), [log]).verdict).toBe('pass')
    for (const typed of [
      { from: '2026-02-20T08:00:00Z', until: '2026-02-20T09:00:00Z' },
      { from: '2026-02-13T00:00:00Z' },
      { until: '2026-02-14T00:00:00Z' },
    ])
      expect(meat(byCentre(typed), [log]).verdict, JSON.stringify(typed)).toBe('cannot-tell')
  })
  it('of a treatment dated before the lot came in proves nothing', () => {
    expect(meat(byCentre({ on: '2026-02-01' }), [dated('2026-02-12T00:00:00Z')])).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/dated 2026-02-01, before L1 came in/),
    })
  })
})

describe('a freezing by the room began after its meat was there', () => {
  it('not before the lot came in, as far as a zone of the clock may explain (14 h)', () => {
    const from = (instant: string) => meat({ treatments: [frozen('L1', { from: instant }), frozen('L2')] }).verdict
    expect(from('2026-02-09T10:00:00Z')).toBe('pass')
    expect(from('2026-02-09T09:59:00Z')).toBe('cannot-tell')
  })
  const split = (treatment: LotTreatment): Partial<BatchFacts> => ({
    lots: [{ lot: 'L1', material: 'pork-shoulder-trim', on: '2026-03-01', origin: { lot: 'W1' } }, slow().lots[1]!],
    ancestry: { lots: [{ lot: 'W1', material: 'pork-shoulder-trim', on: '2026-02-10' }], batches: [] },
    treatments: [treatment, frozen('L2')],
    checks: [...checks, { ...checks.find((c) => c.instrument === 'T2')!, on: '2026-01-10' }],
  })
  it('of a part not before the whole came in; with the whole it may have been frozen before it was taken off', () => {
    expect(
      meat(split(frozen('L1', { on: '2026-01-20', from: '2026-01-01T00:00:00Z', until: '2026-01-20T00:00:00Z' }))),
    ).toMatchObject({ verdict: 'cannot-tell', because: expect.stringMatching(/before W1 came in/) })
    expect(meat(split(frozen('L1'))).verdict).toBe('pass')
  })
  it('of rework not before it was there', () => {
    const rework = (treatment: LotTreatment): Partial<BatchFacts> => ({
      lots: [
        { lot: 'L1', material: 'pork-shoulder-trim', on: '2026-03-02', origin: { batch: 'B0', allergens: [] } },
        slow().lots[1]!,
      ],
      ancestry: {
        lots: [{ lot: 'W1', material: 'pork-shoulder-trim', on: '2026-02-01' }],
        batches: [{ batch: 'B0', on: '2026-02-25', kind: 'fermented', lots: ['W1'] }],
      },
      treatments: [treatment, frozen('L2')],
    })
    expect(meat(rework(frozen('L1')))).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/before L1 came in on 2026-03-02/),
    })
    expect(meat(rework(frozen('W1'))).verdict).toBe('pass')
  })
})

describe('a centre log that no meat would leave (choices of ours, no source)', () => {
  const judged = (log: CentreLog) =>
    meat(byCentre(), [{ ...log, startsAt: epoch('2026-02-12T00:00:00Z'), zone: 'said' }])
  it('a fall of more than a degree a minute is a probe that fell out, or another unit', () => {
    const fall = (minutes: number) =>
      judged(at(60, (h) => (h < 20 ? -5 : Math.max(-38, -5 - (h - 20 + 1 / 60) * 60 * (33 / minutes))), 1 / 60))
    expect(fall(20)).toMatchObject({ verdict: 'cannot-tell', because: expect.stringMatching(/°C a minute/) })
    expect(fall(40).verdict).toBe('pass')
    // One reading to the next, a quarter of an hour apart.
    expect(judged(at(2, (h) => (h < 1 ? -5 : -38), 0.25)).verdict).toBe('cannot-tell')
  })
  it('a log of less than a day shows the meat freeze', () => {
    expect(judged(at(1, () => -50))).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/begins at -50 °C/),
      settle: expect.stringMatching(/whole log/),
    })
    expect(judged(at(22, (h) => Math.max(-38, 2 - 4 * h))).verdict).toBe('pass')
    expect(judged(at(116, () => -18.6)).verdict).toBe('pass')
  })
  it('nothing is as cold as a sentinel of a logger', () => {
    expect(judged(at(130, () => -200)).verdict).toBe('cannot-tell')
    expect(judged(at(130, () => -60)).verdict).toBe('pass')
  })
  it('a column called like the air of a room is asked about; a note answers', () => {
    const room = { ...undated, startsAt: epoch('2026-02-12T00:00:00Z'), zone: 'said' as const, calledAir: 'Room °C' }
    expect(meat(byCentre(), [room])).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/"Room °C" is called like the air/),
    })
    expect(meat(byCentre({ note: 'the probe was in the thickest block' }), [room]).verdict).toBe('pass')
  })
})

describe('meat of a product that is soured or dried, whatever its kind is called', () => {
  const kind = (body: Partial<BatchFacts['recipeBody']>) =>
    judgeBatch(slow({ treatments: [], recipeBody: { ...slow().recipeBody, ...body } }), [], { air })
  const raw = (body: Partial<BatchFacts['recipeBody']>) =>
    kind(body).findings.find((f) => f.rule === 'process.raw-pork')?.verdict
  it('is asked about: fresh, not ready to eat, and cooked without a proven cook', () => {
    expect(raw({ kind: 'fresh', readyToEat: false })).toBe('cannot-tell')
    expect(raw({ kind: 'fermented', readyToEat: false })).toBe('cannot-tell')
    expect(raw({ kind: 'cooked' })).toBe('cannot-tell')
  })
})
