import type { DrawnCodeSize } from '@forcemeat/craft/declare/label/drawn'
import { describe, expect, it } from 'vitest'
import { labelDrawnFigures } from '../../data/declare/label-drawn.ts'
import { judgeLabelDrawn } from '../../src/declare/label-drawn.ts'

const ean: DrawnCodeSize = {
  kind: 'ean-13',
  moduleMm: 0.33,
  barMm: 22.85,
  quietLeft: 11,
  quietRight: 7,
  widthMm: 37.29,
  characters: 13,
}
const verdict = (code: DrawnCodeSize, rule: string) =>
  judgeLabelDrawn({ place: 'EU', contrast: 21, code }).find((f) => f.rule === rule)?.verdict

describe('a bar code as drawn', () => {
  // GS1 Sweden, Size guide: EAN-13 on a consumer item, X-dimension 0.264 to 0.660 mm, height at least 18.28 mm, quiet zones 11X and 7X.
  it.each([
    [{ moduleMm: 0.264 }, 'pass'],
    [{ moduleMm: 0.263 }, 'fail'],
    [{ moduleMm: 0.66 }, 'pass'],
    [{ moduleMm: 0.661 }, 'fail'],
    [{ barMm: 18.28 }, 'pass'],
    [{ barMm: 18.2 }, 'fail'],
    [{ quietLeft: 10.9 }, 'fail'],
    [{ quietRight: 6.9 }, 'fail'],
  ] as const)('with %o is an EAN-13 that gives %s (GS1 size guide)', (change, expected) => {
    expect(verdict({ ...ean, ...change }, 'all.label.ean-13')).toBe(expected)
  })

  // GS1 General Specifications, 5.4.4.2 and 5.4.4.3: quiet zone 10X, at most 165.10 mm with it, at most 48 characters.
  const case128: DrawnCodeSize = {
    ...ean,
    kind: 'gs1-128',
    moduleMm: 0.5,
    quietLeft: 10,
    quietRight: 10,
    characters: 30,
  }
  it.each([
    [{ widthMm: 165.1 }, 'pass'],
    [{ widthMm: 165.2 }, 'fail'],
    [{ characters: 48 }, 'pass'],
    [{ characters: 49 }, 'fail'],
    [{ quietLeft: 9.9 }, 'fail'],
  ] as const)('with %o is a GS1-128 that gives %s (GS1 General Specifications, 5.4.4)', (change, expected) => {
    expect(verdict({ ...case128, ...change }, 'all.label.gs1-128')).toBe(expected)
  })

  it('of a GS1-128 under 0.495 mm says that a warehouse may not read it, as advice', () => {
    const found = judgeLabelDrawn({ place: 'EU', contrast: 21, code: { ...case128, moduleMm: 0.3 } })
    const advice = found.find((f) => f.rule === 'all.label.gs1-128.module')
    expect(advice).toMatchObject({ verdict: 'cannot-tell', weight: 'advice' })
    expect(verdict(case128, 'all.label.gs1-128.module')).toBeUndefined()
  })
})

describe('a nutrition panel as drawn', () => {
  it('holds the least sizes of 21 CFR 101.9(d)(1)(iii): 10 points for servings, 16 and 22 for Calories, 8 for rows, 6 for the rest', () => {
    expect(labelDrawnFigures.panels['US:us-2016']).toMatchObject({
      servingsPt: 10,
      caloriesPt: 16,
      caloriesFigurePt: 22,
      rowPt: 8,
      smallPt: 6,
    })
  })

  it('fails where one text is under its size, passes where all stand, and never passes on figures nobody has read', () => {
    const of = (place: string, format: string, pt: number) =>
      judgeLabelDrawn({ place, contrast: 21, panel: { format, texts: [{ what: 'Sodium', pt, leastPt: 8 }] } })[0]!
        .verdict
    expect(of('US', 'us-2016', 8)).toBe('pass')
    expect(of('US', 'us-2016', 7.9)).toBe('fail')
    expect(of('CA', 'ca-2016', 8)).toBe('cannot-tell')
    expect(of('CA', 'ca-2016', 7.9)).toBe('fail')
  })
})

describe('safe handling instructions as drawn', () => {
  it('stand in letters of 1/16 inch with a larger heading (9 CFR 317.2(l))', () => {
    const of = (headingMm: number, smallestMm: number) =>
      judgeLabelDrawn({ place: 'US', contrast: 21, handling: { headingMm, smallestMm } })[0]!.verdict
    expect(of(2, 25.4 / 16)).toBe('pass')
    expect(of(2, 25.4 / 16 - 0.01)).toBe('fail')
    expect(of(1.6, 1.6)).toBe('fail')
  })
})

describe('the contrast', () => {
  it('is at least 7 to 1 (WCAG 2.2, 1.4.6)', () => {
    const of = (contrast: number) => judgeLabelDrawn({ place: 'EU', contrast })[0]!.verdict
    expect(of(7)).toBe('pass')
    expect(of(6.99)).toBe('fail')
  })
})

describe('characters the fonts have no letter for', () => {
  const of = (withoutLetter: string[]) =>
    judgeLabelDrawn({ place: 'EU', contrast: 21, withoutLetter }).find((f) => f.rule === 'all.label.letters')
  it('fail, each named with its code point', () => {
    expect(of(['日', '🍖'])).toMatchObject({
      verdict: 'fail',
      because: 'its fonts have no letter for "日" (U+65E5), "🍖" (U+1F356)',
    })
  })
  it('are none on a label that can be drawn', () => expect(of([])?.verdict).toBe('pass'))
})
