import { describe, expect, it } from 'vitest'
import type { BatchFacts, CurveChannel } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { AirChannel } from '../../src/batch/slow-facts.ts'
import { checks, fermented, measures, slow } from './slow-batch.ts'

/** Beef in it, so that five tenfolds of E. coli O157:H7 are asked for. */
const beef: Partial<BatchFacts> = {
  lines: slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'beef-trim-90-10' } : l)),
  lots: slow().lots.map((l) => (l.lot === 'L1' ? { ...l, material: 'beef-trim-90-10' } : l)),
  measures: measures.flatMap((m) =>
    m.what === 'ph' && m.step === 'ferment' && m.value === 5.1
      ? [{ ...m, value: 4.55, taken: '2026-03-03T12:00:00Z' }]
      : m.what === 'ph' && m.step === 'dry'
        ? [{ ...m, value: 4.55 }]
        : [m],
  ),
}
/** Chamber at 32.5 °C to pH 4.55 in 28 h, then so many hours at so many degrees, a reading each half hour. */
const chamber = (...heat: readonly (readonly [number, number])[]): AirChannel =>
  fermented(
    (h) => {
      let at = 28
      for (const [hours, c] of heat) {
        if (h > at && h <= at + hours + 0.01) return c
        at += hours
      }
      return 32.5
    },
    {
      readings: Array.from({ length: 2 * (28 + heat.reduce((s, [h]) => s + h, 0)) + 1 }, (_, i) => ({
        minute: i * 30,
        value: i / 2 <= 28 ? 32.5 : heatAt(i / 2, heat),
      })),
    },
  )
function heatAt(h: number, heat: readonly (readonly [number, number])[]): number {
  let at = 28
  for (const [hours, c] of heat) {
    if (h > at && h <= at + hours + 1e-9) return c
    at += hours
  }
  return 32.5
}
const judged = (air: AirChannel, change: Partial<BatchFacts> = {}, cores: readonly CurveChannel[] = []) =>
  judgeBatch(slow({ jurisdictions: ['CA'], ...beef, ...change }), cores, { air: [air] })
const ask = (air: AirChannel, change: Partial<BatchFacts> = {}) =>
  judged(air, change).findings.find((f) => f.rule === 'ca.ferment.e-coli')

describe('five tenfolds of E. coli O157:H7 where there is beef (CFIA Annex K, option 2, as quoted)', () => {
  // pH at most 4.6 at 32 °C, up to 55 mm, then 1 h at 43.3 °C and 6 h at 51.7 °C; the thermometer may be off by 0.3 °C.
  it('passes where the combination was followed, each edge on both sides', () => {
    expect(ask(chamber([1.5, 44], [6.5, 52.1]))?.verdict).toBe('pass')
    expect(ask(chamber([1.5, 44], [5.5, 52.1]))?.verdict).toBe('cannot-tell')
    expect(ask(chamber([6.5, 52.1]))?.verdict).toBe('cannot-tell')
    expect(ask(chamber([1.5, 44], [6.5, 51.8]))?.verdict).toBe('cannot-tell')
    expect(
      ask(chamber([1.5, 44], [6.5, 52.1]), { recipeBody: { ...slow().recipeBody, casing: { calibreMm: 56 } } })
        ?.verdict,
    ).toBe('cannot-tell')
    const high = beef.measures!.map((m) => (m.value === 4.55 ? { ...m, value: 4.61 } : m))
    expect(ask(chamber([1.5, 44], [6.5, 52.1]), { measures: high })?.verdict).toBe('cannot-tell')
  })

  it('a meter or thermometer that may not be believed leaves it open', () => {
    const air = chamber([1.5, 44], [6.5, 52.1])
    expect(ask(air, { checks: checks.filter((c) => c.instrument !== 'PH') })?.verdict).toBe('cannot-tell')
    expect(ask(air, { checks: checks.filter((c) => c.instrument !== 'T1') })?.verdict).toBe('cannot-tell')
    expect(ask({ ...air, starts: { ...air.starts!, zone: 'unsaid' } })?.verdict).toBe('cannot-tell')
  })

  it('is asked for in the US and Canada alone, and only of beef', () => {
    const air = chamber([1, 33])
    expect(judged(air, { jurisdictions: ['EU'] }).findings.some((f) => f.rule.endsWith('.e-coli'))).toBe(false)
    expect(
      judgeBatch(slow({ jurisdictions: ['CA'] }), [], { air: [air] }).findings.some((f) => f.rule.endsWith('.e-coli')),
    ).toBe(false)
    expect(ask(air)?.verdict).toBe('cannot-tell')
    expect(ask(air)?.settle).toMatch(/tested/)
  })

  it('an estimate of slow death passes nothing: the US asks about Salmonella as advice, and a log without a cook leaves it open', () => {
    const f = judged(chamber([1, 33]), { jurisdictions: ['US'] }).findings.find(
      (x) => x.rule === 'us.ferment.salmonella',
    )
    expect(f?.verdict).toBe('cannot-tell')
    expect(f?.weight).toBe('advice')
    expect(f?.because).toMatch(/judged without it.*9 CFR 417\.2/)
  })
})

describe('fermented, then cooked', () => {
  const cook: CurveChannel = {
    seq: 13,
    column: 'core',
    starts: { at: Date.parse('2026-03-03T13:00:00Z') / 1000, zone: 'said' },
    log: Array.from({ length: 421 }, (_, minute) => ({
      minute,
      coreC: minute < 150 ? 24 + (minute / 150) * 48 : minute < 165 ? 72 : Math.max(3, 72 - (minute - 165) * 0.9),
    })),
  }
  const curves = [
    ...slow().curves,
    {
      seq: 13,
      purpose: 'cook-and-chill' as const,
      channels: [{ column: 'core', role: 'core', instrument: 'T1' }],
    },
  ]
  const cooked = (change: Partial<BatchFacts> = {}, log = cook) =>
    judgeBatch(slow({ jurisdictions: ['US'], ...beef, curves, ...change }), [log], { air: [fermented()] })

  it('a proven cook answers for E. coli, Salmonella and the meat', () => {
    const { findings } = cooked({ treatments: [] })
    for (const rule of ['us.ferment.e-coli', 'us.ferment.salmonella', 'process.raw-pork'])
      expect(findings.find((f) => f.rule === rule)?.verdict, rule).toBe('pass')
  })

  it('the degree-hours stand in for the limit on the coming up (FSIS-GD-2021-14, p. 23), and only where they were kept', () => {
    // Seven hours to come up from 24 °C: over six hours between 10 and 54.4 °C.
    const slowly = { ...cook, log: cook.log.map((r) => ({ ...r, minute: r.minute * 4 })) }
    const rule = 'us.fsis.lethality.come-up'
    const of = (change: Partial<BatchFacts> = {}) => cooked(change, slowly).findings.find((f) => f.rule === rule)
    expect(of()?.verdict).toBe('pass')
    expect(of()?.because).toMatch(/degree-hours/)
    expect(of({ checks: checks.filter((c) => c.instrument !== 'PH') })?.verdict).not.toBe('pass')
  })
})

describe('heat measured inside (Hinkens et al. 1996: 36 °C to pH 5.0, then 53.3 °C inside for an hour)', () => {
  const warm: AirChannel = fermented((h) => (h <= 28 ? 36.6 : 30))
  const cores = (c: number): CurveChannel => ({
    seq: 14,
    column: 'core',
    log: Array.from({ length: 181 }, (_, minute) => ({
      minute,
      coreC: minute < 60 ? 30 + (c - 30) * (minute / 60) : c,
    })),
  })
  const curves = [
    ...slow().curves,
    { seq: 14, purpose: 'dry' as const, channels: [{ column: 'core', role: 'core', instrument: 'T1' }] },
  ]
  const at = Date.parse('2026-03-03T13:00:00Z') / 1000
  const found = (c: number, starts: boolean) =>
    judgeBatch(slow({ jurisdictions: ['CA'], ...beef, curves }), [cores(c)], {
      air: [warm],
      ...(starts ? { starts: [{ seq: 14, starts: { at, zone: 'said' as const } }] } : {}),
    }).findings.find((f) => f.rule === 'ferment.five-log.pepperoni-hour')
  it('counts the core of another curve where its start is known, both sides of the edge', () => {
    expect(found(53.7, true)?.verdict).toBe('pass')
    expect(found(53.5, true)).toBeUndefined()
    expect(found(53.7, false)).toBeUndefined()
  })

  const judgedWith = (
    column: Partial<(typeof curves)[number]['channels'][number]> | undefined,
    change: Partial<BatchFacts> = {},
  ) =>
    judgeBatch(
      slow({
        jurisdictions: ['CA'],
        ...beef,
        curves: curves.map((c) =>
          c.seq === 14 ? { ...c, channels: [column as { column: string; role: string }] } : c,
        ),
        ...change,
      }),
      [cores(53.7)],
      { air: [warm], starts: [{ seq: 14, starts: { at, zone: 'said' as const } }] },
    ).findings
  it('a core logger that was never checked, is past its check, is not named or is of unknown error proves nothing', () => {
    const core = { column: 'core', role: 'core', instrument: 'T3' }
    const t3 = {
      instrument: 'T3',
      name: 'core logger',
      toleranceC: 0.3,
      checkEveryDays: 30,
      standing: 'in-date' as const,
    }
    const check = { ...checks.find((c) => c.instrument === 'T1')!, instrument: 'T3' }
    const asked = (on: typeof core | { column: string; role: string }, i: object, c: readonly object[]) =>
      judgedWith(on, {
        instruments: [...slow().instruments, { ...t3, ...i }],
        checks: [...checks, ...(c as (typeof checks)[number][])],
      }).find((f) => f.rule === 'ca.ferment.e-coli')?.verdict
    expect(asked(core, {}, [check])).toBe('pass')
    expect(asked(core, {}, [])).toBe('cannot-tell')
    expect(asked(core, {}, [{ ...check, on: '2026-01-01' }])).toBe('cannot-tell')
    expect(asked(core, { toleranceC: undefined }, [check])).toBe('cannot-tell')
    expect(asked({ column: 'core', role: 'core' }, {}, [check])).toBe('cannot-tell')
    // Its own error counts: 53.7 °C within 0.5 °C may be under 53.3 °C.
    expect(asked(core, { toleranceC: 0.5 }, [check])).toBe('cannot-tell')
  })
})
