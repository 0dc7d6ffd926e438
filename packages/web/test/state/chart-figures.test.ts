import { afterEach, expect, it } from 'vitest'
import { boundWords, inScreenUnits, linesOf, short, spread, type Chart } from '../../src/pages/record/chart-figures.ts'
import { units } from '../../src/state/who.ts'
import { spanOf } from '../../src/pages/record/chart-drawing.tsx'

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

it('a chart of a few batches that hardly differ is not stretched over its height; a usual range is shown as it is', () => {
  const [low, high] = spanOf([93.14, 93.17, 93.2], false)
  expect(high - low).toBeCloseTo(0.05 * 93.17, 5)
  expect((low + high) / 2).toBeCloseTo(93.17, 5)
  expect(spanOf([93.14, 93.2], true)).toEqual([93.14, 93.2])
  expect(spanOf([50, 150], false)).toEqual([50, 150])
})
