import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { evaluate, inForce, judgeCase, legible } from '../../src/evaluate.ts'
import type { Case, Dated, Rule } from '../../src/rule.ts'

const source = { document: 'A law', section: '1', edition: '1', mark: 'seen' } as const
const rule: Rule = {
  id: 'x.1',
  title: 'A limit',
  jurisdiction: 'US',
  topic: 'cure',
  scope: 'all',
  measure: 'm',
  unit: 'mg/kg',
  weight: 'limit',
  values: [{ max: 100, source }],
}
const subject = (over: Partial<Case> = {}): Case => ({
  facts: {},
  measures: { m: { value: 50 } },
  on: '2026-01-01',
  jurisdictions: ['US'],
  ...over,
})
const judge = (dated: Partial<Dated>, over: Partial<Case> = {}, more: Partial<Rule> = {}) =>
  evaluate({ ...rule, ...more, values: [{ max: 100, source, ...dated }] }, subject(over))

describe('evaluate', () => {
  it('passes, fails, and cannot tell when the interval lies on both sides', () => {
    expect(judge({})).toMatchObject({ verdict: 'pass', margin: 50, measured: 50, limit: 100 })
    expect(judge({}, { measures: { m: { value: 101 } } })).toMatchObject({ verdict: 'fail', margin: -1 })
    expect(judge({}, { measures: { m: { value: 98, low: 95, high: 101 } } })).toMatchObject({ verdict: 'cannot-tell' })
    expect(judge({}, { measures: { m: { value: 100 } } })?.verdict).toBe('pass')
  })

  it('takes a figure equal to the limit up to floating point for equal: 0.1 + 0.2 is 0.3', () => {
    expect(judge({ max: 0.3 }, { measures: { m: { value: 0.1 + 0.2 } } })?.verdict).toBe('pass')
  })

  it('never passes on a limit from memory or common practice, nor fails on one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.constantFrom('from-memory', 'common-practice'),
        (value, mark) => {
          const found = judge({ source: { ...source, mark } }, { measures: { m: { value } } })
          expect(found?.verdict).toBe('cannot-tell')
          expect(found?.settle).toMatch(
            mark === 'common-practice' ? /no document states it/ : /read the limit in A law/,
          )
        },
      ),
    )
  })

  it('with a limit known second hand fails what breaks it and never passes the rest', () => {
    expect(judge({ secondHand: 'the trade press' }, { measures: { m: { value: 101 } } })).toMatchObject({
      verdict: 'fail',
      because: expect.stringMatching(/as reported by the trade press/),
    })
    expect(judge({ secondHand: 'the trade press' })).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/only second hand/),
    })
  })

  it('cannot tell where the measure is missing, and says what would settle it', () => {
    expect(judge({}, { measures: { m: { missing: 'no analysis', settle: 'send a sample' } } })).toMatchObject({
      verdict: 'cannot-tell',
      because: 'no analysis',
      settle: 'send a sample',
    })
    expect(judge({}, { measures: {} })?.verdict).toBe('cannot-tell')
  })

  it('cannot tell where a fact it turns on is named and unknown; is silent where it is known to differ or no part of the case', () => {
    const when = { route: ['comminuted'] }
    expect(judge({}, { facts: { route: undefined } }, { when })).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/how it is cured/),
    })
    expect(judge({}, { facts: { route: 'pumped' } }, { when })).toBeUndefined()
    expect(judge({}, {}, { when })).toBeUndefined()
    expect(
      judge({}, { facts: { route: undefined, bacon: true } }, { when: { ...when, bacon: [false] } }),
    ).toBeUndefined()
  })

  it('takes the value in force on the day: `from` is the first day, `until` the first day no longer', () => {
    const dated: Rule = {
      ...rule,
      values: [
        { until: '2025-10-09', max: 150, source },
        { from: '2025-10-09', max: 80, source },
      ],
    }
    expect(inForce(dated, '2025-10-08')?.max).toBe(150)
    expect(inForce(dated, '2025-10-09')?.max).toBe(80)
    expect(inForce({ ...rule, values: [{ from: '2025-10-09', source }] }, '2025-10-08')).toBeUndefined()
  })

  it('rounds to the step of the rule before it compares', () => {
    expect(judge({ max: 80 }, { measures: { m: { value: 80.0145 } } }, { step: 0.1 })?.verdict).toBe('pass')
    expect(judge({ max: 80 }, { measures: { m: { value: 80.06 } } }, { step: 0.1 })?.verdict).toBe('fail')
  })

  it('judges a weighted sum by the widest its parts allow', () => {
    const sum = [
      { measure: 'a', weight: 1 },
      { measure: 'b', weight: -0.5 },
    ]
    const { measure: _, ...rest } = rule
    const found = evaluate(
      { ...rest, sum, values: [{ max: 0, source }] },
      subject({ measures: { a: { value: 27, low: 26, high: 28 }, b: { value: 55, low: 54, high: 56 } } }),
    )
    expect(found).toMatchObject({ verdict: 'cannot-tell', measured: -0.5 })
  })

  it('names both figures with their unit', () => {
    expect(judge({ max: 150 }, { measures: { m: { value: 156.25 } } }, { basis: 'as sodium nitrite' })?.because).toBe(
      '156.3 mg/kg (as sodium nitrite); allowed at most 150 mg/kg, so it is 6.3 mg/kg over',
    )
  })

  it('never shortens a figure onto the other side of its limit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        (x, limit) => {
          const shown = Number(legible(x, limit))
          return Math.sign(shown - limit) === Math.sign(Number(x.toPrecision(12)) - limit)
        },
      ),
    )
    expect(legible(80.0145, 80)).toBe('80.01')
  })

  it('is monotone: a higher figure never does better against a maximum', () => {
    const rank = { fail: 0, 'cannot-tell': 1, pass: 2 }
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (value, more) => {
          const at = (v: number) => rank[judge({}, { measures: { m: { value: v } } })!.verdict]
          return at(value + more) <= at(value)
        },
      ),
    )
  })

  it('judges rules that hold everywhere for any place, others for their own', () => {
    const rules = [rule, { ...rule, id: 'x.2', jurisdiction: 'everywhere' }]
    expect(judgeCase(rules, subject({ jurisdictions: ['EU'] })).map((f) => f.rule)).toEqual(['x.2'])
  })
})
