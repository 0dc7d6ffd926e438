import { readPlain } from '../../state/reader.ts'
import { system } from '../../state/who.ts'
import { degrees, editable } from '../../ui/figures.ts'

/** A check of a thermometer is recorded in °C; on a screen in °F it is typed and read in °F. */
export const typedUnit = (unit: string): string => (unit === '°C' && system.value === 'us' ? '°F' : unit)

const turned = (text: string, unit: string, turn: (x: number) => number): string => {
  if (typedUnit(unit) === unit || text.trim() === '') return text
  const read = readPlain(text)
  return read.ok ? editable(Number(turn(read.value).toPrecision(12))) : text
}

/** What was typed, as the record has it: °C. What is no number stays as it is. */
export const recordedReading = (text: string, unit: string): string => turned(text, unit, (f) => (f - 32) / 1.8)
export const recordedTolerance = (text: string, unit: string): string => turned(text, unit, (f) => f / 1.8)

/** A figure of the record as it stands in a field. */
export const shownReading = (text: string, unit: string): string => turned(text, unit, (c) => c * 1.8 + 32)
export const shownTolerance = (text: string, unit: string): string => turned(text, unit, (c) => c * 1.8)

/** A sentence that speaks of nothing but differences in °C, in those of this screen. */
export const differencesHere = (sentence: string): string =>
  system.value === 'us'
    ? sentence.replace(/([−-]?)(\d+(?:\.\d+)?) °C/g, (_, sign: string, n: string) => `${sign}${degrees(Number(n))}`)
    : sentence
