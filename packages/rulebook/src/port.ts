import type { RulePort } from '@forcemeat/craft/rules'
import { judgeCooling } from './cooling/judge.ts'
import { judgeLethality } from './lethality/judge.ts'

/** Which part of the rulebook answers which question of the core. */
const answers: { [T in Parameters<RulePort['judge']>[0]]: (question: never) => ReturnType<RulePort['judge']> } = {
  lethality: judgeLethality,
  cooling: judgeCooling,
}

export const port: RulePort = { judge: (topic, question) => answers[topic](question as never) }
