import { euGbAdditiveRules } from '../../data/additive/eu-gb.ts'
import { usAdditiveRules } from '../../data/additive/us.ts'
import { elsewhereCompositionRules, elsewhereStandards } from '../../data/composition/elsewhere.ts'
import { usCompositionRules, usStandards } from '../../data/composition/us.ts'
import { caCodexAnzCureRules } from '../../data/cure/ca-codex-anz.ts'
import { traditionalCureRules, traditionalStandards } from '../../data/cure/eu-gb-traditional.ts'
import { euGbCureRules } from '../../data/cure/eu-gb.ts'
import { usHomeCureRules } from '../../data/cure/us-home.ts'
import { usCureRules } from '../../data/cure/us.ts'
import { driedStandards } from '../../data/dry/stability.ts'
import { recipeProcessRules } from '../../data/process/recipe.ts'
import type { Rule } from '../rule.ts'

/** Rules a recipe can be held against before a batch of it is made. */
export const recipeRules: readonly Rule[] = [
  ...usCureRules,
  ...usHomeCureRules,
  ...euGbCureRules,
  ...traditionalCureRules,
  ...caCodexAnzCureRules,
  ...usCompositionRules,
  ...elsewhereCompositionRules,
  ...usAdditiveRules,
  ...euGbAdditiveRules,
  ...recipeProcessRules,
]

/** Standards and reserved names a recipe may be sold under, id to name. */
export const standards: Readonly<Record<string, string>> = {
  ...usStandards,
  ...elsewhereStandards,
  ...traditionalStandards,
  ...driedStandards,
}
