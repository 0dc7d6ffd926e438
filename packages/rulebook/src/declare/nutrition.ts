import type { NutritionQuestion } from '@forcemeat/craft/declare/nutrition-rules'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import { fatLossRule, nutritionRules, restsOn } from '../../data/declare/nutrition.ts'
import { heading } from '../evaluate.ts'

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
  if (!q.fatLossUnknown) return [complete, ...unread]
  return [
    complete,
    ...unread,
    {
      ...heading(fatLossRule, fatLossRule.values[0]!),
      jurisdiction: q.jurisdiction,
      verdict: 'cannot-tell',
      because: 'the product loses weight and nobody says how much of it is fat',
      settle:
        'weigh what runs off and its fat and enter fatLossKg (0 where none drips, as in drying), or analyse the product',
    },
  ]
}
