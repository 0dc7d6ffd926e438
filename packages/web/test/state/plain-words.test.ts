import { afterEach, expect, it } from 'vitest'
import { readRecipe, textsOf } from '../../src/state/recipe-draft.ts'
import { readerOf } from '../../src/state/reader.ts'
import { units } from '../../src/state/who.ts'
import { factPhrase } from '../../src/ui/fact-phrases.ts'
import { measured, toWeigh } from '../../src/ui/figures.ts'
import { withNames } from '../../src/ui/material-field.tsx'

afterEach(() => {
  units.value = ''
})

it('a condition of a rule is said as a maker says it', () => {
  expect(factPhrase('cured', [true])).toBe('it holds nitrite or nitrate')
  expect(factPhrase('bacon', [false])).toBe('it is not bacon')
  expect(factPhrase('route', ['comminuted'])).toBe('it is ground or chopped with its cure')
  expect(factPhrase('kind', ['fermented', 'dried'])).toBe('it is fermented or dried')
  expect(factPhrase('somethingNew', [true])).toBe('something new: yes')
})

it('half of a list of materials is never called by its codes', () => {
  expect(withNames('no figure for salt, ice, garlic')).toMatch(/^no figure for Salt/)
  expect(withNames('salt, pepper and time')).toBe('salt, pepper and time')
  expect(withNames('made on 2026-01-02, later')).toBe('made on 2026-01-02, later')
})

it('a time in minutes is read in hours, a weight to weigh to the gram', () => {
  expect([measured(419.29, 'min'), measured(2.5, 'min')]).toEqual(['6 h 59 min', '2.5 min'])
  expect([toWeigh(9.5893), toWeigh(0.060531), toWeigh(14.2571)]).toEqual(['9.589 kg', '60.531 g', '14.257 kg'])
})

it('a limit of the blend is typed in words and kept by its name', () => {
  const read = (of: string) =>
    readRecipe(
      readerOf({
        name: 'X',
        'meat.rows': '0',
        'additions.rows': '0',
        'limits.rows': '1',
        'limits[0].of': of,
        'limits[0].maxPct': '10',
      }),
      {
        name: 'X',
        'meat.rows': '0',
        'additions.rows': '0',
        'limits.rows': '1',
        'limits[0].of': of,
        'limits[0].maxPct': '10',
      },
    ) as { limits: { of: string }[] }
  for (const typed of ['added water', 'Added  Water', 'addedWater'])
    expect(read(typed).limits[0]!.of).toBe('addedWater')
  expect(read('fat').limits[0]!.of).toBe('fat')
  const kept = { name: 'X', kind: 'fresh', meat: [], additions: [], limits: [{ of: 'addedWater', maxPct: 10 }] }
  expect(textsOf(kept as never)['limits[0].of']).toBe('added water')
})

it('an empty field is asked to be filled in, with no name of a type', () => {
  const reader = readerOf({ name: ' ' })
  reader.text('name', { required: true })
  expect(reader.faults).toEqual([{ path: 'name', message: 'is empty: fill it in' }])
})
