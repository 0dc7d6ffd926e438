import { describe, expect, it } from 'vitest'
import { capability } from '../../src/numeric/capability.ts'
import { controlChart } from '../../src/numeric/control-chart.ts'

/** Standard normal figures by Box and Muller from a small seeded generator (mulberry32). */
function normals(seed: number): () => number {
  let a = seed
  const uniform = (): number => {
    a = (a + 0x6d2b79f5) | 0
    let t = Math.imul(a ^ (a >>> 15), 1 | a)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
}

describe('capability against a limit', () => {
  it('has an interval that holds the true index in 93 to 97 of 100 charts (2000 simulated charts of 40 figures, true Cpk 1.2)', () => {
    const next = normals(20261125)
    let held = 0
    for (let k = 0; k < 2000; k += 1) {
      const chart = controlChart({ values: Array.from({ length: 40 }, next), highest: 3.6 })
      if (chart.capability!.low <= 1.2 && 1.2 <= chart.capability!.high) held += 1
    }
    expect(held / 2000).toBeGreaterThan(0.93)
    expect(held / 2000).toBeLessThan(0.97)
  })

  it('cannot be told from few figures, however far the limit lies', () => {
    expect(capability({ cpk: 5, figures: 9, signals: 0 })).toMatchObject({ verdict: 'cannot-tell' })
    expect(capability({ cpk: 5, figures: 30, signals: 0 })).toMatchObject({ verdict: 'capable' })
  })

  it('counts a point that several run rules ring once', () => {
    const wave = [0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 20]
    const { signals, capability: said } = controlChart({ values: [...wave, 20, 20], highest: 100 })
    const points = new Set(signals.map((s) => s.at)).size
    expect(points).toBeLessThan(signals.length)
    expect(said!.because).toContain(`${points} points ask for a cause`)
  })

  it('cannot be told while points ask for a cause', () => {
    expect(capability({ cpk: 3, figures: 40, signals: 1 })).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringContaining('cause') as string,
    })
  })

  it('is not capable where the whole interval lies under one, and open where one lies inside it', () => {
    expect(capability({ cpk: 0.4, figures: 30, signals: 0 }).verdict).toBe('not-capable')
    expect(capability({ cpk: 1.05, figures: 30, signals: 0 }).verdict).toBe('cannot-tell')
  })

  it('narrows as figures are added', () => {
    const width = (figures: number) => {
      const { low, high } = capability({ cpk: 1.3, figures, signals: 0 })
      return high - low
    }
    for (const n of [10, 20, 50, 200]) expect(width(n * 2)).toBeLessThan(width(n))
  })
})
