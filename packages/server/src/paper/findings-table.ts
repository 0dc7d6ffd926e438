import type { Finding, Verdict } from '@forcemeat/craft/finding'
import { bothTemperatures } from '@forcemeat/craft/quantity/sentence'
import type { Content } from 'pdfmake'
import { apart, figure, type System } from './amounts.ts'
import { amber, good, ruled, stop } from './frame.ts'

/** Verdicts by word and shape first, colour last; the words are those of the screens. */
const marks: Readonly<Record<Verdict, { sign: string; word: string; color: string }>> = {
  pass: { sign: '✓', word: 'Meets', color: good },
  fail: { sign: '×', word: 'FAILS', color: stop },
  'cannot-tell': { sign: '?', word: 'Cannot tell', color: amber },
}

export const mark = (v: Verdict, fontSize = 10.5): Content => ({
  text: `${marks[v].sign} ${marks[v].word}`,
  bold: true,
  color: marks[v].color,
  fontSize,
})
export const th = (text: string, alignment = 'left'): Content => ({ text, style: 'th', alignment })
const order: Readonly<Record<Verdict, number>> = { fail: 0, 'cannot-tell': 1, pass: 2 }

/** What stops a release first, then what advises against it, then what is met. */
const rank = (f: Finding): number => (f.verdict === 'pass' ? 4 : order[f.verdict]) + (f.weight === 'advice' ? 2 : 0)

function findingRow(f: Finding, units: System): Content[] {
  const source = [f.source.document, f.source.section, f.source.edition].filter(Boolean).join(', ')
  return [
    mark(f.verdict),
    {
      stack: [
        { text: f.title, bold: true },
        { text: bothTemperatures(f.because, units), fontSize: 9.5 },
        ...(f.settle
          ? [{ text: `Would settle it: ${bothTemperatures(f.settle, units)}`, fontSize: 9.5, italics: true }]
          : []),
        { text: `${f.weight === 'advice' ? 'Advice. ' : ''}${f.jurisdiction}. ${source}`, style: 'small' },
      ],
    },
    { text: figure(f.measured, f.unit, units), alignment: 'right' },
    { text: figure(f.limit, f.unit, units), alignment: 'right' },
    {
      text: f.margin === undefined ? '–' : apart(f.margin, f.unit, units),
      alignment: 'right',
    },
  ]
}

/** Every finding with its reason and source: what stops a release first. */
export function findingsTable(findings: readonly Finding[], units: System): Content[] {
  if (findings.length === 0)
    return [
      { text: 'No rule has been held against this batch: nothing here says that it is safe.', bold: true, color: stop },
    ]
  const rows = findings.toSorted((a, b) => rank(a) - rank(b))
  return [
    {
      table: {
        headerRows: 1,
        keepWithHeaderRows: 1,
        dontBreakRows: true,
        widths: [64, '*', 58, 56, 58],
        body: [
          [
            th('Verdict'),
            th('Rule, reason, source'),
            th('Measured', 'right'),
            th('Limit', 'right'),
            th('Margin', 'right'),
          ],
          ...rows.map((f) => findingRow(f, units)),
        ],
      },
      layout: ruled,
    },
  ]
}

/** What each verdict means for the batch. */
export const meaning: Readonly<Record<Verdict, string>> = {
  pass: 'Every limit that was held against this batch is met. Advice stands with the findings.',
  fail: 'At least one limit is not met. Hold the batch.',
  'cannot-tell': 'Something needed is missing. Hold the batch until it is settled.',
}
