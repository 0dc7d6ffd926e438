import { afterEach, describe, expect, it } from 'vitest'
import {
  differencesHere,
  recordedReading,
  recordedTolerance,
  shownReading,
  shownTolerance,
  typedUnit,
} from '../../src/pages/instruments/check-units.ts'
import { batchKg } from '../../src/pages/plan/week-settings.ts'
import { units } from '../../src/state/who.ts'
import { columnUnit, inColumn } from '../../src/ui/figures.ts'
import { besideSentence } from '../../src/ui/finding-figures.ts'
import { inScreenUnit } from '../../src/ui/form.tsx'
import { paper } from '../../src/ui/paper.ts'

afterEach(() => {
  units.value = ''
})

it('a paper is asked for on the paper and in the units of the screen', () => {
  expect(paper('drying-record/S-1')).toBe('/paper/drying-record/S-1.pdf?size=A4&units=metric')
  units.value = 'us'
  expect(paper('plan/week', { days: '7' })).toBe('/paper/plan/week.pdf?days=7&size=Letter&units=us')
})

describe('a check of a thermometer on a screen in °F', () => {
  it('is typed in °F and recorded in °C, its tolerance as a difference', () => {
    units.value = 'us'
    expect(typedUnit('°C')).toBe('°F')
    expect([shownReading('0', '°C'), shownTolerance('0.5', '°C')]).toEqual(['32', '0.9'])
    expect([recordedReading('32.9', '°C'), recordedTolerance('0.9', '°C')]).toEqual(['0.5', '0.5'])
    expect(differencesHere('off by −0.2 °C, against ±0.5 °C')).toBe('off by −0.36 °F, against ±0.9 °F')
  })

  it('leaves grams, what is not a number, and a screen in °C alone', () => {
    expect(recordedReading('0.5', '°C')).toBe('0.5')
    units.value = 'us'
    expect(recordedReading('1000', 'g')).toBe('1000')
    expect(recordedReading('ice', '°C')).toBe('ice')
    expect(recordedReading('', '°C')).toBe('')
  })
})

it('a field typed in the units of the other system says what it comes to, and keeps the figure', () => {
  expect(inScreenUnit('80 kg', 'mass')).toBeUndefined()
  expect(inScreenUnit('55.4 °F', 'temperature')).toBe('= 13 °C')
  units.value = 'us'
  expect(inScreenUnit('80 kg', 'mass')).toBe('= 176.4 lb')
  expect(inScreenUnit('13 °C', 'temperature')).toBe('= 55.4 °F')
  expect(inScreenUnit('-18 °C', 'temperature', true)).toBe('= −0.4 °F')
  for (const typed of ['', '80', '13 °F', '6 lb 4 oz', 'much kg']) expect(inScreenUnit(typed, 'mass')).toBeUndefined()
})

it('a column of kilograms is one of pounds, head and figures, and one of hours stays', () => {
  expect([columnUnit('kg'), inColumn(45.359237, 'kg')]).toEqual(['kg', '45.4'])
  units.value = 'us'
  expect([columnUnit('kg'), inColumn(45.359237, 'kg')]).toEqual(['lb', '100'])
  expect([columnUnit('hours'), inColumn(6, 'hours')]).toEqual(['hours', '6'])
})

it('a size of batch without a unit is in that of the screen', () => {
  expect([batchKg('100'), batchKg('100 lb'), batchKg('none')]).toEqual([100, 45.3592, undefined])
  units.value = 'us'
  expect([batchKg('100'), batchKg('100 kg')]).toEqual([45.3592, 100])
})

it('degrees that a sentence says are not said again beside it', () => {
  units.value = 'us'
  const f = { measured: 7, limit: 4, margin: -3, unit: '°C', because: '7 °C on arrival' }
  expect(besideSentence(f)).toBe('margin −5.4 °F')
})
