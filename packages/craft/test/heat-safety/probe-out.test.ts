import { describe, expect, it } from 'vitest'
import { cook, cookInput } from '../../src/heat/cook.ts'
import { trackLog } from '../../src/heat/track.ts'
import type { Reading } from '../../src/heat/reading.ts'

const holes = (log: readonly Reading[], acceptFalls = false) => trackLog(log, { marksC: [], acceptFalls }).holes
const every = (seconds: number, minutes: number, at: (minute: number) => number): Reading[] =>
  Array.from({ length: Math.round((minutes * 60) / seconds) + 1 }, (_, i) => ({
    minute: (i * seconds) / 60,
    coreC: at((i * seconds) / 60),
  }))

describe('a probe out of the product', () => {
  // A bare probe follows the room within seconds to a minute (time constants of common sheathed probes; common practice, no source).
  for (const [seconds, tau] of [
    [1, 0.2],
    [10, 0.3],
    [60, 0.5],
    [300, 0.5],
  ] as const)
    it(`is seen at a reading every ${seconds} s, with the minute it left`, () => {
      const log = every(seconds, 60, (m) => (m < 30 ? 70 : 22 + 48 * Math.exp(-(m - 30) / tau)))
      const [hole] = holes(log)
      expect(hole?.why).toBe('probe-out')
      expect(hole!.fromMinute).toBeGreaterThanOrEqual(30 - seconds / 60 - 1)
      expect(hole!.fromMinute).toBeLessThanOrEqual(31)
      expect(hole!.toMinute).toBeCloseTo(60, 6)
    })

  it('ends where the probe is put back', () => {
    const [hole, ...more] = holes(every(60, 60, (m) => (m >= 30 && m < 40 ? 20 : 70)))
    expect(hole).toMatchObject({ fromMinute: 29, toMinute: 40, why: 'probe-out', beforeC: 70, afterC: 70 })
    expect(more).toEqual([])
  })

  it('is not seen where the caller says that the falls are the core itself', () => {
    expect(
      holes(
        every(60, 60, (m) => (m < 30 ? 70 : 20)),
        true,
      ),
    ).toEqual([])
  })

  // The core by the cook engine, from 72 °C into stirred ice water (800 W/m²K, common practice, no source).
  for (const diameterMm of [20, 28, 45, 90])
    for (const seconds of [1, 10, 60, 300])
      it(`is not mistaken for a ${diameterMm} mm sausage in ice water, a reading every ${seconds} s`, () => {
        const { series } = cook(
          cookInput.parse({
            diameterMm,
            composition: { waterPct: 60, proteinPct: 15, fatPct: 21, ashPct: 3 },
            startC: 72,
            stages: [{ medium: 'ice-water', tempC: 0, filmWPerM2K: 800, minutes: 60 }],
          }),
        )
        const coreAt = (minute: number): number => {
          const i = Math.max(
            1,
            series.findIndex((p) => p.minute >= minute),
          )
          const [a, b] = [series[i - 1]!, series[i]!]
          return a.coreC + ((minute - a.minute) / (b.minute - a.minute)) * (b.coreC - a.coreC)
        }
        const log = every(seconds, 60, (m) => (m < 10 ? 72 : coreAt(Math.min(m - 10, 49))))
        expect(holes(log)).toEqual([])
      })
})
