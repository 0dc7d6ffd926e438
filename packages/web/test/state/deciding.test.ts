import { expect, it } from 'vitest'
import { deciding, decidingWords } from '../../src/pages/slow/deciding.ts'

const series = Array.from({ length: 61 }, (_, day) => ({
  day,
  weightLossPct: day * 0.61,
  aw: 0.97 - day * 0.0015,
  moistureToProtein: 4 - day * 0.03,
})) as never

it('the target that is met last decides the date of a drying, and is named', () => {
  const target = { weightLossPct: 30, aw: 0.89 }
  expect(deciding({ series }, target)).toMatchObject({ name: 'water activity', day: 54 })
  expect(decidingWords({ series }, target)).toBe('The date waits for water activity 0.89; 30 % weight loss by day 50.')
})

it('one target needs no word, and one never reached is the one that is waited for', () => {
  expect(decidingWords({ series }, { weightLossPct: 30 })).toBeUndefined()
  expect(decidingWords({ series }, {})).toBeUndefined()
  expect(deciding({ series }, { weightLossPct: 30, aw: 0.6 })).toMatchObject({ name: 'water activity', day: undefined })
})
