import type { RuleFigures, RulePort } from '@forcemeat/craft/rules'
import { dateFigures } from '../data/declare/dates.ts'
import { labelDrawnFigures } from '../data/declare/label-drawn.ts'
import { labelTypeFigures } from '../data/declare/label-type.ts'
import { labellingFigures } from '../data/declare/labelling.ts'
import { meatDefinition } from '../data/declare/meat-definition.ts'
import { nameClaimWords } from '../data/declare/name-claims.ts'
import { netWeightFigures } from '../data/declare/net-weight.ts'
import { nutritionFigures } from '../data/declare/nutrition.ts'
import { referenceAmounts } from '../data/declare/nutrition-us.ts'
import { curedPorkWords, qualifyingWords } from '../data/declare/qualifying-words.ts'
import { reservedNames } from '../data/declare/reserved-names.ts'
import { coolingNotApplicable } from './cooling/conditions.ts'
import { coolingMarks, judgeCooling } from './cooling/judge.ts'
import { judgeDates } from './declare/dates.ts'
import { judgeLabel } from './declare/label.ts'
import { judgeLabelDrawn } from './declare/label-drawn.ts'
import { judgeLabelType } from './declare/label-type.ts'
import { judgeName } from './declare/name.ts'
import { judgeNameClaims } from './declare/name-claims.ts'
import { judgeNetWeight } from './declare/net-weight.ts'
import { judgeNutrition } from './declare/nutrition.ts'
import { judgeQualifying } from './declare/qualifying.ts'
import { judgeLethality, lethalityMarks } from './lethality/judge.ts'
import { judgeStability, stabilityClasses } from './dry/judge.ts'
import { judgeFiveLog } from './ferment/five-log.ts'
import { judgeDegreeHours } from './ferment/judge.ts'
import { judgeMix } from './mix/judge.ts'
import { judgePork } from './pork/judge.ts'

/** Which part of the rulebook answers which question of the core. */
const answers: { [T in Parameters<RulePort['judge']>[0]]: (question: never) => ReturnType<RulePort['judge']> } = {
  lethality: judgeLethality,
  cooling: judgeCooling,
  pork: judgePork,
  mix: judgeMix,
  degreeHours: judgeDegreeHours,
  fiveLog: judgeFiveLog,
  stability: judgeStability,
  netWeight: judgeNetWeight,
  nutrition: judgeNutrition,
  label: judgeLabel,
  name: judgeName,
  dates: judgeDates,
  labelType: judgeLabelType,
  labelDrawn: judgeLabelDrawn,
  qualifying: judgeQualifying,
  nameClaims: judgeNameClaims,
}

/** Temperatures, °C, that the rules of a topic ask a log about. */
const marked: { readonly [T in Parameters<RulePort['judge']>[0]]?: readonly number[] } = {
  lethality: lethalityMarks,
  cooling: coolingMarks,
}

/** Figures the core works with. */
const given: RuleFigures = {
  meatDefinition,
  netWeight: netWeightFigures,
  nutrition: nutritionFigures,
  labelling: labellingFigures,
  reservedNames,
  referenceAmounts,
  dates: dateFigures,
  labelType: labelTypeFigures,
  labelDrawn: labelDrawnFigures,
  qualifyingWords,
  curedPorkWords,
  nameClaimWords,
  coolingNotApplicable,
  stabilityClasses,
}

export const port: RulePort = {
  judge: (topic, question) => answers[topic](question as never),
  marks: (topic) => marked[topic] ?? [],
  figures: (name) => given[name],
}
