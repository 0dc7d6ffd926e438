import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { AirChannel } from '../../src/batch/slow-facts.ts'
import { correctivesFor } from '../../src/corrective/choices.ts'
import { air, checks, dried, epoch, fermented, instruments, measures, slow } from './slow-batch.ts'

const judged = (change: Partial<BatchFacts> = {}, logs: readonly AirChannel[] = air) =>
  judgeBatch(slow(change), [], { air: logs })
const found = (rule: string, change: Partial<BatchFacts> = {}, logs: readonly AirChannel[] = air) =>
  judged({ jurisdictions: ['EU'], ...change }, logs).findings.find((f) => f.rule === rule)!
const ca = 'ca.ferment.degree-hours'
const us = 'us.ferment.degree-hours'

describe('a fermented batch with nothing missing', () => {
  it('may be released: every binding finding passes', () => {
    const { verdict, findings } = judged()
    expect(findings.filter((f) => f.weight !== 'advice' && f.verdict !== 'pass')).toEqual([])
    expect(verdict).toBe('pass')
  })

  it('counts 28 h at 24 °C as 235.2 °C·h above 15.6 °C (CFIA, MOP chapter 4, 4.16: Σ h × (T − 15.6), by hand)', () => {
    // pH 5.1 was measured 28 h after 08:00; 28 × 8.4 = 235.2.
    expect(found(ca).measured).toBeCloseTo(235.2, 6)
    expect(found(ca).verdict).toBe('pass')
  })

  it('says that the Canadian degree-hours stand in where the rulebook holds none of the place', () => {
    expect(found(ca).because).toMatch(/none|no degree-hours of EU/)
    expect(found(ca, { jurisdictions: ['CA'] }).because).not.toMatch(/stand in/)
    expect(judged({ jurisdictions: ['US'] }).findings.some((f) => f.rule === ca)).toBe(false)
  })

  it('counts in °F·h above 60 °F for the US: 28 h × (75.2 − 60) = 425.6 (AMIF 1997, by hand)', () => {
    expect(found(us, { jurisdictions: ['US'] }).measured).toBeCloseTo(425.6, 6)
    expect(found(us, { jurisdictions: ['US'] }).verdict).toBe('pass')
  })
})

describe('the edge of the degree-hours (CFIA: 665 °C·h below 33 °C, the limit itself kept)', () => {
  // 28 h at T: 665 / 28 + 15.6 = 39.35 is above 33 °C, so the 500 °C·h of the hottest class decides: 500 / 28 + 15.6 = 33.457…
  const at = (c: number, toleranceC = 1e-6) =>
    found(
      ca,
      {
        instruments: instruments.map((i) => (i.instrument === 'T1' ? { ...i, toleranceC } : i)),
        checks: checks.map((k) => (k.instrument === 'T1' ? { ...k, tolerance: toleranceC } : k)),
      },
      [fermented(() => c), dried],
    )
  it('33 to 37 °C: 555 °C·h over 28 h is kept at 35.42 °C and missed at 35.43 °C', () => {
    expect(at(35.42).verdict).toBe('pass')
    expect(at(35.43).verdict).toBe('fail')
  })
  it('lies within the error of the thermometer just below the edge', () => {
    expect(at(35.3, 0.3).verdict).toBe('cannot-tell')
    expect(at(35.3, 0.3).because).toMatch(/thermometer/)
  })
  it('opens the published dispositions where it is missed, and holds the batch', () => {
    const { findings, verdict } = judged({ jurisdictions: ['CA'] }, [fermented(() => 36), dried])
    expect(verdict).toBe('fail')
    const open = correctivesFor(findings).map((c) => c.id)
    expect(open).toContain('corrective.ferment.hold')
    expect(open).toContain('corrective.ferment.test')
  })
})

describe('what is missing leaves it open', () => {
  it('a pH meter not calibrated that day', () => {
    const without = checks.filter((c) => !(c.instrument === 'PH' && c.on === '2026-03-03'))
    const late = measures.filter((m) => m.step !== 'dry' || m.what !== 'ph')
    const f = found(ca, { checks: without, measures: late })
    expect(f.verdict).toBe('cannot-tell')
    expect(f.because).toMatch(/not calibrated/)
    expect(found('record.ferment-ph', { checks: without, measures: late }).verdict).toBe('cannot-tell')
  })

  it('a buffer check that failed that day, or a check by another method', () => {
    const bad = checks.map((c) => (c.instrument === 'PH' && c.on === '2026-03-03' ? { ...c, good: false } : c))
    const other = checks.map((c) =>
      c.instrument === 'PH' && c.on === '2026-03-03' ? { ...c, method: 'comparison' } : c,
    )
    const late = measures.filter((m) => m.step !== 'dry' || m.what !== 'ph')
    expect(found(ca, { checks: bad, measures: late }).verdict).toBe('cannot-tell')
    expect(found(ca, { checks: other, measures: late }).verdict).toBe('cannot-tell')
  })

  it('a later reading that counts ends the count where it was taken', () => {
    const without = checks.filter((c) => !(c.instrument === 'PH' && c.on === '2026-03-03'))
    // pH 5.15 of 25 March counts: the log runs to then, at 14 °C from the third day on.
    const f = found(ca, { checks: without })
    expect(f.verdict).toBe('pass')
    expect(f.measured).toBeCloseTo(48 * 8.4 + (24 - 15.6) ** 2 / 2 / 20, 6)
  })

  it('a hole in the warm phase; one after the target was reached changes nothing', () => {
    const holed = (from: number, to: number) => fermented((h) => (h >= from && h <= to ? null : 24))
    expect(found(ca, {}, [holed(6, 9), dried]).verdict).toBe('cannot-tell')
    expect(found(ca, {}, [holed(6, 9), dried]).settle).toMatch(/enterotoxin/)
    expect(found(ca, {}, [holed(40, 44), dried]).verdict).toBe('pass')
  })

  it('a log that is cut off before the pH was measured', () => {
    const cut = { ...fermented(), readings: fermented().readings.filter((r) => r.minute <= 20 * 60) }
    expect(found(ca, {}, [cut]).verdict).toBe('cannot-tell')
  })

  it('a log that begins hours after the batch was hung', () => {
    const late = {
      placements: [{ at: '2026-03-02T02:00:00Z', room: 'R1', purpose: 'ferment' as const }],
    }
    expect(found('record.ferment', late).verdict).toBe('cannot-tell')
    expect(found('record.ferment', late).because).toMatch(/6\.0 h/)
  })

  it('a log that begins after the day of the batch, unless it was recorded that it was kept cold until then', () => {
    const next = { ...fermented(), starts: { at: epoch('2026-03-03T13:00:00Z'), zone: 'said' as const } }
    const later = measures
      .map((m) =>
        m.what === 'ph' && m.step === 'ferment'
          ? { ...m, taken: m.taken.replace('03-03', '03-04').replace('03-02', '03-03') }
          : m,
      )
      .map((m) => (m.what === 'ph' && m.value === 5.8 ? { ...m, taken: '2026-03-03T13:30:00Z' } : m))
    expect(found('record.ferment', { measures: later }, [next]).because).toMatch(/29\.0 h after it was stuffed/)
    const placements = [
      { at: '2026-03-02T11:00:00Z', room: 'C1', purpose: 'cold' as const, tempC: 2 },
      { at: '2026-03-03T13:00:00Z', room: 'R1', purpose: 'ferment' as const },
    ]
    expect(found('record.ferment', { measures: later, placements }, [next]).verdict).toBe('pass')
  })

  it('a log that begins when the target was reached already counts nothing, and proves nothing', () => {
    const late = { ...fermented(), starts: { at: epoch('2026-03-03T13:00:00Z'), zone: 'said' as const } }
    for (const step of ['ferment', 'dry', 'stuff']) {
      const set = measures.map((m) => (m.what === 'ph' && m.value === 5.1 ? { ...m, step } : m))
      expect(found('record.ferment', { measures: set }, [late]).verdict).toBe('cannot-tell')
      expect(judged({ measures: set }, [late]).verdict).not.toBe('pass')
    }
  })

  it('a dried batch that was soured is judged as one, whatever its recipe says', () => {
    const { ferment: _ferment, ...plain } = slow().recipeBody
    const recipeBody = { ...plain, kind: 'dried' as const }
    expect(found(ca, { recipeBody }).verdict).toBe('pass')
    const never = { recipeBody, curves: [], measures: measures.filter((m) => m.what !== 'ph') }
    expect(judged(never, []).ferment).toBeUndefined()
  })

  it('a recipe with a cook and no log of it', () => {
    const recipeBody = { ...slow().recipeBody, cook: { targetCoreC: 58 } }
    expect(found('record.cook-log', { recipeBody }).verdict).toBe('cannot-tell')
  })

  it('no log, no channel of the air, a file that cannot be read, a log without a date', () => {
    expect(found('record.ferment', {}, []).verdict).toBe('cannot-tell')
    expect(found('record.ferment', { curves: [] }, []).verdict).toBe('cannot-tell')
    expect(found('record.ferment', {}, [{ ...fermented(), trouble: 'air.csv cannot be read' }]).because).toMatch(
      /air\.csv/,
    )
    const { starts: _, ...undated } = fermented()
    expect(found('record.ferment', {}, [undated]).because).toMatch(/no date/)
    for (const logs of [[], [undated]]) expect(judged({}, logs).verdict).not.toBe('pass')
  })

  it('a fermentation log in trouble beside the log of the drying: what that one counts says nothing of the fermentation', () => {
    const { starts: _, ...undated } = fermented()
    for (const bad of [{ ...fermented(), trouble: 'air.csv cannot be read' }, undated]) {
      const degreeHours = found(ca, {}, [bad, dried])
      expect(degreeHours.verdict).toBe('cannot-tell')
      expect(degreeHours.because).toMatch(/air\.csv cannot be read|no date/)
      expect(degreeHours.settle).toMatch(/whole log of the chamber/)
    }
    const unlogged = { curves: slow().curves.filter((c) => c.purpose === 'dry') }
    expect(found(ca, unlogged, [dried]).verdict).toBe('cannot-tell')
    // What is over the limit by the drying alone is over it whatever the fermentation added.
    expect(
      found(ca, unlogged, [{ ...dried, readings: dried.readings.map((r) => ({ ...r, value: 40 })) }]).verdict,
    ).not.toBe('pass')
  })

  it('only the humidity of the chamber', () => {
    const humid = { column: 'rh', role: 'humidity' }
    const moist: AirChannel = { ...fermented(), seq: 13, column: 'rh', role: 'humidity' }
    const alone = { curves: [{ seq: 13, purpose: 'ferment' as const, channels: [humid] }] }
    expect(found('record.ferment', alone, [moist]).because).toMatch(/no channel of the air/)
    // Beside the air's own log it is no log without air.
    const beside = { curves: [...slow().curves, ...alone.curves] }
    expect(found('record.ferment', beside, [...air, moist]).verdict).toBe('pass')
    expect(judged(beside, [...air, moist]).verdict).toBe('pass')
    const nothing = { curves: [...slow().curves, { seq: 14, purpose: 'ferment' as const, channels: [] }] }
    expect(found('record.ferment', nothing, air).because).toMatch(/no channel of the air/)
  })

  it('a chamber thermometer past its check, never checked, unnamed, or of unknown error', () => {
    const t1 = (change: object) => instruments.map((i) => (i.instrument === 'T1' ? { ...i, ...change } : i))
    expect(found(ca, { checks: checks.filter((c) => c.instrument !== 'T1') }).verdict).toBe('cannot-tell')
    expect(
      found(ca, { checks: checks.map((c) => (c.instrument === 'T1' ? { ...c, on: '2026-01-01' } : c)) }).because,
    ).toMatch(/past its check/)
    expect(found(ca, { instruments: t1({ toleranceC: undefined }) }).verdict).toBe('cannot-tell')
    const unnamed = slow().curves.map((c) => ({ ...c, channels: [{ column: 'air', role: 'house' }] }))
    expect(found(ca, { curves: unnamed }).verdict).toBe('cannot-tell')
  })

  it('a pH that never reached the target', () => {
    const high = measures.map((m) => (m.what === 'ph' ? { ...m, value: 5.5 } : m))
    expect(found(ca, { measures: high }).verdict).toBe('cannot-tell')
    expect(found('record.ferment-ph', { measures: high }).verdict).toBe('fail')
    const none = measures.filter((m) => m.what !== 'ph')
    expect(found(ca, { measures: none }).verdict).toBe('cannot-tell')
  })
})

describe('several pieces and several loggers', () => {
  it('one piece that lags holds the batch back', () => {
    const lagging = measures.flatMap((m) =>
      m.what === 'ph' && m.step === 'ferment' && m.value === 5.1
        ? [
            { ...m, piece: 'A' },
            { ...m, piece: 'B', value: 5.6 },
          ]
        : m.step === 'dry' && m.what === 'ph'
          ? []
          : [m],
    )
    expect(found(ca, { measures: lagging }).verdict).toBe('cannot-tell')
  })

  it('takes the warmest of two channels, and the worse of two loggers side by side', () => {
    const curve = (seq: number) => ({
      seq,
      purpose: 'ferment' as const,
      channels: [
        { column: 'air', role: 'house', instrument: 'T1' },
        { column: 'top', role: 'house', instrument: 'T1' },
      ],
    })
    const top = fermented(() => 30, { column: 'top' })
    expect(found(ca, { curves: [curve(11)] }, [fermented(), top]).measured).toBeCloseTo(28 * 14.4, 6)
    const beside = fermented(() => 36, { seq: 13 })
    expect(found(ca, { curves: [curve(11), curve(13)] }, [fermented(), beside]).verdict).toBe('fail')
  })
})

describe('a clock whose zone nobody stated', () => {
  const unsaid = (c: number): AirChannel =>
    fermented(() => c, { starts: { at: epoch('2026-03-02T08:00:00Z'), zone: 'unsaid' } })
  const after: AirChannel = { ...dried, starts: { ...dried.starts!, zone: 'unsaid' } }
  it('passes only where fourteen more hours keep the limit, too', () => {
    expect(found(ca, {}, [unsaid(24), after]).measured).toBeCloseTo(42 * 8.4, 6)
    expect(found(ca, {}, [unsaid(24), after]).verdict).toBe('pass')
    const near = found(ca, {}, [unsaid(32), after])
    expect(near.verdict).toBe('cannot-tell')
    expect(near.settle).toMatch(/first reading/)
    expect(found(ca, {}, [fermented(() => 32), dried]).verdict).toBe('pass')
  })
})
