import type { DatesQuestion } from '@forcemeat/craft/declare/dates'
import type { Finding } from '@forcemeat/craft/finding'
import { dateRules } from '../../data/declare/dates.ts'
import { keptRaw, keptRules, NOT_FROZEN_ABOVE_C, rawPerishable } from '../../data/declare/kept.ts'
import type { Rule } from '../rule.ts'

export type Said = Pick<Finding, 'verdict' | 'because' | 'settle'> &
  Partial<Pick<Finding, 'measured' | 'limit' | 'margin'>>
export type Say = (rule: Rule, said: Said) => Finding

const cold = 'keep it chilled or frozen, and say so on the label'

/** Whether it may be kept without refrigeration. What was judged of the batch counts; what is said of it only where nothing was. */
function ambient({ kind, stability, stableUnrefrigerated }: DatesQuestion): Said {
  if (kind === 'fresh')
    return {
      verdict: 'fail',
      because: 'it is raw, neither fermented nor dried: nothing keeps it without refrigeration',
      settle: cold,
    }
  if (stability === 'shelf-stable')
    return { verdict: 'pass', because: 'found shelf-stable by what was measured on this batch' }
  if (stability === 'cannot-tell')
    return {
      verdict: 'cannot-tell',
      because: 'what was measured on this batch does not tell whether it keeps without refrigeration',
      settle: `measure its water activity and pH at the end, by meters checked that day; or ${cold}`,
    }
  if (stability !== undefined)
    return {
      verdict: 'fail',
      because: `found ${stability.replace('-', ' ')} by what was measured on this batch`,
      settle: cold,
    }
  if (kind === 'cooked')
    return {
      verdict: 'cannot-tell',
      because: 'a cooked product is not judged for keeping without refrigeration, and nobody’s word stands in for it',
      settle: `${cold}; a process that makes it shelf-stable is for a process authority`,
    }
  if (stableUnrefrigerated === undefined)
    return {
      verdict: 'cannot-tell',
      because: 'nobody says that it keeps without refrigeration',
      settle: 'judge its stability by pH, water activity and process',
    }
  return stableUnrefrigerated
    ? { verdict: 'pass', because: 'found stable without refrigeration' }
    : {
        verdict: 'fail',
        because: 'found not stable without refrigeration, and the storage line does not ask for cold',
      }
}

/** Rules on how warm it may be said to be kept, for what it is. */
function limitsOf({ jurisdiction, kind, stability, storage }: DatesQuestion): readonly Rule[] {
  if (kind === undefined || storage === 'ambient') return []
  if (storage === 'frozen') return [keptRules.frozen]
  if (kind === 'fresh') return [...(keptRaw[jurisdiction] ?? []), keptRules.perishable]
  if (stability === 'shelf-stable') return []
  return stability === 'perishable' ? [keptRules.perishable] : [keptRules.veryPerishable, keptRules.perishable]
}

/** Above a limit nobody has read a person answers; far above it, only another figure on the label helps. */
function kept(q: DatesQuestion, rule: Rule): Said | undefined {
  const { storageC } = q
  const { max, source } = rule.values[0]!
  if (storageC === undefined || max === undefined || storageC <= max) return undefined
  const figures = { measured: storageC, limit: max }
  const because = `the label says at most ${storageC} °C; at most ${max} °C is allowed`
  const settle = `say at most ${max} °C on the label, or read what the place asks for`
  if (source.mark !== 'from-memory') return { verdict: 'fail', because, settle, ...figures, margin: max - storageC }
  const far =
    rule === keptRules.perishable
      ? q.stability !== 'perishable'
      : rule === keptRules.frozen && storageC > NOT_FROZEN_ABOVE_C
  return {
    verdict: 'cannot-tell',
    because: `${because} by a figure from memory`,
    settle,
    ...figures,
    ...(far ? { margin: max - storageC } : {}),
  }
}

/** Findings on where and how warm a product is said to be kept. Only what stands against it is said: none of them proves the label right. */
export function judgeKept(q: DatesQuestion, say: Say): Finding[] {
  return [
    ...(q.storage === 'ambient' ? [say(dateRules.stable, ambient(q))] : []),
    ...limitsOf(q).flatMap((rule) => {
      const said = kept(q, rule)
      return said ? [say(rule, said)] : []
    }),
    // Canada knows one date, whatever the food.
    ...(q.kind === 'fresh' && q.storage === 'chilled' && q.highlyPerishable === false && q.jurisdiction !== 'CA'
      ? [
          say(rawPerishable, {
            verdict: 'cannot-tell',
            because: 'it is raw and kept chilled, and said not to be highly perishable: it is dated best before',
            settle: 'say that it is highly perishable, or who found that it is not, and by what',
          }),
        ]
      : []),
  ]
}
