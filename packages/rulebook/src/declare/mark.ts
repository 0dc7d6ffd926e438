import type { LabelDrawnQuestion } from '@forcemeat/craft/declare/label/drawn'
import type { Finding } from '@forcemeat/craft/finding'
import { markFigures, markRules } from '../../data/declare/marks.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'

const head = (rule: Rule) => heading(rule, rule.values[0]!)
const known = (place: string): place is keyof typeof markRules => place in markRules

/** What is said of the place a product is made in, and the mark its label bears. Nothing where a place asks for none as far as held. */
export function judgeMark(place: string, q: NonNullable<LabelDrawnQuestion['mark']>): Finding[] {
  if (!known(place)) return []
  const { premises, mark, legend } = markRules[place]
  if (q.route === undefined)
    return [
      {
        ...head(premises),
        verdict: 'cannot-tell',
        because: 'nobody says whether it is made in an inspected or approved establishment, or under which exemption',
        settle: 'say under "Made in" how the place stands, or say here why the label needs no mark',
      },
    ]
  if (q.route === 'exempt') {
    const source = premises.values[0]!.source
    return [
      {
        ...head(premises),
        ...(q.because === undefined
          ? {
              verdict: 'fail',
              because: 'an exemption is claimed and not named',
              settle: 'enter the exemption: which one, and where it is written',
            }
          : {
              verdict: 'cannot-tell',
              because: `it bears no mark; claimed: ${q.because}. Whether that holds, and for sale to whom, is not judged here`,
              settle: `read ${source.document}, ${source.section}`,
            }),
      },
    ]
  }
  const lacking = [
    ...(q.number === undefined ? ['the approval or establishment number'] : []),
    ...(legend === undefined && q.country === undefined ? ['the country of the establishment'] : []),
  ]
  if (lacking.length > 0)
    return [
      {
        ...head(mark),
        verdict: 'fail',
        because: `made in an inspected or approved establishment, and not given: ${lacking.join(', ')}`,
        settle: `enter ${lacking.join(' and ')}`,
      },
    ]
  if (!q.placed)
    return [
      {
        ...head(mark),
        verdict: 'fail',
        because: 'the mark, or the room for it, finds no room',
        settle: 'take a larger label or another layout',
      },
    ]
  if (legend)
    return [
      {
        ...head(mark),
        verdict: 'pass',
        because: `the number ${q.number} stands on the label, and room is left for the legend`,
      },
      {
        ...head(legend),
        verdict: 'cannot-tell',
        because: 'the legend itself is official artwork and is not on this drawing',
        settle: 'say from which approved artwork the legend is printed into the room left for it',
      },
    ]
  const own = q.country!
  const unknown = own === 'UK(NI)'
  if (unknown)
    return [
      {
        ...head(mark),
        verdict: 'cannot-tell',
        because: 'the form of the mark of an establishment in Northern Ireland is not held',
        settle: 'print the mark the authority agreed with you, and give the country of the label as it stands there',
      },
    ]
  const inOval = markFigures.unionCountries.includes(own) || markFigures.britain.includes(own)
  return [
    {
      ...head(mark),
      verdict: 'pass',
      because: `${own} ${q.number} stands in ${inOval ? 'an oval' : 'a frame'}${markFigures.unionCountries.includes(own) ? `, with ${markFigures.unionLetters}` : ''}`,
    },
  ]
}
