export { applies, evaluate, inForce, judgeCase } from './evaluate.ts'
export type { Case, Dated, Measure, Rule, Topic } from './rule.ts'
