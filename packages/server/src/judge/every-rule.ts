import type { Rule } from '@forcemeat/rulebook'
import { coolingRules } from '@forcemeat/rulebook/cooling/rules'
import { lethalityRules } from '@forcemeat/rulebook/lethality/rules'

/** Every rule of the rulebook, in the order of the work. */
export const everyRule: readonly Rule[] = [...lethalityRules, ...coolingRules]
