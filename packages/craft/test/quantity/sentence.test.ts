import { describe, expect, it } from 'vitest'
import { bothTemperatures } from '../../src/quantity/sentence.ts'

describe('temperatures of a sentence, said in both units', () => {
  it.each([
    ['2.4 °C on arrival; allowed here at most 5 °C', '2.4 °C (36.3 °F) on arrival; allowed here at most 5 °C (41 °F)'],
    ['core 70 °C held 2 min', 'core 70 °C (158 °F) held 2 min'],
    ['Kept frozen at −18 °C or below', 'Kept frozen at −18 °C (−0.4 °F) or below'],
    ['50 to 20 °C in 2 h, to 4 °C in 7.5 h', '50 to 20 °C (122 to 68 °F) in 2 h, to 4 °C (39.2 °F) in 7.5 h'],
  ])('%s, for a screen in °F', (said, shown) => expect(bothTemperatures(said, 'us')).toBe(shown))

  it.each([
    [
      'Option 3: cured, 130 to 80 °F in 5 h, then 80 to 40 °F in 10 h',
      'Option 3: cured, 130 to 80 °F (54.4 to 26.7 °C) in 5 h, then 80 to 40 °F (26.7 to 4.4 °C) in 10 h',
    ],
    ['40 °F or 45 °F; between them', '40 °F (4.4 °C) or 45 °F (7.2 °C); between them'],
  ])('%s, for a screen in °C', (said, shown) => expect(bothTemperatures(said, 'metric')).toBe(shown))

  it.each([
    'at most 5 °C (41 °F)',
    'met or missed within the thermometer’s error of ±0.5 °C',
    'chill the meat by 3 °C more',
    'a limit at least 2 °C above what the core must reach',
    'more than 0.5 °C a minute',
    'the error of 0.5 °C counted in',
    'corrected by 0.4 °C',
  ])('a difference, and a figure said in both already, stands as it is: %s', (said) =>
    expect(bothTemperatures(said, 'us')).toBe(said),
  )

  it('°C in brackets behind a figure in °F is not said a third time', () => {
    const said = '40 to 140 °F is the zone; Keep meat out of 4 to 60 °C (40 to 140 °F)'
    expect(bothTemperatures('Keep meat out of 4 to 60 °C (40 to 140 °F)', 'us')).toBe(
      'Keep meat out of 4 to 60 °C (40 to 140 °F)',
    )
    expect(bothTemperatures(said, 'metric')).toBe(
      '40 to 140 °F (4.4 to 60 °C) is the zone; Keep meat out of 4 to 60 °C (40 to 140 °F)',
    )
  })

  it('is the same sentence where nothing is in the other unit', () => {
    expect(bothTemperatures('kept at most 5 °C', 'metric')).toBe('kept at most 5 °C')
    expect(bothTemperatures('50 % and 3 kg', 'us')).toBe('50 % and 3 kg')
  })
})
