import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lethality } from '../../src/heat/lethality.ts'
import { trackLog } from '../../src/heat/track.ts'
import type { Reading } from '../../src/heat/reading.ts'
import { judgeLog } from '../../src/log/judge-log.ts'

const holes = (log: readonly Reading[], acceptFalls = false) =>
  trackLog(log, { marksC: [], acceptFalls, joinedMinutes: 60 }).holes
const minutely = (minutes: number, at: (minute: number) => number): Reading[] =>
  Array.from({ length: minutes + 1 }, (_, minute) => ({ minute, coreC: at(minute) }))
const meat = { organism: 'salmonella' as const, product: { species: 'meat' as const } }
const table = (log: readonly Reading[], acceptFalls = false) => lethality({ ...meat, log, acceptFalls }).findings[0]!

// Zeros of J0 and J1 there (Abramowitz & Stegun, table 9.5); beyond them the asymptotic form, right to 1e-6.
const zeros = Array.from({ length: 60 }, (_, i) => {
  const b = (i + 0.75) * Math.PI
  return i === 0 ? 2.404825558 : b + 1 / (8 * b) - 31 / (384 * b ** 3) + 3779 / (15_360 * b ** 5)
})
const j1 = (z: number, i: number): number =>
  i === 0
    ? 0.5191474973
    : Math.sqrt(2 / (Math.PI * z)) * (1 + 3 / (16 * z * z)) * Math.cos(z - 0.75 * Math.PI + 3 / (8 * z))
/** Share of a step of its surface that the centre of a long cylinder has not yet taken, at Fourier number `fo` (Carslaw & Jaeger, 7.6). */
const left = (fo: number): number =>
  fo < 0.004 ? 1 : zeros.reduce((s, z, i) => s + (2 * Math.exp(-z * z * fo)) / (z * j1(z, i)), 0)

describe('readings no core can make while it is heated', () => {
  const climb = (m: number) => 5 + 0.8 * m
  it('a probe that falls into the hot house is out from there on, and nothing passes', () => {
    const log = minutely(200, (m) => (m < 60 ? climb(m) : 75 + (m % 2) * 0.3))
    expect(holes(log)).toMatchObject([{ fromMinute: 59, toMinute: 200, why: 'probe-out', leap: 'up' }])
    const found = table(log)
    expect(found.verdict).toBe('cannot-tell')
    expect(found.because).toContain('probe left the product')
    expect(lethality({ ...meat, log }).logReduction).toBe(0)
  })
  it('half an hour of exactly 85.0 is the mark of a broken probe, not a core', () => {
    const log = minutely(120, (m) => (m < 60 ? climb(m) : m < 90 ? 85 : 53))
    expect(holes(log)).toMatchObject([{ fromMinute: 59, toMinute: 90, why: 'probe-out' }])
    expect(table(log).verdict).toBe('cannot-tell')
  })
  it('one reading of 90 among 54s is dropped and earns nothing', () => {
    for (const at of [1, 30, 59]) {
      const log = minutely(61, (m) => (m === at ? 90 : 54))
      expect(holes(log)).toMatchObject([{ fromMinute: at - 1, toMinute: at + 1, why: 'spike' }])
      expect(table(log).verdict).not.toBe('pass')
    }
  })
  it('a leap in the last reading, that nothing after it explains, is not believed', () => {
    expect(table(minutely(60, (m) => (m === 60 ? 90 : 54))).verdict).toBe('cannot-tell')
  })
  it('they show at a reading every second, ten, thirty seconds or five minutes', () => {
    for (const seconds of [1, 10, 30, 300]) {
      const log = Array.from({ length: 7200 / seconds + 1 }, (_, i): Reading => {
        const m = (i * seconds) / 60
        return { minute: m, coreC: m < 60 ? 54 : 54 + 28 * (1 - Math.exp(-(m - 60) / 0.3)) }
      })
      expect(
        holes(log).map((h) => h.why),
        `every ${seconds} s`,
      ).toEqual(['probe-out'])
      expect(table(log).verdict).toBe('cannot-tell')
    }
  })
  it('a smaller leap onto the temperature of the house is the house', async () => {
    const rows = minutely(100, (m) => (m < 70 ? 10 + 0.8 * m : 75)).map(
      (r) =>
        `2026-11-20 ${String(8 + Math.floor(r.minute / 60)).padStart(2, '0')}:${String(r.minute % 60).padStart(2, '0')}:00;${r.coreC!.toFixed(1)};75.0`,
    )
    const judged = (head: string) => judgeLog([new TextEncoder().encode([head, ...rows].join('\n'))], meat)
    const beside = await judged('Time;Core °C;House °C')
    expect(beside.probes[0]!.holes).toMatchObject([{ fromMinute: 69, why: 'probe-out' }])
    expect(beside.verdict).not.toBe('pass')
  })
  it('are the core itself where the caller says so', () => {
    const log = minutely(120, (m) => (m < 60 ? climb(m) : 75))
    expect(holes(log, true)).toEqual([])
    expect(table(log, true).verdict).toBe('pass')
  })
})

describe('a core of 16 mm and more, however it is heated or chilled', () => {
  // Surface at once at 100 °C or 0 °C, no film: the quickest there is. Diffusivity up to 1.7e-7 m²/s, that of water at 100 °C; meats are below.
  const piece = fc.record({
    diameterMm: fc.double({ min: 16, max: 60, noNaN: true }),
    diffusivity: fc.double({ min: 1.1e-7, max: 1.7e-7, noNaN: true }),
    seconds: fc.constantFrom(1, 5, 15, 30, 60, 90, 120, 180, 300, 600),
    phase: fc.double({ min: 0, max: 1, noNaN: true }),
    startC: fc.double({ min: 0, max: 72, noNaN: true }),
    mediumC: fc.constantFrom(100, 0),
    digit: fc.constantFrom(0, 0.1),
  })
  it('is never taken for a probe that is out, at any pace of the logger (Fourier-Bessel series)', () => {
    fc.assert(
      fc.property(piece, ({ diameterMm, diffusivity, seconds, phase, startC, mediumC, digit }) => {
        const minutes = Math.max(20, (6 * seconds) / 60)
        const log = Array.from({ length: Math.floor((minutes * 60) / seconds) + 1 }, (_, i): Reading => {
          const s = i * seconds - (3 + phase) * Math.min(seconds, 60)
          const x = mediumC + (startC - mediumC) * left(Math.max(0, (s * diffusivity) / (diameterMm / 2000) ** 2))
          return { minute: (i * seconds) / 60, coreC: digit === 0 ? x : Math.round(x / digit) * digit }
        })
        expect(holes(log)).toEqual([])
      }),
      { numRuns: 400 },
    )
  })
  it('the series is that of the books: half left at Fo 0.20, a tenth at 0.48', () => {
    expect(left(0.2)).toBeCloseTo(0.5015, 2)
    expect(left(0.48)).toBeCloseTo(0.0998, 2)
  })
})
