import { describe, expect, it } from 'vitest'
import type { BatchFacts, CurveChannel } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { AirChannel, BatchMeasure } from '../../src/batch/slow-facts.ts'
import { air as soured, checks, epoch, measures, slow } from './slow-batch.ts'

/** A raw product dried without souring: no culture, no fermentation; hung at 08:30, dried to the 25th. */
const { ferment: _f, ...plain } = slow().recipeBody
const recipeBody = { ...plain, kind: 'dried' as const, dry: { lossPct: 35 } }
const end: BatchMeasure = { step: 'dry', what: 'ph', value: 5.8, taken: '2026-03-25T12:00:00Z', instrument: 'PH' }
const unsoured = [...measures.filter((m) => m.what !== 'ph'), end]
const curves = slow().curves.filter((c) => c.purpose === 'dry')
const air = (tempC: (hour: number) => number | null, over: Partial<AirChannel> = {}, days = 24): AirChannel => ({
  seq: 12,
  column: 'air',
  role: 'house',
  readings: Array.from({ length: 48 * days + 1 }, (_, i) => ({ minute: 30 * i, value: tempC(i / 2) })),
  starts: { at: epoch('2026-03-02T08:30:00Z'), zone: 'said' },
  ...over,
})
const judged = (
  change: Partial<BatchFacts> = {},
  logs: readonly AirChannel[] = [air(() => 14)],
  cores: readonly CurveChannel[] = [],
) =>
  judgeBatch(slow({ recipeBody, measures: unsoured, curves, ...change }), cores, {
    air: logs,
    starts: cores.map((c) => ({ seq: c.seq, ...(c.starts ? { starts: c.starts } : {}) })),
  })
const dryAir = (j: ReturnType<typeof judged>) => j.findings.find((f) => f.rule === 'record.dry-air')
const stops = (j: ReturnType<typeof judged>) => j.findings.filter((f) => f.weight !== 'advice' && f.verdict !== 'pass')

describe('a raw product dried and never soured', () => {
  it('in air of 14 °C throughout, with log and water activity, may be released', () => {
    expect(stops(judged())).toEqual([])
    expect(dryAir(judged())?.verdict).toBe('pass')
  })
  it('17 days at 28 °C, pH 5.8, water activity 0.90: cannot be told, with the degree-hours (AMIF 1997; CFIA 4.16)', () => {
    const j = judged({}, [air(() => 28)])
    expect(j.verdict).toBe('cannot-tell')
    expect(dryAir(j)?.verdict).toBe('cannot-tell')
    expect(dryAir(j)?.because).toMatch(/above 60 °F/)
    expect(dryAir(j)?.because).toMatch(/over the limit/)
    expect(dryAir(j)?.settle).toMatch(/enterotoxin/)
  })
  it('with no log, with one that cannot be placed, or with one of last year: cannot be told', () => {
    for (const set of [
      judged({ curves: [] }, []),
      judged({}, []),
      judged({}, [{ ...air(() => 14), trouble: 'room.csv cannot be read' }]),
      judged({}, [air(() => 14, { starts: { at: epoch('2025-03-02T08:30:00Z'), zone: 'said' } })]),
    ]) {
      expect(dryAir(set)?.verdict).toBe('cannot-tell')
      expect(set.verdict).not.toBe('pass')
    }
  })
  it('a log that begins a day late, stops days before the end, or has a hole of a day: cannot be told', () => {
    const late = air(() => 14, { starts: { at: epoch('2026-03-03T08:30:00Z'), zone: 'said' } })
    expect(dryAir(judged({}, [late]))?.because).toMatch(/begins 24\.5 h after/)
    expect(dryAir(judged({}, [air(() => 14, {}, 17)]))?.because).toMatch(/ends .* before/)
    expect(dryAir(judged({}, [air((h) => (h > 100 && h < 124 ? null : 14))]))?.verdict).toBe('cannot-tell')
    expect(dryAir(judged({}, [air((h) => (h > 100 && h < 104 ? null : 14))]))?.verdict).toBe('pass')
  })
  it('six hours above the base in all, and no more (after the six of the come-up, FSIS-GD-2021-14, p. 23)', () => {
    const warm = (hours: number) => air((h) => (h >= 50 && h < 50 + hours ? 20 : 14))
    expect(dryAir(judged({}, [warm(5)]))?.verdict).toBe('pass')
    expect(dryAir(judged({}, [warm(8)]))?.verdict).toBe('cannot-tell')
  })
  it('the error of the thermometer counts', () => {
    expect(dryAir(judged({}, [air(() => 15.2)]))?.verdict).toBe('pass')
    expect(dryAir(judged({}, [air(() => 15.4)]))?.verdict).toBe('cannot-tell')
    const unchecked = { checks: checks.filter((c) => c.instrument !== 'T1') }
    expect(dryAir(judged(unchecked))?.verdict).toBe('cannot-tell')
  })
  it('once a water activity stops S. aureus by itself (below 0.83: ICMSF) the air is no longer asked about', () => {
    const dry: BatchMeasure = { step: 'dry', what: 'aw', value: 0.8, taken: '2026-03-20T12:00:00Z', instrument: 'AW' }
    const calibrated = [
      ...checks,
      ...checks.filter((c) => c.instrument === 'AW').map((c) => ({ ...c, on: '2026-03-20' })),
    ]
    const end08 = unsoured.map((m) => (m.what === 'aw' ? { ...m, value: 0.8 } : m))
    const warmAfter = air((h) => (h > 24 * 18.5 ? 24 : 14))
    expect(dryAir(judged({}, [warmAfter]))?.verdict).toBe('cannot-tell')
    expect(dryAir(judged({ measures: [...end08, dry], checks: calibrated }, [warmAfter]))?.verdict).toBe('pass')
  })
  it('a log colder than anything dries in is asked about unless something else says so', () => {
    const cold = judged({}, [air(() => (36 - 32) / 1.8)])
    expect(dryAir(cold)?.verdict).toBe('cannot-tell')
    const placements = [{ at: '2026-03-02T08:30:00Z', room: 'D', purpose: 'dry' as const, tempC: 3 }]
    expect(dryAir(judged({ placements }, [air(() => 2.2)]))?.verdict).toBe('pass')
  })
})

describe('where a raw product hung while it dried', () => {
  const D = { room: 'D', purpose: 'dry' as const, tempC: 14 }
  const W = { room: 'W', purpose: 'dry' as const, tempC: 25 }
  const day = (n: number, clock = '08:30') => `2026-03-${String(n).padStart(2, '0')}T${clock}:00Z`
  const hung = { at: day(2), ...D }
  const away = (days: readonly number[], back = '13:30') =>
    dryAir(
      judged({
        placements: [
          hung,
          ...days.flatMap((n) => [
            { at: day(n), ...W },
            { at: day(n, back), ...D },
          ]),
        ],
      }),
    )
  it('five hours in a warm room without a log count as warm, and no more than six are let go', () => {
    expect(away([4])?.verdict).toBe('pass')
    expect(away([4, 5])?.because).toMatch(/10\.0 h where nobody logged the air counted as warm/)
    expect(away([4, 5, 6, 7, 8, 9, 10, 11, 12, 13])?.verdict).toBe('cannot-tell')
    expect(away([4], '20:30')?.because).toMatch(/W, of which there is no log/)
  })
  it('taken out after three cold days to nobody knows where: the end was measured long after', () => {
    const out = { placements: [hung, { at: day(5) }], measures: unsoured.filter((m) => m.what !== 'weight') }
    const stuffed: BatchMeasure = { step: 'stuff', what: 'temperature', value: 2, unit: '°C', taken: day(2, '08:00') }
    const j = dryAir(judged({ ...out, measures: [...out.measures, stuffed] }))
    expect(j?.verdict).toBe('cannot-tell')
    expect(j?.because).toMatch(/ends 2026-03-05 08:30, 20\.1 days before/)
    const cold = { at: day(5), room: 'C', purpose: 'cold' as const, tempC: 3 }
    const chilled = { ...out, measures: [...out.measures, stuffed], placements: [hung, cold] }
    expect(dryAir(judged(chilled))?.verdict).toBe('pass')
  })
  it('taken out an hour before it is weighed and measured: the usual order of work', () => {
    expect(stops(judged({ placements: [hung, { at: day(25, '11:00') }] }))).toEqual([])
    expect(stops(judged({ placements: [hung, { at: day(24, '13:00') }] }))).toEqual([])
    expect(dryAir(judged({ placements: [hung, { at: day(24, '11:00') }] }))?.verdict).toBe('cannot-tell')
  })
  it('logs that overlap by half an hour, or a part and then the whole: every hour is logged', () => {
    const both = { curves: [...curves, { ...curves[0]!, seq: 14 }] }
    const second = (days: number, from: string) =>
      air(() => 14, { seq: 14, starts: { at: epoch(from), zone: 'said' } }, days)
    for (const b of [second(16, day(11, '08:00')), second(24, day(2))])
      expect(dryAir(judged(both, [air(() => 14, {}, 9), b]))?.verdict).toBe('pass')
  })
  it('nothing recorded of its stuffing or hanging: the way out is to record it', () => {
    const j = dryAir(judged({ measures: unsoured.filter((m) => m.what !== 'weight') }))
    expect(j?.because).toMatch(/nothing recorded/)
    expect(j?.settle).toMatch(/the room it was put in and at what time.*marked piece/)
    expect(j?.settle).not.toMatch(/whole log/)
  })
  it('a water activity no product has on the day it was made, or days after, stops nothing', () => {
    const low = (taken: string): BatchMeasure => ({ step: 'dry', what: 'aw', value: 0.8, taken, instrument: 'AW' })
    const on = ['2026-03-02', '2026-03-04']
    const calibrated = [
      ...checks,
      ...on.flatMap((d) => checks.filter((c) => c.instrument === 'AW').map((c) => ({ ...c, on: d }))),
    ]
    const end08 = unsoured.map((m) => (m.what === 'aw' ? { ...m, value: 0.8 } : m))
    for (const d of on)
      expect(
        dryAir(judged({ measures: [...end08, low(`${d}T09:00:00Z`)], checks: calibrated }, [air(() => 28)]))?.verdict,
      ).toBe('cannot-tell')
  })
})

describe('a dried product whose measured pH is 5.3 or less was soured, at whatever step it was read', () => {
  const sour = { ...end, value: 5 }
  const withSugar = { ...recipeBody, additions: [...recipeBody.additions, { material: 'sugar', pct: 0.8 }] }
  it('with sugar, no culture and no log: cannot be told', () => {
    const j = judged({ recipeBody: withSugar, measures: [...unsoured.filter((m) => m !== end), sour], curves: [] }, [])
    expect(j.ferment).toBeDefined()
    expect(j.verdict).not.toBe('pass')
  })
  it('dried in cold air on its log from the hanging on is judged by that log', () => {
    expect(stops(judged({ measures: [...unsoured.filter((m) => m !== end), sour] }))).toEqual([])
  })
  it('warm until that reading: its degree-hours are over', () => {
    const j = judged({ measures: [...unsoured.filter((m) => m !== end), sour] }, [air(() => 28)])
    expect(j.findings.find((f) => f.rule === 'us.ferment.degree-hours')?.verdict).toBe('fail')
  })
})

describe('a dried product that only one pH says is sour', () => {
  const early = (value: number, taken: string, step = 'mix'): BatchMeasure => ({ ...end, step, value, taken })
  const asked = (ms: readonly BatchMeasure[], c = 28) => judged({ measures: [...unsoured, ...ms] }, [air(() => c)])
  const record = (j: ReturnType<typeof judged>) => j.findings.find((f) => f.rule === 'record.ferment')
  it('5.25 on the day it was made and 5.8 at the end: it was not found again', () => {
    const j = asked([early(5.25, '2026-03-02T14:00:00Z')])
    expect(j.verdict).not.toBe('pass')
    expect(record(j)?.because).toMatch(/5\.25 .*was not found again later/)
    expect(j.findings.find((f) => f.rule === 'us.ferment.degree-hours')?.verdict).not.toBe('pass')
  })
  it('found again the next day, in cold air: it counts', () => {
    const two = [early(5.25, '2026-03-02T14:00:00Z'), early(5.2, '2026-03-03T14:00:00Z', 'dry')]
    expect(record(asked(two, 14))?.verdict).toBe('pass')
  })
  it('taken out an hour before that reading at the end: the usual order of work', () => {
    const placements = [
      { at: '2026-03-02T08:30:00Z', room: 'D', purpose: 'dry' as const, tempC: 14 },
      { at: '2026-03-25T11:00:00Z' },
    ]
    const j = judged({ placements, measures: [...unsoured.filter((m) => m !== end), { ...end, value: 5.2 }] })
    expect(record(j)?.verdict).toBe('pass')
  })
  it('a pH over the target entered at the fermentation: the way out is to correct its step', () => {
    const j = judged({ measures: [...unsoured, early(5.8, '2026-03-02T08:30:00Z', 'ferment')] })
    expect(record(j)?.verdict).toBe('cannot-tell')
    expect(record(j)?.settle).toMatch(/where it was not to sour: the pH corrected with the step/)
  })
  it('a soured one of which nothing says when it was hung: the way out is to record it', () => {
    const bare = measures.filter((m) => m.what !== 'weight')
    const j = judgeBatch(slow({ measures: bare }), [], { air: soured })
    expect(record(j)?.settle).toMatch(/^when it was stuffed or hung/)
    expect(j.findings.find((f) => f.rule === 'us.ferment.degree-hours')?.settle).toMatch(/^when it was stuffed or hung/)
    expect(record(j)?.settle).not.toMatch(/whole log/)
  })
})

describe('what is cooked first and dried after', () => {
  const cook = (at: string): CurveChannel => ({
    seq: 13,
    column: 'core',
    starts: { at: epoch(at), zone: 'said' },
    log: Array.from({ length: 421 }, (_, minute) => ({
      minute,
      coreC: minute < 150 ? 10 + (minute / 150) * 62 : minute < 165 ? 72 : Math.max(3, 72 - (minute - 165) * 0.9),
    })),
  })
  const cookCurve = {
    seq: 13,
    purpose: 'cook-and-chill' as const,
    channels: [{ column: 'core', role: 'core', instrument: 'T1' }],
  }
  const cooked = { ...recipeBody, kind: 'cooked' as const, cook: { targetCoreC: 71 } }
  it('is not asked about the air it dries in', () => {
    const j = judged(
      { recipeBody: cooked, curves: [...curves, cookCurve] },
      [air(() => 28)],
      [cook('2026-03-02T08:30:00Z')],
    )
    expect(dryAir(j)).toBeUndefined()
  })
  it('dried warm and cooked after it is: the toxin stands the cook', () => {
    const j = judged(
      { recipeBody: cooked, curves: [...curves, cookCurve] },
      [air(() => 28)],
      [cook('2026-03-20T08:30:00Z')],
    )
    expect(dryAir(j)?.verdict).toBe('cannot-tell')
  })
  const sent = (at: string, change: Partial<BatchFacts> = {}, logs: readonly AirChannel[] = []) =>
    dryAir(judged({ recipeBody: cooked, curves: [cookCurve], treatments: [], ...change }, logs, [cook(at)]))
  const hung = { at: '2026-03-02T08:30:00Z', room: 'W', purpose: 'ferment' as const, tempC: 25 }
  it('some hours after the stuffing, as usual: nothing is asked (the six of the come-up, FSIS-GD-2021-14, p. 23)', () => {
    for (const at of ['2026-03-02T12:00:00Z', '2026-03-02T14:00:00Z']) expect(sent(at)).toBeUndefined()
    expect(sent('2026-03-02T14:30:00Z')?.because).toMatch(/6\.5 h are not known to have been cold/)
  })
  it('two days in a warm room without a log, then cooked: the toxin stands the cook', () => {
    for (const kind of ['cooked', 'dried'] as const)
      expect(sent('2026-03-04T10:00:00Z', { recipeBody: { ...cooked, kind }, placements: [hung] })?.verdict).toBe(
        'cannot-tell',
      )
  })
  it('the hours in a cold room are none of them', () => {
    const cold = { ...hung, room: 'C', purpose: 'cold' as const, tempC: 3 }
    expect(sent('2026-03-04T10:00:00Z', { placements: [cold] })).toBeUndefined()
    expect(sent('2026-03-04T10:00:00Z', { placements: [{ ...cold, tempC: 12 }] })?.verdict).toBe('cannot-tell')
  })
  it('not known when it was cooked, or stuffed: cannot be told', () => {
    const { starts: _s, ...undated } = cook('2026-03-02T12:00:00Z')
    const j = judged({ recipeBody: cooked, curves: [cookCurve], measures: [end], treatments: [] }, [], [undated])
    expect(dryAir(j)?.verdict).toBe('cannot-tell')
    expect(sent('2026-03-02T12:00:00Z', { measures: [end] })?.settle).toMatch(/room it was put in/)
  })
  it('and reads 5.3 at the end with nothing in it that sours: the degree-hours after its cook fail nothing', () => {
    const measured = [...unsoured.filter((m) => m !== end), { ...end, value: 5.2 }]
    const us = (cooks: boolean) =>
      judged(
        { recipeBody: cooked, curves: cooks ? [...curves, cookCurve] : curves, measures: measured },
        [air(() => 22, { starts: { at: epoch('2026-03-02T20:00:00Z'), zone: 'said' } })],
        cooks ? [cook('2026-03-02T11:00:00Z')] : [],
      ).findings.find((f) => f.rule === 'us.ferment.degree-hours')
    expect(us(true)).toMatchObject({ verdict: 'cannot-tell', because: expect.stringMatching(/after a proven cook/) })
    expect(us(false)?.verdict).toBe('fail')
  })
  it('with glucono-delta-lactone and a drying it is soured, and asked for its log', () => {
    const sour = { ...cooked, additions: [...cooked.additions, { material: 'glucono-delta-lactone', pct: 0.5 }] }
    const j = judged({ recipeBody: sour, curves: [cookCurve], measures: [end] }, [], [cook('2026-03-02T20:00:00Z')])
    expect(j.findings.find((f) => f.rule === 'record.ferment')?.verdict).toBe('cannot-tell')
  })
  it('with an acid that the cook sets free is sour after it, and was not soured', () => {
    const acid = { ...cooked, additions: [...cooked.additions, { material: 'citric-acid-encapsulated', pct: 0.4 }] }
    const of = (step: string, recipeBody: BatchFacts['recipeBody']) =>
      judged(
        { recipeBody, curves: [cookCurve], measures: [...unsoured, { ...end, step, value: 5 }] },
        [],
        [cook('2026-03-02T08:30:00Z')],
      ).ferment
    for (const step of ['cook', 'chill', 'dry', 'pack']) expect(of(step, acid)).toBeUndefined()
    expect(of('mix', acid)).toBeDefined()
    expect(of('dry', cooked)).toBeDefined()
    expect(of('dry', { ...acid, kind: 'dried' })).toBeDefined()
  })
})
