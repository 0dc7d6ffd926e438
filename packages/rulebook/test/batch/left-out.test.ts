import { describe, expect, it } from 'vitest'
import { leftOutWarmer } from '../../src/batch/left-out.ts'

const series = (hours: number, of: (hour: number) => number | null) =>
  Array.from({ length: 4 * hours + 1 }, (_, i) => ({ minute: 15 * i, value: of(i / 4) }))
const air = series(48, () => 23.8)

describe('a column of the same file that is left out of the air', () => {
  it('over a degree warmer for an hour is told, with how much', () => {
    expect(
      leftOutWarmer(
        'Air top',
        series(48, () => 36),
        [air],
      ),
    ).toBeCloseTo(12.2, 9)
    expect(
      leftOutWarmer(
        'Air top',
        series(48, () => 24.8),
        [air],
      ),
    ).toBeUndefined()
    expect(
      leftOutWarmer(
        'Air top',
        series(48, (h) => (h > 10 && h < 10.7 ? 36 : 23)),
        [air],
      ),
    ).toBeUndefined()
  })
  it('is held against the warmest of those that count', () => {
    expect(
      leftOutWarmer(
        'Air top',
        series(48, () => 36),
        [air, series(48, () => 36)],
      ),
    ).toBeUndefined()
  })
  it('is told where it is called a fridge: a fridge is the usual chamber', () => {
    for (const name of ['Fridge top °C', 'Freezer 2'])
      expect(
        leftOutWarmer(
          name,
          series(48, () => 36),
          [air],
        ),
      ).toBeCloseTo(12.2, 9)
  })
  it('is nothing where its name says that it is of another place', () => {
    expect(
      leftOutWarmer(
        'Outside',
        series(48, () => 36),
        [air],
      ),
    ).toBeUndefined()
  })
})

describe('a core of the same file', () => {
  const falling = series(48, (h) => (h < 24 ? 30 : 14))
  it('that cools after the air is no contradiction', () => {
    const lagging = series(48, (h) => (h < 24 ? 31 : Math.max(14, 31 - (h - 24) * 2)))
    expect(leftOutWarmer('P1', lagging, [falling], true)).toBeUndefined()
    expect(leftOutWarmer('Core 1', lagging, [falling])).toBeUndefined()
    expect(leftOutWarmer('P1', lagging, [falling])).toBeDefined()
  })
  it('far warmer than the air was for hours is', () => {
    expect(
      leftOutWarmer(
        'Core',
        series(48, () => 45),
        [air],
        true,
      ),
    ).toBeCloseTo(21.2, 9)
  })
})
