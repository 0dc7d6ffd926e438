import { describe, expect, it } from 'vitest'
import type { DatesQuestion } from '@forcemeat/craft/declare/dates'
import { judgeDates } from '../../src/declare/dates.ts'

const asked = (over: Partial<DatesQuestion>) =>
  judgeDates({
    jurisdiction: 'US',
    storage: 'chilled',
    storageC: 4,
    shelfLifeDays: 20,
    readyToEat: true,
    validation: 'storage trial',
    highlyPerishable: true,
    kind: 'dried',
    ...over,
  })
const verdicts = (over: Partial<DatesQuestion>) =>
  asked(over)
    .filter((f) => f.rule.includes('kept') || f.rule === 'all.dates.ambient')
    .map((f) => [f.rule, f.verdict, f.margin])

describe('how a product is said to be kept', () => {
  it('goes by what was measured on it, whatever is said of it', () => {
    const ambient = { storage: 'ambient', storageC: undefined, stableUnrefrigerated: true } as const
    for (const [stability, verdict] of [
      ['shelf-stable', 'pass'],
      ['perishable', 'fail'],
      ['very-perishable', 'fail'],
      ['cannot-tell', 'cannot-tell'],
    ] as const)
      expect(verdicts({ ...ambient, stability })).toEqual([['all.dates.ambient', verdict, undefined]])
    expect(verdicts({ ...ambient, kind: 'fresh' })).toEqual([['all.dates.ambient', 'fail', undefined]])
    expect(verdicts({ ...ambient, kind: 'cooked' })).toEqual([['all.dates.ambient', 'cannot-tell', undefined]])
    expect(verdicts({ ...ambient, kind: 'fresh', stability: 'shelf-stable' })[0]?.[1]).toBe('fail')
  })

  // Classes of Leistner and Rödel, 5 and 10 °C, from memory: none of them can fail it by itself.
  it('is held to the temperature of its class, and never fails by a figure from memory', () => {
    expect(verdicts({ stability: 'shelf-stable', storageC: 20 })).toEqual([])
    expect(verdicts({ stability: 'perishable', storageC: 10 })).toEqual([])
    expect(verdicts({ stability: 'perishable', storageC: 12 })).toEqual([
      ['all.dates.kept-perishable', 'cannot-tell', undefined],
    ])
    expect(verdicts({ stability: 'cannot-tell', storageC: 7 })).toEqual([
      ['all.dates.kept-very-perishable', 'cannot-tell', undefined],
    ])
    expect(verdicts({ kind: 'cooked', storageC: 12 })).toEqual([
      ['all.dates.kept-very-perishable', 'cannot-tell', undefined],
      ['all.dates.kept-perishable', 'cannot-tell', -2],
    ])
  })

  // Regulation (EC) 853/2004, Annex III, section I chapter VII, as quoted.
  it('fails for raw meat above 7 °C in the European Union and in Great Britain', () => {
    for (const jurisdiction of ['EU', 'GB'] as const) {
      const of = (storageC: number) => verdicts({ jurisdiction, kind: 'fresh', storageC }).map((v) => v[1])
      expect([of(4), of(7), of(7.1)]).toEqual([[], ['cannot-tell'], ['fail', 'cannot-tell']])
    }
  })

  it('asks about frozen above −18 °C, from memory, and is stopped by a place that does not freeze', () => {
    const of = (storageC: number) => verdicts({ storage: 'frozen', storageC })
    expect(of(-18)).toEqual([])
    expect(of(-15)).toEqual([['all.dates.kept-frozen', 'cannot-tell', undefined]])
    expect(of(4)).toEqual([['all.dates.kept-frozen', 'cannot-tell', -22]])
  })
})
