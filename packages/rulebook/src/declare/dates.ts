import type { DatesQuestion } from '@forcemeat/craft/declare/dates'
import type { Finding } from '@forcemeat/craft/finding'
import { auNzDateRules, caDateRules, dateRules, gbDateRules } from '../../data/declare/dates.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'
import { judgeKept, type Said } from './kept.ts'

function european(q: DatesQuestion, say: (rule: Rule, said: Said) => Finding): Finding[] {
  const rules = q.jurisdiction === 'GB' ? gbDateRules : dateRules.EU
  const frozenKind = q.storage === 'frozen' && q.productClass !== 'meat-product' && q.productClass !== 'other'
  return [
    ...(q.storage === 'chilled'
      ? [
          say(
            rules.perishable,
            q.highlyPerishable === undefined
              ? {
                  verdict: 'cannot-tell',
                  because: 'nobody says whether it is highly perishable; it is dated as if it were',
                  settle: 'say whether it is, from its pH, water activity and process',
                }
              : {
                  verdict: 'pass',
                  because: q.highlyPerishable
                    ? 'highly perishable, dated use by'
                    : 'said not to be highly perishable, dated best before',
                },
          ),
        ]
      : []),
    ...(q.storage === 'ambient'
      ? []
      : [
          say(
            rules.storage,
            q.storageC === undefined
              ? {
                  verdict: 'cannot-tell',
                  because: 'the storage temperature is not given',
                  settle: 'enter the storage temperature, at most',
                }
              : { verdict: 'pass', because: `kept at most ${q.storageC} °C` },
          ),
        ]),
    ...(frozenKind
      ? [
          say(
            rules.frozen,
            q.frozenOn === undefined
              ? {
                  verdict: 'cannot-tell',
                  because: 'the day of freezing is not given',
                  settle: 'enter the day it was frozen on',
                }
              : { verdict: 'pass', because: `frozen on ${q.frozenOn}` },
          ),
        ]
      : []),
  ]
}

/** Durable life up to which Canada asks for the date, days. */
const CA_DATE_UP_TO_DAYS = 90

function canadian(q: DatesQuestion, say: (rule: Rule, said: Said) => Finding): Finding[] {
  return [
    say(caDateRules.form, {
      verdict: 'pass',
      because:
        q.shelfLifeDays <= CA_DATE_UP_TO_DAYS
          ? `${q.shelfLifeDays} days: the date stands in both languages, year first`
          : `${q.shelfLifeDays} days: the date is not asked for; where it stands it has the prescribed form`,
    }),
    ...(q.storage === 'ambient'
      ? []
      : [say(caDateRules.storage, { verdict: 'pass', because: 'the prescribed words stand in both languages' })]),
  ]
}

function ofTheCode(q: DatesQuestion, say: (rule: Rule, said: Said) => Finding): Finding[] {
  const [perishable, storage] = european({ ...q, jurisdiction: 'EU', productClass: 'other' }, say)
  const said = (f: Finding): Said => ({
    verdict: f.verdict,
    because: f.because,
    ...(f.settle === undefined ? {} : { settle: f.settle }),
  })
  if (q.storage === 'ambient') return []
  if (q.storage === 'chilled')
    return [say(auNzDateRules.perishable, said(perishable!)), say(auNzDateRules.storage, said(storage!))]
  return [say(auNzDateRules.storage, said(perishable!))]
}

/** Findings on the date and storage line of a label. */
export function judgeDates(q: DatesQuestion): Finding[] {
  const say = (rule: Rule, said: Said): Finding => ({
    ...heading(rule, rule.values[0]!),
    jurisdiction: q.jurisdiction,
    ...said,
  })
  return [
    say(
      dateRules.life,
      q.validation === undefined
        ? {
            verdict: 'cannot-tell',
            because: 'no proof of the shelf life is named',
            settle: 'name the storage trial, challenge test or history it rests on',
          }
        : { verdict: 'pass', because: `rests on: ${q.validation}` },
    ),
    ...judgeKept(q, say),
    ...(q.jurisdiction === 'EU' || q.jurisdiction === 'GB' ? european(q, say) : []),
    ...(q.jurisdiction === 'CA' ? canadian(q, say) : []),
    ...(q.jurisdiction === 'AU-NZ' ? ofTheCode(q, say) : []),
    ...(q.jurisdiction === 'US' && !q.readyToEat
      ? [
          say(dateRules.US.handling, {
            verdict: 'cannot-tell',
            because:
              'not ready to eat: the prescribed instructions are due; their wording here is from a reproduction, and their graphics are drawn by this program after a description from memory',
            settle: 'compare the text and the graphics on the label with 9 CFR 317.2(l), word for word',
          }),
        ]
      : []),
  ]
}
