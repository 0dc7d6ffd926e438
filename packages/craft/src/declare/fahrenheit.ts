/** From here up a temperature on a label is one to reach; below it, one not to pass (hot holding begins at 57 °C, cold ends at 5 °C). */
const HOT_FROM_C = 30
/** Temperatures are typed to the tenth of a degree; what lies within that is the degree itself. */
const TYPED_F = 0.1

const minus = (x: number): string => `${x < 0 ? '−' : ''}${Math.abs(x)}`

/** Whole degrees Fahrenheit that never ask for less than the Celsius figure: colder where it is to be kept, hotter where it is to be cooked. */
export function safeFahrenheit(celsius: number): number {
  const f = celsius * 1.8 + 32
  const whole = celsius >= HOT_FROM_C ? Math.ceil(f - TYPED_F) : Math.floor(f + TYPED_F)
  return whole === 0 ? 0 : whole
}

/** A storage temperature as a place reads it: °F first in the United States. */
export function degreesFor(place: string, celsius: number): string {
  const c = `${minus(celsius)} °C`
  return place === 'US' ? `${minus(safeFahrenheit(celsius))} °F (${c})` : c
}

/** A temperature as makers write it: "74 °C", "74C", "74 degrees C", "74 deg. Celsius"; a figure behind a letter is no temperature. */
const celsiusIn =
  /(?<![\p{L}\d.,])([−-]?\d+(?:[.,]\d+)?)\s*(?:(?:°|º|˚|deg(?:ree)?s?\.?)\s*(?:C\b|Celsius\b|centigrade\b)|(?:C|Celsius|centigrade)\b|℃)/giu

/** A line of the maker's own for the place: for the United States every Celsius figure gets its °F before it, where none stands there. */
export function lineFor(place: string, line: string): string {
  if (place !== 'US' || /\d\s*(?:°|º|˚|deg(?:ree)?s?\.?)?\s*(?:F|Fahrenheit)\b|℉/i.test(line)) return line
  return line.replaceAll(celsiusIn, (_all, typed: string) => {
    const celsius = Number(typed.replace('−', '-').replace(',', '.'))
    return degreesFor('US', celsius)
  })
}
