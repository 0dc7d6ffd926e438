export { applies, evaluate, heading, inForce, judgeCase } from './evaluate.ts'
export { EVERYWHERE, topics } from './rule.ts'
export type { Case, Dated, Measure, Rule, Topic } from './rule.ts'
