import { formatQuantity } from './format.ts'
import { convert } from './units.ts'

/** One temperature, or two with a word between them, and the unit behind. */
const temperatures = /(?<![\w.,−-])([-−]?\d+(?:\.\d+)?)(?:( to | or |–| and )([-−]?\d+(?:\.\d+)?))? (°C|°F)(?!\w)/g

/** Before or behind these a figure is a difference of two temperatures, which has another conversion. */
const differenceBefore =
  /(±|\b(by|within|every|apart|moves?|(error|rise|fall|drop|margin|step|spread|difference|correction|offset) of)) ?$/
const differenceAfter =
  /^ (more|less|warmer|colder|cooler|hotter|higher|lower|above|below|off|apart|a minute|a day|an hour|per )/
/** What follows a figure that is said in another unit already, and what holds one that says so. */
const saidBehind = /^ ?\((about )?[-−]?\d[^)]*°/
const saidBefore = /° ?[CF] \([^()]*$/

const figureOf = (text: string): number => Number(text.replace('−', '-'))

/**
 * A sentence with each of its temperatures said again in brackets in the other unit, where it speaks in one this reader does not: a
 * rule keeps its own words and figures. Differences and figures that are said in both already are left as they stand.
 */
export function bothTemperatures(sentence: string, system: 'metric' | 'us'): string {
  const [from, to] = system === 'us' ? (['°C', '°F'] as const) : (['°F', '°C'] as const)
  if (!sentence.includes(from)) return sentence
  const turned = (text: string): string =>
    formatQuantity(convert(figureOf(text), 'temperature', from, '°C'), 'temperature', { system }).replace(` ${to}`, '')
  return sentence.replaceAll(
    temperatures,
    (whole: string, first: string, joint: string | undefined, second: string | undefined, unit: string, at: number) => {
      const [before, after] = [sentence.slice(0, at), sentence.slice(at + whole.length)]
      if (unit !== from || saidBehind.test(after) || saidBefore.test(before)) return whole
      if (differenceBefore.test(before) || differenceAfter.test(after)) return whole
      const again = second === undefined ? turned(first) : `${turned(first)}${joint}${turned(second)}`
      return `${whole} (${again} ${to})`
    },
  )
}
