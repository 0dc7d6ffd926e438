import type { LabelTypeQuestion } from '@forcemeat/craft/declare/label/type-size'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import { labelTypeRules } from '../../data/declare/label-type.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'

const shown = (mm: number): string => String(Number(mm.toFixed(2)))

function height(rule: Rule, measured: number, limit: number, what: string): Finding {
  const dated = rule.values[0]!
  const head = { ...heading(rule, dated), measured, limit, margin: measured - limit }
  const because = `${what} stands ${shown(measured)} mm high; at least ${shown(limit)} mm`
  // Heights are made from font units and points; the last bits of that are not a breach.
  if (measured < limit - 1e-6) return { ...head, verdict: 'fail', because, settle: 'set it larger' }
  if (canDecide(dated.source.mark)) return { ...head, verdict: 'pass', because }
  return {
    ...head,
    margin: Math.max(0, measured - limit),
    verdict: 'cannot-tell',
    because: `${because}; but the figure is from memory, not read in its source`,
    settle: `read ${dated.source.document}, ${dated.source.section}`,
  }
}

/** Findings on a label as drawn: whether all of it is there, and whether the smallest of it is large enough. */
export function judgeLabelType(q: LabelTypeQuestion): Finding[] {
  const { letters, net } = labelTypeRules[q.place]
  const { fits } = labelTypeRules
  const smallest = q.texts.toSorted((a, b) => a.mm - b.mm)[0]
  return [
    {
      ...heading(fits, fits.values[0]!),
      jurisdiction: q.place,
      ...(q.unplaced.length === 0
        ? { verdict: 'pass' as const, because: 'every text and the bar code stand inside the edge' }
        : {
            verdict: 'fail' as const,
            because: `no room for ${q.unplaced.join(', ')}; ${shown(q.missingMm)} mm more are needed`,
            settle: 'take a larger label, another layout or shorter words; letters are not set smaller',
          }),
    },
    ...(smallest ? [height(letters, smallest.mm, q.least.xHeightMm, `the smallest text, ${smallest.what},`)] : []),
    ...(q.netMm === undefined ? [] : [height(net, q.netMm, q.least.netMm, 'the net quantity')]),
  ]
}
