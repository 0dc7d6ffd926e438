import { dateRuleList } from '../data/declare/dates.ts'
import { keptRuleList } from '../data/declare/kept.ts'
import { labelDrawnRuleList } from '../data/declare/label-drawn.ts'
import { labelTypeRuleList } from '../data/declare/label-type.ts'
import { labelRuleList } from '../data/declare/label-rules.ts'
import { meatDefinitionRules } from '../data/declare/meat-definition.ts'
import { nameClaimRuleList } from '../data/declare/name-claims.ts'
import { netWeightRuleList } from '../data/declare/net-weight.ts'
import { nutritionRuleList } from '../data/declare/nutrition.ts'
import { qualifyingRuleList } from '../data/declare/qualifying-words.ts'
import { stabilityRules } from '../data/dry/stability.ts'
import { degreeHourSystems } from '../data/ferment/degree-hours.ts'
import { validatedProcesses } from '../data/ferment/five-log.ts'
import { planRules } from '../data/ferment/plan.ts'
import { reductionRules } from '../data/ferment/reduction.ts'
import { finalTemperatureRules } from '../data/mix/final-temperature.ts'
import { freezingDoesNotHelp, freezingSchedules } from '../data/pork/freezing.ts'
import { arrivalRules, ownLimitRules, reworkRules } from '../data/process/arrival.ts'
import { practiceRules } from '../data/process/practice.ts'
import { batchRules } from './batch/own-rules.ts'
import { coolingRules } from './cooling/rules.ts'
import { correctiveRules } from './corrective/choices.ts'
import { lethalityRules } from './lethality/rules.ts'
import { recipeRules } from './recipe/rules.ts'
import type { Rule, Topic } from './rule.ts'

/** Every list of rules the rulebook holds: a new list is added here once and shows everywhere. */
const lists: readonly (readonly Rule[])[] = [
  recipeRules,
  lethalityRules,
  coolingRules,
  correctiveRules,
  degreeHourSystems.map((s) => s.rule),
  validatedProcesses.map((p) => p.rule),
  Object.values(reductionRules),
  planRules,
  stabilityRules.map((s) => s.rule),
  [...freezingSchedules.map((s) => s.rule), freezingDoesNotHelp],
  meatDefinitionRules,
  netWeightRuleList,
  nutritionRuleList,
  qualifyingRuleList,
  nameClaimRuleList,
  labelRuleList,
  labelTypeRuleList,
  labelDrawnRuleList,
  dateRuleList,
  keptRuleList,
  Object.values(batchRules),
  practiceRules,
  arrivalRules,
  reworkRules,
  Object.values(ownLimitRules),
  finalTemperatureRules,
]

const all = lists.flat()
const byId = new Map(all.map((r) => [r.id, r]))

/** Every rule of the rulebook, tables included, in the order of the lists. */
export const allRules = (): readonly Rule[] => all

/** A rule by its id, or undefined. */
export const findRule = (id: string): Rule | undefined => byId.get(id)

const textOf = (rule: Rule): string =>
  [
    rule.id,
    rule.title,
    rule.jurisdiction,
    rule.topic,
    rule.scope,
    rule.basis,
    rule.note,
    ...rule.values.flatMap((v) => [v.source.document, v.source.section, v.source.edition, v.min, v.max]),
  ]
    .filter((part) => part !== undefined)
    .join(' ')
    .toLowerCase()

export type RuleFilter = { readonly jurisdiction?: string | undefined; readonly topic?: Topic | undefined }

/** Rules that hold every word of `q` somewhere in their text or source, within a place and a topic where given. An empty `q` finds all. */
export function searchRules(q: string, { jurisdiction, topic }: RuleFilter = {}): Rule[] {
  const words = q.toLowerCase().split(/\s+/).filter(Boolean)
  return all.filter(
    (rule) =>
      (jurisdiction === undefined || rule.jurisdiction === jurisdiction) &&
      (topic === undefined || rule.topic === topic) &&
      words.every((word) => textOf(rule).includes(word)),
  )
}
