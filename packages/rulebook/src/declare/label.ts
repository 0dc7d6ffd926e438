import type { LabelQuestion } from '@forcemeat/craft/declare/label-rules'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import { allergenWords } from '../../data/declare/allergens.ts'
import { asksClass, asksFinishedWater, labelRules, type LabelPlace } from '../../data/declare/label-rules.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'

type Open = { readonly because: string; readonly settle: string }

/** A finding on something that is either all there or open: what is open cannot be told, whatever the place. */
function whole(rule: Rule, count: number, open: readonly string[], said: Open, good: string): Finding {
  const dated = rule.values[0]!
  const head = { ...heading(rule, dated), measured: count - open.length, limit: count, margin: -open.length }
  if (open.length > 0)
    return { ...head, verdict: 'cannot-tell', because: `${said.because}: ${open.join('; ')}`, settle: said.settle }
  if (canDecide(dated.source.mark)) return { ...head, verdict: 'pass', because: good }
  return {
    ...head,
    verdict: 'cannot-tell',
    because: `${good}; but the rule is from memory, not read in its source`,
    settle: `read ${dated.source.document}, ${dated.source.section}`,
  }
}

/** An allergen in words. */
const wordOf = (allergen: string): string =>
  Object.hasOwn(allergenWords, allergen) ? allergenWords[allergen as keyof typeof allergenWords].say : allergen

function ofPlace(place: LabelPlace, q: LabelQuestion): Finding[] {
  const r = labelRules[place]
  const { list, denied = [] } = q
  return [
    whole(
      r.source,
      q.items,
      [
        ...q.noAllergenSource.map((u) => `${u.name} (${u.because})`),
        ...denied.map((d) => `the statement on ${d.name} denies ${wordOf(d.allergen)}, which ${d.by} names`),
      ],
      denied.length === 0
        ? {
            because: 'what it carries is not known',
            settle: "enter the allergens of the supplier's specification, or that it carries none",
          }
        : {
            because: 'what it carries is told in two ways, and it is declared meanwhile',
            settle: 'have the supplier put the statement right, and enter all it carries',
          },
      `all ${q.items} ingredients have a source for what they carry`,
    ),
    whole(
      r.kind,
      q.items,
      q.kindNotNamed.map(
        (k) =>
          `${k.name} (${k.allergen === 'gluten-cereal' ? 'gluten-containing cereal: which one is not known' : k.allergen})`,
      ),
      {
        because: 'the kind is not named',
        settle: 'name the nut, cereal, fish or shellfish in the name of the ingredient',
      },
      'no nut, cereal, fish or shellfish goes unnamed',
    ),
    ...(list
      ? [
          whole(
            r.compound,
            q.items,
            list.compoundWithoutList,
            {
              because: 'made of several things, and their list is not given',
              settle: "enter its parts from the supplier's specification",
            },
            'every compound ingredient that asks for one has its list',
          ),
        ]
      : []),
    ...(list && asksClass.includes(place)
      ? [
          whole(
            r.additive,
            q.items,
            list.additivesWithoutClass,
            {
              because: 'no functional class is given',
              settle: 'say what it does: preservative, antioxidant, stabiliser …',
            },
            'every additive has its class and name',
          ),
        ]
      : []),
    ...(list && asksFinishedWater.includes(place) && list.waterLeftOutAgainstRule
      ? [
          {
            ...heading(r.water, r.water.values[0]!),
            verdict: 'fail' as const,
            because: 'added water was asked to be left out where it may not be; it stands in the list',
          },
        ]
      : []),
  ]
}

/** Findings on allergens and the list of ingredients, place by place. */
export function judgeLabel(q: LabelQuestion): Finding[] {
  return q.jurisdictions.flatMap((place) => (Object.hasOwn(labelRules, place) ? ofPlace(place as LabelPlace, q) : []))
}
