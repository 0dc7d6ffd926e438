import type { NutritionQuestion } from '@forcemeat/craft/declare/nutrition-rules'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import {
  analysisRule,
  fatLossRule,
  nutritionRules,
  restsOn,
  servingRule,
  servingShare,
} from '../../data/declare/nutrition.ts'
import { heading } from '../evaluate.ts'

const shown = (x: number): string => String(Number(x.toFixed(2)))

/** Analysed figures far from the recipe: a person has to say which of the two holds. */
const apart = ({ apart: all = [], jurisdiction }: NutritionQuestion): Finding[] =>
  all.length === 0
    ? []
    : [
        {
          ...heading(analysisRule, analysisRule.values[0]!),
          jurisdiction,
          verdict: 'cannot-tell',
          because: `of 100 g, ${all
            .map(
              (a) =>
                `${a.label} ${shown(a.analysed)} ${a.unit} as analysed, ${shown(a.computed)} ${a.unit} as computed`,
            )
            .join('; ')}`,
          settle:
            'hold the analysis against the recipe and its lots: which sample, which unit, which loss; say why it stands',
        },
      ]

/** A serving far from what is customarily eaten. */
function serving({ serving: s }: NutritionQuestion): Finding[] {
  if (!s || (s.g >= servingShare.least * s.referenceG && s.g <= servingShare.most * s.referenceG)) return []
  return [
    {
      ...heading(servingRule, servingRule.values[0]!),
      measured: s.g,
      limit: s.referenceG,
      verdict: 'cannot-tell',
      because: `the serving is ${shown(s.g)} g; the reference amount is ${s.referenceG} g`,
      settle: 'set the serving near the reference amount, or say which single unit or single-serving pack it is',
    },
  ]
}

/** Whether every value the place asks for can be printed, and whether the loss behind them is known. */
export function judgeNutrition(q: NutritionQuestion): Finding[] {
  const rule = nutritionRules[`${q.jurisdiction}:${q.format}`]
  if (!rule) return []
  const head = {
    ...heading(rule, rule.values[0]!),
    measured: q.rows - q.unknown.length,
    limit: q.rows,
    margin: -q.unknown.length,
  }
  const named = q.unknown.map((u) => `${u.label} (${u.missing.join(', ') || 'not known'})`).join('; ')
  const complete: Finding =
    q.unknown.length > 0
      ? {
          ...head,
          verdict: 'cannot-tell',
          because: `not known well enough to print: ${named}`,
          settle: "enter the figure from the supplier's specification or from an analysis of the product",
        }
      : canDecide(rule.values[0]!.source.mark)
        ? { ...head, verdict: 'pass', because: `all ${q.rows} values asked for are known` }
        : {
            ...head,
            verdict: 'cannot-tell',
            because: 'every value of the list held here is known; but the list is from memory, not read in its source',
            settle: `read the list in ${rule.values[0]!.source.document}, or use the format of 2016`,
          }
  const behind = restsOn[`${q.jurisdiction}:${q.format}`]
  const unread: Finding[] = behind
    ? [
        {
          ...heading(behind, behind.values[0]!),
          verdict: 'cannot-tell',
          because: `${behind.title.toLowerCase()} are from memory, not read in their source`,
          settle: `hold them against ${behind.values[0]!.source.document}, ${behind.values[0]!.source.section}`,
        },
      ]
    : []
  const told = [complete, ...unread, ...apart(q), ...serving(q)]
  if (!q.fatLossUnknown) return told
  return [
    ...told,
    {
      ...heading(fatLossRule, fatLossRule.values[0]!),
      jurisdiction: q.jurisdiction,
      verdict: 'cannot-tell',
      because: 'the product loses weight and nobody says how much of it is fat',
      settle:
        'weigh what runs off and its fat and enter the fat that runs off in cooking (0 where none drips, as in drying), or analyse the product',
    },
  ]
}
