import { afterEach, expect, it } from 'vitest'
import { isDifference, unitIn } from '../../src/pages/record/body-units.ts'
import { inDegrees } from '../../src/pages/slow/lines.ts'
import { units } from '../../src/state/who.ts'
import { apart, degrees } from '../../src/ui/figures.ts'
import { besideSentence } from '../../src/ui/finding-figures.ts'

afterEach(() => {
  units.value = ''
})

it('a margin of degrees is a difference: 5 °C is 9 °F, never 41 °F', () => {
  expect(degrees(5)).toBe('5 °C')
  units.value = 'us'
  expect(degrees(5)).toBe('9 °F')
  expect(degrees(-0.6)).toBe('−1.08 °F')
  expect(apart(0.5, '°C')).toBe('0.9 °F')
  expect(apart(1, 'kg')).toBe('2 lb 3.3 oz')
  expect(apart(2, 'min')).toBe('2 min')
})

it('the figures of a finding beside its sentence follow the units of the screen', () => {
  const warm = { measured: 7, limit: 4.4, margin: -2.6, unit: '°C' }
  expect(besideSentence(warm)).toBe('margin −2.6 °C')
  units.value = 'us'
  expect(besideSentence(warm)).toBe('measured 44.6 °F, limit 39.9 °F, margin −4.68 °F')
  expect(besideSentence({ measured: 1, limit: 2, margin: 1, unit: 'kg' })).toBe(
    'measured 2 lb 3.3 oz, limit 4 lb 6.5 oz, margin 2 lb 3.3 oz',
  )
})

it('what the sentence says in the same unit on every screen is not said again', () => {
  const ppm = { measured: 120, limit: 156, margin: 36, unit: 'mg/kg' }
  expect(besideSentence(ppm)).toBe('margin 36 mg/kg')
  units.value = 'us'
  expect(besideSentence(ppm)).toBe('margin 36 mg/kg')
  expect(besideSentence({ unit: '°C' })).toBe('')
  expect(besideSentence({ measured: 7, unit: '°C' })).toBe('measured 44.6 °F')
})

it('an offset, a tolerance or a step in a recorded fact is a difference; an air or arrival temperature is not', () => {
  for (const name of ['toleranceC', 'resolutionC', 'channels[0].offsetC']) {
    expect(unitIn(name)).toBe('°C')
    expect(isDifference(name)).toBe(true)
  }
  for (const name of ['arrivalC', 'tempC', 'unit.coilTempC']) expect(isDifference(name)).toBe(false)
})

it('a sentence turned into °F keeps a frost a frost and a spread a spread', () => {
  units.value = 'us'
  expect(inDegrees('the coil at -5 °C, the room at 14 °C')).toBe('the coil at 23 °F, the room at 57.2 °F')
  expect(inDegrees('the coil at −5 °C')).toBe('the coil at 23 °F')
  expect(inDegrees('right within ± 0.5 °C')).toBe('right within ± 0.9 °F')
})
