import type { DrawnCodeSize, LabelDrawnQuestion } from '@forcemeat/craft/declare/label/drawn'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import { codeRules, drawnRules, labelDrawnFigures, panelRules } from '../../data/declare/label-drawn.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'
import { judgeDisplay } from './label-display.ts'
import { judgeMark } from './mark.ts'

const shown = (x: number): string => String(Number(x.toFixed(3)))
/** Sizes are made from font units and points; the last bits of that are not a breach. */
const SLACK = 1e-6

/** A verdict from what is short of its limit; a rule nobody has read never passes. */
function finding(rule: Rule, short: readonly string[], stands: string, settle: string): Finding {
  const dated = rule.values[0]!
  const head = heading(rule, dated)
  if (short.length > 0) return { ...head, verdict: 'fail', because: short.join('; '), settle }
  if (canDecide(dated.source.mark)) return { ...head, verdict: 'pass', because: stands }
  return {
    ...head,
    verdict: 'cannot-tell',
    because: `${stands}; but the figures are from memory, not read in their source`,
    settle: `read ${dated.source.document}, ${dated.source.section}`,
  }
}

const codePoint = (c: string): string => `U+${c.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`

/** How long a symbol is at the module a warehouse reads, and whether that is allowed. */
function wideEnough({ kind, widthMm, moduleMm }: DrawnCodeSize): string {
  const { leastModuleMm, mostWidthMm = Infinity } = labelDrawnFigures.codes[kind]
  const mm = (widthMm * leastModuleMm) / moduleMm
  return `at which this symbol is ${shown(Math.ceil(mm * 10 - SLACK) / 10)} mm long${mm > mostWidthMm ? `; at most ${mostWidthMm} mm are allowed, so it would have to hold less` : ''}`
}

function judgeCode(c: DrawnCodeSize): Finding[] {
  const t = labelDrawnFigures.codes[c.kind]
  const isCase = c.kind === 'gs1-128'
  const under = c.moduleMm < t.leastModuleMm - SLACK
  const over = t.mostModuleMm !== undefined && c.moduleMm > t.mostModuleMm + SLACK
  const short = [
    ...(!isCase && under ? [`the module is ${shown(c.moduleMm)} mm; at least ${t.leastModuleMm} mm`] : []),
    ...(over ? [`the module is ${shown(c.moduleMm)} mm; at most ${t.mostModuleMm} mm`] : []),
    ...(t.leastBarMm !== undefined && c.barMm !== undefined && c.barMm < t.leastBarMm - SLACK
      ? [`the bars are ${shown(c.barMm)} mm high; at least ${t.leastBarMm} mm`]
      : []),
    ...(c.quietLeft < t.quietLeft - SLACK
      ? [`${shown(c.quietLeft)} modules of white on the left; at least ${t.quietLeft}`]
      : []),
    ...(c.quietRight < t.quietRight - SLACK
      ? [`${shown(c.quietRight)} modules of white on the right; at least ${t.quietRight}`]
      : []),
    ...(t.mostWidthMm !== undefined && c.widthMm > t.mostWidthMm + SLACK
      ? [`it is ${shown(c.widthMm)} mm long; at most ${t.mostWidthMm} mm`]
      : []),
    ...(t.mostCharacters !== undefined && c.characters > t.mostCharacters
      ? [`it holds ${c.characters} characters; at most ${t.mostCharacters}`]
      : []),
  ]
  const stands = `module ${shown(c.moduleMm)} mm${c.barMm === undefined ? '' : `, bars ${shown(c.barMm)} mm`}, ${shown(c.quietLeft)} and ${shown(c.quietRight)} modules of white beside it`
  const dated = drawnRules.warehouse.values[0]!
  return [
    finding(codeRules[c.kind], short, stands, 'change the thinnest bar, the width of the label, or the code'),
    ...(isCase && under
      ? [
          {
            ...heading(drawnRules.warehouse, dated),
            measured: c.moduleMm,
            limit: t.leastModuleMm,
            margin: c.moduleMm - t.leastModuleMm,
            verdict: 'cannot-tell' as const,
            because: `the module is ${shown(c.moduleMm)} mm; cases in general distribution carry at least ${t.leastModuleMm} mm, ${wideEnough(c)}`,
            settle: 'ask whoever scans it, take a larger label or another layout, or a GS1 DataMatrix',
          },
        ]
      : []),
  ]
}

/** Findings on the panel, the safe handling instructions, the bar code and the contrast of a label as drawn. */
export function judgeLabelDrawn(q: LabelDrawnQuestion): Finding[] {
  const panel = q.panel && panelRules[`${q.place}:${q.panel.format}`]
  const small = q.panel?.texts.filter((t) => t.pt < t.leastPt - SLACK) ?? []
  const { handlingXHeightMm: least, leastContrast } = labelDrawnFigures
  return [
    ...(panel && q.panel && q.panel.texts.length > 0
      ? [
          finding(
            panel,
            small.map((t) => `${t.what} stands in ${shown(t.pt)} points; at least ${t.leastPt}`),
            `every text of the panel stands in its points or more, the smallest in ${shown(Math.min(...q.panel.texts.map((t) => t.pt)))}`,
            'set it larger',
          ),
        ]
      : []),
    ...(q.handling
      ? [
          finding(
            drawnRules.handling,
            [
              ...(q.handling.smallestMm < least - SLACK
                ? [`the smallest text stands ${shown(q.handling.smallestMm)} mm high; at least ${shown(least)} mm`]
                : []),
              ...(q.handling.headingMm <= q.handling.smallestMm + SLACK
                ? ['the heading is no larger than the rest']
                : []),
            ],
            `letters of ${shown(q.handling.smallestMm)} mm and more, the heading ${shown(q.handling.headingMm)} mm, within a border`,
            'set it larger',
          ),
        ]
      : []),
    ...(q.code ? judgeCode(q.code) : []),
    ...(q.display ? judgeDisplay(q.display) : []),
    ...(q.mark ? judgeMark(q.place, q.mark) : []),
    {
      ...finding(
        drawnRules.contrast,
        q.contrast < leastContrast ? [`the contrast is ${shown(q.contrast)} to 1; at least ${leastContrast} to 1`] : [],
        `the contrast is ${shown(q.contrast)} to 1`,
        'take a darker ink or a lighter ground',
      ),
      jurisdiction: q.place,
    },
    ...(q.withoutLetter
      ? [
          {
            ...finding(
              drawnRules.letters,
              q.withoutLetter.length > 0
                ? [`its fonts have no letter for ${q.withoutLetter.map((c) => `"${c}" (${codePoint(c)})`).join(', ')}`]
                : [],
              'its fonts have every character of it',
              'write the text in letters the fonts have',
            ),
            jurisdiction: q.place,
          },
        ]
      : []),
  ]
}
