import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays, addMonths } from '../../src/declare/calendar.ts'
import type { DatesInput, DatesOutput } from '../../src/declare/dates.ts'

const run = (input: DatesInput) => calculations['declare.dates']!.run(input) as DatesOutput
const verdict = (o: DatesOutput, rule: string) => o.findings.find((f) => f.rule.endsWith(rule))?.verdict
const fresh: DatesInput = {
  jurisdiction: 'EU',
  packedOn: '2026-01-12',
  shelfLifeDays: 9,
  validation: 'storage trial',
  storage: 'chilled',
  storageC: 4,
  highlyPerishable: true,
  productClass: 'meat-preparation',
  readyToEat: false,
}

describe('calendar', () => {
  it('counts over months and leap days', () => {
    expect(addDays('2028-02-27', 3)).toBe('2028-03-01')
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01')
    expect(addMonths('2026-11-30', 3)).toBe('2027-02-28')
    expect(addMonths('2026-01-31', 1)).toBe('2026-02-28')
  })
})

// Regulation (EU) 1169/2011, Article 24 and Annex X, as quoted.
describe('declare.dates', () => {
  it('dates what is highly perishable use by, day, month and year in that order', () => {
    const o = run(fresh)
    expect(o).toMatchObject({
      kind: 'use by',
      date: '2026-01-21',
      text: 'Use by 21 January 2026',
      storageLine: 'Keep refrigerated, at most 4 °C',
    })
    expect(verdict(o, 'use-by')).toBe('pass')
  })

  it('takes it as highly perishable where nobody says, and says that it cannot tell', () => {
    const { highlyPerishable: _, ...open } = fresh
    expect(run(open).kind).toBe('use by')
    expect(verdict(run(open), 'use-by')).toBe('cannot-tell')
    expect(run({ ...fresh, highlyPerishable: false }).text).toBe('Best before 21 January 2026')
  })

  // Up to 3 months the day, up to 18 the month and year, above that the year; never later than the day itself.
  it.each([
    [90, 'Best before 12 April 2026'],
    [91, 'Best before end March 2026'],
    [108, 'Best before end April 2026'],
    [546, 'Best before end June 2027'],
    [547, 'Best before end 2026'],
    [718, 'Best before end 2027'],
  ])('a life of %i days from 12 January 2026 may go by "%s"', (shelfLifeDays, text) =>
    expect(run({ ...fresh, storage: 'ambient', stableUnrefrigerated: true, shelfLifeDays, coarse: true }).text).toBe(
      text,
    ),
  )

  it('asks for the day of freezing on frozen meat preparations, not on meat products', () => {
    const frozen = { ...fresh, storage: 'frozen' as const, storageC: -18, shelfLifeDays: 180 }
    expect(verdict(run(frozen), 'frozen-on')).toBe('cannot-tell')
    const dated = run({ ...frozen, frozenOn: '2026-01-12' })
    expect(verdict(dated, 'frozen-on')).toBe('pass')
    expect(dated).toMatchObject({
      frozenOn: 'Frozen on 12 January 2026',
      kind: 'best before',
      storageLine: 'Keep frozen, at most −18 °C',
    })
    expect(verdict(run({ ...frozen, productClass: 'meat-product' }), 'frozen-on')).toBeUndefined()
  })

  it('never passes a life without a proof, nor storage without cold for what is not found stable', () => {
    const { validation: _, ...open } = fresh
    expect(verdict(run(open), 'validated')).toBe('cannot-tell')
    const shelf = { ...fresh, storage: 'ambient' as const }
    expect(verdict(run(shelf), 'ambient')).toBe('cannot-tell')
    expect(verdict(run({ ...shelf, stableUnrefrigerated: false }), 'ambient')).toBe('fail')
  })

  it('gives the safe handling text of the US for what is not ready to eat, and none for what is', () => {
    const us = run({ ...fresh, jurisdiction: 'US' })
    expect(us.statements).toHaveLength(6)
    expect(verdict(us, 'safe-handling')).toBe('cannot-tell')
    expect(run({ ...fresh, jurisdiction: 'US', readyToEat: true }).statements).toEqual([])
  })

  it('refuses a freezing after the end of the life, and half days', () => {
    expect(() => run({ ...fresh, frozenOn: '2026-02-01' })).toThrow(/frozenOn.*at most 2026-01-21/)
    expect(() => run({ ...fresh, shelfLifeDays: 1.5 })).toThrow(/whole number of days/)
  })

  it('never prints a date later than the shelf life', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3660 }), fc.integer({ min: 0, max: 800 }), (shelfLifeDays, shift) => {
        const packedOn = addDays('2026-01-01', shift)
        const o = run({ ...fresh, packedOn, storage: 'ambient', shelfLifeDays, coarse: true })
        const end = /end (?:([A-Z]\w+) )?(\d{4})$/.exec(o.text)
        if (!end) return
        const last = end[1]
          ? addDays(addMonths(new Date(`${end[1]} 1, ${end[2]} UTC`).toISOString().slice(0, 10), 1), -1)
          : `${end[2]}-12-31`
        expect(last <= o.date).toBe(true)
      }),
    )
  })
})
