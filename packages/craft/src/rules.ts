import type { Finding } from './finding.ts'
import { port } from '#rules'

/**
 * What the core asks of the rulebook: findings for what it has measured. Each engine adds its own question here; the rulebook
 * answers it in `port.ts`. The core names no rule and holds no limit. Which rulebook stands behind `#rules` is said by the
 * package manifest, so no file of the core imports anything above it.
 */
export type RuleQuestions = {
  lethality: import('./heat/lethality.ts').LethalityQuestion
  cooling: import('./heat/chill.ts').CoolingQuestion
  mix: import('./mix/ice.ts').MixQuestion
  pork: import('./pork/freezing.ts').PorkQuestion
  degreeHours: import('./ferment/degree-hours.ts').DegreeHoursQuestion
  fiveLog: import('./ferment/five-log.ts').FiveLogQuestion
  stability: import('./dry/stability.ts').StabilityQuestion
  netWeight: import('./declare/net-weight-schema.ts').NetWeightQuestion
  nutrition: import('./declare/nutrition-rules.ts').NutritionQuestion
  label: import('./declare/label-rules.ts').LabelQuestion
  name: import('./declare/product-name.ts').NameQuestion
  dates: import('./declare/dates.ts').DatesQuestion
  labelType: import('./declare/label/type-size.ts').LabelTypeQuestion
  labelDrawn: import('./declare/label/drawn.ts').LabelDrawnQuestion
  qualifying: import('./declare/qualifying.ts').QualifyingQuestion
  nameClaims: import('./declare/name-claim-facts.ts').NameClaimsQuestion
}

/** Figures of the rulebook that a calculation of the core works with. */
export type RuleFigures = {
  meatDefinition: import('./declare/meat-content.ts').MeatDefinition
  coolingNotApplicable: (
    product: import('./heat/chill.ts').CoolingProduct,
  ) => readonly import('./heat/chill.ts').NotApplicable[]
  stabilityClasses: import('./dry/stability.ts').StabilityClasses
  netWeight: import('./declare/net-weight-schema.ts').NetWeightRules
  nutrition: import('./declare/nutrition-rules.ts').NutritionRules
  referenceAmounts: import('./declare/nutrition-rules.ts').ReferenceAmounts
  labelling: import('./declare/label-rules.ts').LabellingRules
  reservedNames: readonly import('./declare/product-name.ts').ReservedName[]
  dates: import('./declare/dates.ts').DateRules
  labelType: import('./declare/label/type-size.ts').LabelTypeRules
  labelDrawn: import('./declare/label/drawn.ts').LabelDrawnRules
  qualifyingWords: readonly import('./declare/qualifying.ts').QualifyingWord[]
  curedPorkWords: import('./declare/qualifying.ts').CuredPorkWords
  nameClaimWords: import('./declare/name-claim-words.ts').NameClaimWords
}

export type RulePort = {
  readonly judge: <T extends keyof RuleQuestions>(topic: T, question: RuleQuestions[T]) => Finding[]
  /** Temperatures (°C) the rules of a topic ask a log about, so that one walk over the log can watch them all. */
  readonly marks: (topic: keyof RuleQuestions) => readonly number[]
  readonly figures: <N extends keyof RuleFigures>(name: N) => RuleFigures[N]
}

/** Findings of every rule in force that has something to say on this question. */
export const judge: RulePort['judge'] = (topic, question) => (port satisfies RulePort).judge(topic, question)

/** Temperatures (°C) the rules of a topic ask a log about. */
export const marks: RulePort['marks'] = (topic) => (port satisfies RulePort).marks(topic)

/** Figures of the rulebook by name. */
export const figures: RulePort['figures'] = (name) => (port satisfies RulePort).figures(name)
