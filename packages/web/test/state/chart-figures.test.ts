import { afterEach, expect, it } from 'vitest'
import { boundWords, inScreenUnits, linesOf, short, spread, type Chart } from '../../src/pages/record/chart-figures.ts'
import { units } from '../../src/state/who.ts'

afterEach(() => {
  units.value = ''
})

const links: Chart = {
  name: 'link-weight',
  title: 'Link weight',
  unit: 'g',
  points: [1, 2, 3, 4, 5].map((i) => ({ batch: `B-${i}`, on: '2026-01-01', value: 113.398 + i })),
  chart: { centre: 116.4, upper: 119, lower: 113, sigma: 0.9, signals: [] },
  aim: 113.398092,
  settle: 'x',
}

it('a link weight is in ounces where pounds are shown: 4 oz is 113.398 g', () => {
  expect(inScreenUnits(links)).toBe(links)
  units.value = 'us'
  const oz = inScreenUnits(links)
  expect(oz.unit).toBe('oz')
  expect(oz.aim).toBeCloseTo(4, 6)
  expect(oz.points[0]!.value).toBeCloseTo(4.03527, 4)
  expect(inScreenUnits({ ...links, unit: '%' }).points).toBe(links.points)
})

it('both sides of a limit are said and drawn', () => {
  const limit = { own: 'the limit of the recipe', lowest: 24, highest: 30 }
  expect(boundWords(limit, '%')).toBe('24 to 30 %')
  expect(boundWords({ highest: 30 }, '%')).toBe('at most 30 %')
  expect(boundWords({ lowest: 24 }, '%')).toBe('at least 24 %')
  expect(linesOf({ ...links, limit }).map((l) => l.label)).toEqual([
    '119',
    '116.4',
    '113',
    'limit 30',
    'limit 24',
    'aim 113.4',
  ])
})

it('figures that are all alike have one line, not three on one another', () => {
  const flat = { ...links.chart!, centre: 5, upper: 5, lower: 5 }
  const { aim: _, ...rest } = links
  expect(linesOf({ ...rest, chart: flat })).toHaveLength(1)
})

it('labels keep apart and stay on the drawing', () => {
  const at = spread([100, 102, 205, 206, 20], 16, 206)
  const sorted = at.toSorted((a, b) => a - b)
  sorted.slice(1).forEach((v, i) => expect(v - sorted[i]!).toBeGreaterThanOrEqual(16))
  expect(Math.max(...at)).toBeLessThanOrEqual(206)
  expect(at[4]).toBe(20)
  expect(spread([], 16, 206)).toEqual([])
})

it('a long code is cut where it would run into the next', () => {
  expect(short('B-1', 30)).toBe('B-1')
  expect(short('x'.repeat(60), 30)).toHaveLength(30)
})
