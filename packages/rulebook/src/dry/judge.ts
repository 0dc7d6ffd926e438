import type { Stand, StabilityClasses, StabilityMeasure, StabilityQuestion } from '@forcemeat/craft/dry/stability'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import {
  PERISHABLE,
  SHELF_STABLE,
  stabilityRules,
  type Bound,
  type Combination,
  type StabilityRule,
} from '../../data/dry/stability.ts'
import { heading } from '../evaluate.ts'
import { EVERYWHERE } from '../rule.ts'

/** Figures typed as decimals carry rounding; this much decides nothing. */
const ROUNDING = 1e-9

const words: Record<StabilityMeasure, string> = {
  ph: 'pH',
  aw: 'water activity',
  moistureToProtein: 'moisture to protein',
  brinePct: 'water-phase salt (from salt and water)',
  shelfLifeDays: 'shelf life in days',
}

type Standing = 'holds' | 'fails' | 'open'

const inside = (x: number, { below, above, orAt }: Bound): boolean =>
  below === undefined
    ? orAt
      ? x >= above! - ROUNDING
      : x > above! + ROUNDING
    : orAt
      ? x <= below + ROUNDING
      : x < below - ROUNDING

function ofBound(bound: Bound, stand: Stand | undefined): Standing {
  if (!stand) return 'open'
  const ends = [inside(stand.low, bound), inside(stand.high, bound)]
  if (ends[0] !== ends[1]) return 'open'
  // An unproven figure may rule itself out, never in.
  return ends[0] ? (stand.unproven === undefined ? 'holds' : 'open') : 'fails'
}

function ofCombination({ all }: Combination, q: StabilityQuestion): Standing {
  const each = all.map((b) => ofBound(b, q.measures[b.measure]))
  return each.includes('fails') ? 'fails' : each.includes('open') ? 'open' : 'holds'
}

const spell = ({ all }: Combination): string =>
  all
    .map(({ measure, below, above, orAt }) => {
      const figure = below ?? above!
      const side = below === undefined ? (orAt ? 'at least' : 'above') : orAt ? 'at most' : 'below'
      return `${words[measure]} ${side} ${figure}`
    })
    .join(' and ')

const given = (q: StabilityQuestion, measures: ReadonlySet<StabilityMeasure>): string =>
  [...measures]
    .flatMap((m) => {
      const s = q.measures[m]
      return s ? [`${words[m]} ${s.value}${s.high > s.value ? ` ± ${Number((s.high - s.value).toFixed(4))}` : ''}`] : []
    })
    .join(', ')

/** The figure shown beside a finding: where all combinations turn on one measure, or one combination is met by a single bound. */
function shown(combination: Combination | undefined, q: StabilityQuestion): Partial<Finding> {
  const bound = combination?.all.length === 1 ? combination.all[0] : undefined
  const stand = bound && q.measures[bound.measure]
  if (!bound || !stand) return {}
  const limit = bound.below ?? bound.above!
  const margin = bound.below === undefined ? stand.low - limit : limit - stand.high
  return { measured: stand.value, limit, margin }
}

function judgeRule(entry: StabilityRule, q: StabilityQuestion): Finding {
  const { rule, anyOf, met, notMet, bindsFor } = entry
  const standings = anyOf.map((c) => ({ combination: c, standing: ofCombination(c, q) }))
  const head = {
    ...heading(rule, rule.values[0]!),
    ...(bindsFor !== undefined && bindsFor === q.storage ? { weight: 'limit' as const } : {}),
  }
  const asked = new Set(anyOf.flatMap((c) => c.all.map((b) => b.measure)))
  const stood = given(q, asked)
  const options = anyOf.map(spell).join('; or ')
  const holding = standings.filter((s) => s.standing === 'holds')
  const decisive = holding.find((s) => canDecide(s.combination.source.mark))
  if (decisive) {
    const { document, section, edition, url, mark } = decisive.combination.source
    return {
      ...head,
      source: { document, section, edition, mark, ...(url === undefined ? {} : { url }) },
      ...shown(decisive.combination, q),
      verdict: 'pass',
      because: `${stood}: ${met} (${spell(decisive.combination)})`,
    }
  }
  const only = anyOf.length === 1 ? anyOf[0] : undefined
  if (standings.every((s) => s.standing === 'fails'))
    return { ...head, ...shown(only, q), verdict: 'fail', because: `${stood}: ${notMet} (${options})` }
  const open = standings.filter((s) => s.standing === 'open').map((s) => s.combination)
  const unknown = [...new Set(open.flatMap((c) => c.all.map((b) => b.measure)))]
  const missing = unknown.filter((m) => q.measures[m] === undefined)
  const unproven = unknown.flatMap((m) => q.measures[m]?.unproven ?? [])
  const why = [
    ...(holding.length > 0 ? ['met only by a figure that is from memory'] : []),
    ...(missing.length > 0 ? [`not known: ${missing.map((m) => words[m]).join(', ')}`] : []),
    ...unproven,
  ]
  return {
    ...head,
    verdict: 'cannot-tell',
    because: `${stood ? `${stood}; ` : ''}${why.join('; ') || 'the reading lies within its error of the limit'} (${options})`,
    settle:
      missing.length > 0
        ? `measure ${missing.map((m) => words[m]).join(' and ')}`
        : unproven.length > 0
          ? 'a reading with a checked meter'
          : 'a finer reading, or more samples',
  }
}

/** A finding for each published class, growth limit and named product that the question touches. */
export function judgeStability(q: StabilityQuestion): Finding[] {
  return stabilityRules
    .filter(
      ({ rule, onlyFor, named }) =>
        (rule.jurisdiction === EVERYWHERE ||
          q.jurisdictions === undefined ||
          q.jurisdictions.includes(rule.jurisdiction)) &&
        (onlyFor === undefined || q.storage === undefined || q.storage === onlyFor) &&
        (named === undefined || named === q.named),
    )
    .map((entry) => judgeRule(entry, q))
}

/** Classes from the most to the least stable; storage temperatures are from memory of the same source and said as such. */
export const stabilityClasses: StabilityClasses = {
  classes: [
    { class: 'shelf-stable', rule: SHELF_STABLE, storage: 'without refrigeration, by the published combination' },
    {
      class: 'perishable',
      rule: PERISHABLE,
      storage: 'at or below 10 °C (figure from memory; keep to the law of the place)',
    },
  ],
  otherwise: 'at or below 5 °C (figure from memory; keep to the law of the place)',
}
