import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { AirChannel, BatchMeasure, Placement } from '../../src/batch/slow-facts.ts'
import { checks, dried, epoch, fermented, measures, slow } from './slow-batch.ts'

const us = 'us.ferment.degree-hours'
const judged = (change: Partial<BatchFacts> = {}, logs: readonly AirChannel[] = [fermented(), dried]) =>
  judgeBatch(slow(change), [], { air: logs })
const found = (rule: string, change: Partial<BatchFacts> = {}, logs?: readonly AirChannel[]) =>
  judged(change, logs).findings.find((f) => f.rule === rule)!
const record = (change: Partial<BatchFacts>, logs?: readonly AirChannel[]) => found('record.ferment', change, logs)

const rooms = {
  C: { room: 'C', purpose: 'cold', tempC: 2 },
  F: { room: 'F', purpose: 'ferment', tempC: 24 },
  G: { room: 'G', purpose: 'ferment', tempC: 36 },
  D: { room: 'D', purpose: 'dry', tempC: 14 },
} as const
const put = (at: string, room?: keyof typeof rooms, over: Partial<Placement> = {}): Placement => ({
  at,
  ...(room === undefined ? {} : rooms[room]),
  ...over,
})
const plain = measures.filter((m) => m.what !== 'weight')
const mixed = (taken: string): BatchMeasure => ({ step: 'mix', what: 'temperature', value: 2, unit: '°C', taken })
const steady = (from: string, hours: number, c: number, over: Partial<AirChannel> = {}): AirChannel =>
  fermented(() => c, {
    readings: Array.from({ length: 2 * hours + 1 }, (_, i) => ({ minute: 30 * i, value: c })),
    starts: { at: epoch(from), zone: 'said' },
    ...over,
  })

describe('kept cold until it was hung (below 7 °C S. aureus does not grow: ICMSF, Microorganisms in Foods 5)', () => {
  const hungLate = (...placements: readonly Placement[]) => ({
    measures: [
      ...plain.filter((m) => m.step !== 'ferment'),
      mixed('2026-03-02T06:00:00Z'),
      { step: 'ferment', what: 'ph', value: 5.1, taken: '2026-03-05T12:00:00Z', instrument: 'PH' } as const,
    ],
    checks: [...checks, ...checks.filter((c) => c.on === '2026-03-03').map((c) => ({ ...c, on: '2026-03-05' }))],
    placements,
  })
  const log = [
    steady('2026-03-04T08:00:00Z', 48, 23.8),
    { ...dried, starts: { at: epoch('2026-03-06T08:30:00Z'), zone: 'said' as const } },
  ]
  const hung = put('2026-03-04T08:00:00Z', 'F')

  it('in a room of 2 °C until then: the log is whole', () => {
    expect(record(hungLate(put('2026-03-02T07:00:00Z', 'C'), hung), log).verdict).toBe('pass')
    expect(found(us, hungLate(put('2026-03-02T07:00:00Z', 'C'), hung), log).verdict).toBe('pass')
  })
  it('taken out of it after half an hour: nobody saw it until it was hung', () => {
    const j = record(hungLate(put('2026-03-02T07:00:00Z', 'C'), put('2026-03-02T07:30:00Z'), hung), log)
    expect(j.verdict).toBe('cannot-tell')
    expect(j.because).toMatch(/48\.5 h after it was taken out of the cold/)
  })
  it('a room called cold that is set to 22 °C, or whose temperature nobody knows, keeps nothing cold', () => {
    for (const over of [{ tempC: 22 }, { tempC: 7.1 }, { tempC: undefined }])
      expect(record(hungLate(put('2026-03-02T07:00:00Z', 'C', over), hung), log).verdict).toBe('cannot-tell')
    expect(record(hungLate(put('2026-03-02T07:00:00Z', 'C', { tempC: 7 }), hung), log).verdict).toBe('pass')
  })
  it('a warm batch measured in the cold room was not cold', () => {
    const set = hungLate(put('2026-03-02T07:00:00Z', 'C'), hung)
    const warm: BatchMeasure = {
      step: 'ferment',
      what: 'temperature',
      value: 22,
      unit: '°C',
      taken: '2026-03-03T06:00:00Z',
    }
    expect(record({ ...set, measures: [...set.measures, warm] }, log).because).toMatch(/22 °C was measured/)
  })
})

describe('the log has to be of the room the batch hung in', () => {
  const inF = put('2026-03-02T08:00:00Z', 'F')
  it('where it stayed: nothing changes', () => {
    const stayed = { placements: [inF, put('2026-03-04T08:30:00Z', 'D')] }
    expect(found(us, stayed).measured).toBeCloseTo(28 * (24 * 1.8 + 32 - 60), 6)
    expect(judged(stayed).verdict).toBe('pass')
  })
  it('moved to another room after four hours, whose air nobody logged: nothing is known from then on', () => {
    const moved = { placements: [inF, put('2026-03-02T12:00:00Z', 'G')] }
    expect(found(us, moved).verdict).toBe('cannot-tell')
    expect(found(us, moved).measured).toBeCloseTo(4 * 15.2, 6)
    expect(record(moved).because).toMatch(/from 2026-03-02 12:00 on .*G/)
  })
  it('taken out of every room: nothing is known from then on', () => {
    const out = { placements: [inF, put('2026-03-02T12:00:00Z')] }
    expect(found(us, out).verdict).toBe('cannot-tell')
    expect(record(out).because).toMatch(/from 2026-03-02 12:00 on .*no room/)
  })
  it('moved to another room with a log of its own: each counts for its time', () => {
    const curve = {
      seq: 13,
      purpose: 'ferment' as const,
      channels: [{ column: 'air', role: 'house', instrument: 'T1' }],
    }
    const moved = {
      curves: [...slow().curves, curve],
      placements: [inF, put('2026-03-02T12:00:00Z', 'G'), put('2026-03-04T08:30:00Z', 'D')],
    }
    const second = steady('2026-03-02T12:00:00Z', 44, 20, { seq: 13 })
    const f = found(us, moved, [fermented(), second, dried])
    expect(f.measured).toBeCloseTo(4 * 15.2 + 24 * (68 - 60), 6)
    expect(f.verdict).toBe('pass')
  })
  it('what was over the limit before it left stays over it', () => {
    const hot = fermented(() => 60)
    expect(
      found(us, { jurisdictions: ['CA'], placements: [inF, put('2026-03-02T22:00:00Z')] }, [hot, dried]),
    ).toBeUndefined()
    expect(
      judged({ jurisdictions: ['CA'], placements: [inF, put('2026-03-02T22:00:00Z')] }, [hot, dried]).findings.find(
        (f) => f.rule === 'ca.ferment.degree-hours',
      )?.verdict,
    ).toBe('fail')
  })
  it('moved after the target was reached: nothing is asked', () => {
    expect(judged({ placements: [inF, put('2026-03-03T20:00:00Z')] }).verdict).toBe('pass')
  })
})

describe('a temperature measured by hand against the log', () => {
  const by = (value: number, over: Partial<BatchMeasure> = {}): Partial<BatchFacts> => ({
    measures: [
      ...measures,
      { step: 'ferment', what: 'temperature', value, unit: '°C', taken: '2026-03-02T20:00:00Z', ...over },
    ],
  })
  it('far warmer than the air the log shows: the log is not of it', () => {
    expect(found(us, by(38)).verdict).toBe('cannot-tell')
    expect(record(by(38)).because).toMatch(/38 °C was measured/)
    expect(found(us, by(100.4, { unit: '°F' })).verdict).toBe('cannot-tell')
  })
  it('within three degrees, colder, or after the target: nothing', () => {
    expect(judged(by(27)).verdict).toBe('pass')
    expect(judged(by(15)).verdict).toBe('pass')
    expect(judged(by(38, { taken: '2026-03-03T20:00:00Z' })).verdict).toBe('pass')
  })
})

describe('air that no mix sours in', () => {
  it('at 4 °C, or a 36 read as °F: pH does not fall to 5.1 in 28 h (common practice, no source)', () => {
    for (const c of [4, (36 - 32) / 1.8]) {
      const j = judged({}, [fermented(() => c), dried])
      expect(j.findings.find((f) => f.rule === us)?.verdict).toBe('cannot-tell')
      expect(j.findings.find((f) => f.rule === 'record.ferment')?.because).toMatch(/no mix sours/)
      expect(j.verdict).toBe('cannot-tell')
    }
  })
  it('a cold log that overlaps the drying of another logger is no warmer for it', () => {
    const cold = steady('2026-02-20T08:00:00Z', 24 * 30, 5)
    expect(found(us, {}, [cold, dried]).verdict).toBe('cannot-tell')
    expect(record({}, [cold, dried]).because).toMatch(/no mix sours/)
  })
  it('a log read too seldom to be joined is a hole, and not cold', () => {
    const seldom = { ...fermented(), readings: fermented().readings.filter((r) => r.minute % 360 === 0) }
    expect(found(us, {}, [seldom, dried]).because).toMatch(/nothing is known/)
    expect(record({}, [seldom, dried]).because).not.toMatch(/no mix sours/)
  })
  it('with lactone a mix sours in the cold: it passes where a second record says how cold', () => {
    const recipeBody = {
      ...slow().recipeBody,
      additions: [...slow().recipeBody.additions, { material: 'glucono-delta-lactone', pct: 0.5 }],
    }
    const lines = [...slow().lines, { line: '5', material: 'glucono-delta-lactone', targetKg: 0.1, scale: 'S2' }]
    const weighings = lines.map((l) => ({ line: l.line, kg: l.targetKg, instrument: l.scale }))
    const acid = { recipeBody, lines, weighings }
    const cold = [fermented(() => 4), dried]
    expect(found(us, acid, cold).verdict).toBe('cannot-tell')
    const at4 = [put('2026-03-02T08:00:00Z', 'F', { tempC: 4 }), put('2026-03-04T08:30:00Z', 'D')]
    expect(found(us, { ...acid, placements: at4 }, cold).verdict).toBe('pass')
  })
  it('far under what the recipe plans, or the room is set to: cannot be told', () => {
    const cool = [fermented(() => 15), dried]
    expect(found(us, {}, cool).verdict).toBe('pass')
    const recipeBody = { ...slow().recipeBody, ferment: { targetPh: 5.2, stages: [{ hours: 48, tempC: 24 }] } }
    expect(found(us, { recipeBody }, cool).verdict).toBe('cannot-tell')
    expect(record({ recipeBody }, cool).because).toMatch(/plans 24 °C/)
    const placements = [put('2026-03-02T08:00:00Z', 'F'), put('2026-03-04T08:30:00Z', 'D')]
    expect(record({ placements }, cool).because).toMatch(/set to 24 °C/)
    const hand: BatchMeasure = {
      step: 'ferment',
      what: 'temperature',
      value: 14,
      unit: '°C',
      taken: '2026-03-02T20:00:00Z',
    }
    expect(found(us, { recipeBody, placements, measures: [...measures, hand] }, cool).verdict).toBe('pass')
  })
})

describe('a log that begins before the batch went in', () => {
  const early = (hours: number, c: number) =>
    steady(new Date(1000 * (epoch('2026-03-02T08:00:00Z') - hours * 3600)).toISOString(), hours + 48, c)
  const t1 = { ...checks.find((c) => c.instrument === 'T1')!, on: '2026-02-20' }
  const set: Partial<BatchFacts> = { checks: [t1, ...checks] }
  it('counts from the hanging: 28 h at 24 °C, whatever the days before', () => {
    const placements = [put('2026-03-02T08:00:00Z', 'F'), put('2026-03-04T08:30:00Z', 'D')]
    const f = found(us, { ...set, placements }, [early(96, 24), dried])
    expect(f.measured).toBeCloseTo(28 * 15.2, 6)
    expect(f.verdict).toBe('pass')
    expect(record({ ...set, placements }, [early(96, 24), dried]).verdict).toBe('pass')
  })
  it('counts from the stuffing where that is all that is recorded', () => {
    expect(found(us, set, [early(96, 24), dried]).measured).toBeCloseTo(28 * 15.2, 6)
  })
  it('where nothing says when it went in it cannot be told, and fails by nothing', () => {
    const f = found(us, { ...set, measures: plain }, [early(96, 31), dried])
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(/nothing recorded says when/)
  })
  it('a log that was over before it went in is none of it', () => {
    const old = steady('2025-03-02T08:00:00Z', 48, 24)
    const f = record({}, [old, dried])
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(/before the batch went in/)
  })
})

describe('a pH read before the log begins', () => {
  const read = (taken: string, value: number): Partial<BatchFacts> => ({
    measures: [...measures, { step: 'stuff', what: 'ph', value, taken, instrument: 'PH' }],
  })
  it('ten minutes before, the log within the hour: the log counts from its beginning to the next such reading', () => {
    expect(record(read('2026-03-02T07:50:00Z', 5.25)).verdict).toBe('pass')
    expect(found(us, read('2026-03-02T07:50:00Z', 5.25)).measured).toBeCloseTo(28 * 15.2, 6)
  })
  it('hours before: cannot be told, with the figure as it was read', () => {
    const f = record(read('2026-03-02T05:50:00Z', 5.25))
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(/pH 5\.25 was measured/)
  })
})

describe('logs of one chamber that overlap', () => {
  const curve = slow().curves[0]!
  const two = (a: AirChannel, b: AirChannel) =>
    judged({ curves: [curve, { ...curve, seq: 13 }, slow().curves[1]!] }, [a, { ...b, seq: 13 }, dried])
  const of = (j: ReturnType<typeof judged>) => ['record.ferment', us].map((r) => j.findings.find((f) => f.rule === r)!)
  it('loggers changed with half an hour of both, or a part and then the whole: every hour is logged', () => {
    const first = steady('2026-03-02T08:00:00Z', 20, 24)
    for (const second of [steady('2026-03-03T03:30:00Z', 28, 24), steady('2026-03-02T08:00:00Z', 48, 24)]) {
      const [record, count] = of(two(first, second))
      expect(record!.because).toMatch(/is recorded/)
      expect(count).toMatchObject({ verdict: 'pass', measured: expect.closeTo(28 * 15.2, 6) })
    }
  })
  it('where both saw it the warmer counts', () => {
    const [, count] = of(two(steady('2026-03-02T08:00:00Z', 48, 24), steady('2026-03-02T08:00:00Z', 48, 24.5)))
    expect(count!.measured).toBeCloseTo(28 * 16.1, 6)
  })
  it('that disagree are two airs, and each has to see the whole', () => {
    const [record] = of(two(steady('2026-03-02T08:00:00Z', 20, 24), steady('2026-03-03T03:30:00Z', 28, 30)))
    expect(record!.verdict).toBe('cannot-tell')
  })
  it('two that disagree stay two past an hour outside the room', () => {
    const placements = [
      put('2026-03-02T08:00:00Z', 'F'),
      put('2026-03-02T20:00:00Z'),
      put('2026-03-02T20:30:00Z', 'F'),
      put('2026-03-04T08:20:00Z', 'D'),
    ]
    const logs = [fermented(() => 24), fermented(() => 26, { seq: 13 }), dried]
    const j = judged({ curves: [curve, { ...curve, seq: 13 }, slow().curves[1]!], placements }, logs)
    expect(of(j).map((f) => f.verdict)).toEqual(['pass', 'pass'])
    expect(of(j)[1]!.measured).toBeCloseTo(28 * (26 * 1.8 + 32 - 60), 0)
  })
})

describe('a pH at the target sooner than any mix without an acid sours (common practice, no source)', () => {
  const at = (taken: string, additions = slow().recipeBody.additions): Partial<BatchFacts> => ({
    recipeBody: { ...slow().recipeBody, additions },
    measures: [
      ...measures.filter((m) => m.what !== 'ph' || m.step !== 'ferment'),
      { step: 'ferment', what: 'ph', value: 5.1, taken, instrument: 'PH' },
    ],
  })
  const hot = [fermented(() => 31), dried]
  it('half an hour or three and a half after the hanging: cannot be told', () => {
    for (const taken of ['2026-03-02T08:30:00Z', '2026-03-02T11:30:00Z']) {
      expect(found(us, at(taken), hot).verdict).toBe('cannot-tell')
      expect(record(at(taken), hot).because).toMatch(/no mix without an acid sours so fast/)
      expect(record(at(taken), hot).settle).toMatch(/reading by hand and its time/)
    }
    expect(found(us, at('2026-03-02T12:00:00Z'), hot).verdict).toBe('pass')
  })
  it('with lactone it may', () => {
    const acid = [...slow().recipeBody.additions, { material: 'glucono-delta-lactone', pct: 0.5 }]
    expect(found(us, at('2026-03-02T11:30:00Z', acid), hot).verdict).toBe('pass')
  })
})
