import type { LabelDrawnQuestion } from '@forcemeat/craft/declare/label/drawn'
import type { Finding } from '@forcemeat/craft/finding'
import { drawnRules, labelDrawnFigures } from '../../data/declare/label-drawn.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'

const CM2_PER_SQUARE_INCH = 6.4516
const cm2 = (area: number): string =>
  `${Number(area.toFixed(1))} cm² (${Number((area / CM2_PER_SQUARE_INCH).toFixed(1))} square inches)`
const head = (rule: Rule) => heading(rule, rule.values[0]!)

/** Whether a nutrition panel of the United States may be set otherwise than vertically on its pack. */
export function judgeDisplay({
  is,
  availableCm2: area,
  verticalFits,
  tabularFits,
  heightMm,
}: NonNullable<LabelDrawnQuestion['display']>): Finding[] {
  const { mostCm2, freeBelowCm2, heightMm: threeInches } = labelDrawnFigures.displays
  const said = head(drawnRules.display)
  const larger = is === 'linear' ? tabularFits : verticalFits
  const name = is === 'linear' ? 'tabular' : 'vertical'
  const settle = is === 'linear' ? 'set the panel tabular' : 'set the panel vertical'
  if (area === undefined)
    return [
      {
        ...said,
        verdict: 'cannot-tell',
        because: `a ${is} panel is for small packs, and the surface of this one that a label could stand on is not given`,
        settle: `enter the surface a label could stand on, all of it, or ${settle}`,
      },
    ]
  const measured = { measured: area, limit: mostCm2, margin: mostCm2 - area }
  // A pack of any size with no height for a vertical panel may have it tabular.
  const low = is === 'tabular' && heightMm < threeInches
  if (area > mostCm2 && !low)
    return [
      {
        ...said,
        ...measured,
        verdict: 'fail',
        because: `a label could stand on ${cm2(area)}; a ${is} panel is for at most ${cm2(mostCm2)}${is === 'tabular' ? ', or where there are not about 3 inches of height' : ''}`,
        settle,
      },
    ]
  // Of the smallest packs a linear one still asks that a tabular finds no room.
  const free = area < freeBelowCm2 && is === 'tabular'
  if (!free && larger)
    return [
      {
        ...said,
        ...measured,
        verdict: 'fail',
        because: `a ${name} panel finds room on this label`,
        settle,
      },
    ]
  const ok: Finding = {
    ...said,
    ...measured,
    verdict: 'pass',
    because: free
      ? `a label could stand on ${cm2(area)}, less than ${cm2(freeBelowCm2)}`
      : area > mostCm2
        ? `the label is ${Number(heightMm.toFixed(1))} mm high, less than about 3 inches`
        : `a label could stand on ${cm2(area)}, at most ${cm2(mostCm2)}`,
  }
  return free
    ? [ok]
    : [
        ok,
        {
          ...head(drawnRules.displayShape),
          verdict: 'cannot-tell',
          because: `a ${name} panel finds no room on this label; whether the pack could take one on a larger label only its maker knows`,
          settle: `say why the pack cannot take a ${name} panel`,
        },
      ]
}
