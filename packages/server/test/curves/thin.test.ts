import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { thin } from '../../src/curves/thin.ts'

const axis = (n: number) => Array.from({ length: n }, (_, i) => i)
const value = fc.option(fc.double({ min: -30, max: 120, noNaN: true }), { nil: null, freq: 20 })

describe('thinning a curve for the eye', () => {
  it('keeps a short curve whole', () => {
    expect(thin({ minutes: axis(10), channels: [{ values: axis(10) }] })).toEqual(axis(10))
  })

  it('keeps first and last, every channel’s extremes, and stays within its bound', () => {
    const long = fc.array(fc.tuple(value, value), { minLength: 300, maxLength: 900 })
    fc.assert(
      fc.property(long, (rows) => {
        const channels = [0, 1].map((k) => ({ values: rows.map((r) => r[k]!) }))
        const kept = thin({ minutes: axis(rows.length), channels }, 200)
        expect(kept.length).toBeLessThanOrEqual(200)
        expect(kept[0]).toBe(0)
        expect(kept.at(-1)).toBe(rows.length - 1)
        for (const { values } of channels) {
          const all = values.filter((v) => v !== null)
          const shown = kept.map((i) => values[i]!).filter((v) => v !== null)
          expect(Math.max(...shown)).toBe(Math.max(...all))
          expect(Math.min(...shown)).toBe(Math.min(...all))
        }
      }),
      { numRuns: 40, seed: 20261125 },
    )
  })

  it('keeps a single missing reading among many, so that the gap is drawn', () => {
    const values: (number | null)[] = axis(50_000).map((i) => Math.sin(i / 500))
    values[31_415] = null
    const kept = thin({ minutes: axis(50_000), channels: [{ values }] })
    expect(kept).toContain(31_415)
    expect(kept.length).toBeLessThanOrEqual(2000)
  })
})
