import { ice } from '@forcemeat/craft/mix/ice'
import { describe, expect, it } from 'vitest'
import { findRule } from '../../src/catalogue.ts'
import { judgeMix } from '../../src/mix/judge.ts'

describe('final temperature of a mix, common practice of the trade', () => {
  it.each([
    ['fresh', 4],
    ['cooked', 12],
    ['fermented', 2],
    ['dried', 2],
  ] as const)('%s is kept to %s °C as advice that never passes or stops anything', (kind, limit) => {
    for (const finalC of [limit - 3, limit + 3]) {
      const [found, ...more] = judgeMix({ kind, finalC, warmerC: finalC + 0.5 })
      expect(more).toEqual([])
      expect(found).toMatchObject({ verdict: 'cannot-tell', weight: 'advice', limit, measured: finalC })
      expect(found!.margin).toBeCloseTo(limit - finalC - 0.5, 9)
      expect(found!.source.mark).toBe('common-practice')
      expect(findRule(found!.rule)).toBeDefined()
    }
  })

  it('comes with the ice where the kind is said, and not where it is not', () => {
    const mix = {
      parts: [{ kg: 80, tempC: 2, composition: { waterPct: 69.5, proteinPct: 20, fatPct: 9.5 } }],
      waterKg: 20,
      waterTempC: 12,
      targetC: 10,
    }
    expect(ice(mix).findings).toEqual([])
    expect(ice({ ...mix, kind: 'cooked' }).findings[0]).toMatchObject({ rule: 'mix.final.cooked', unit: '°C' })
  })
})
