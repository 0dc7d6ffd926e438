import type { WorkingStep } from '../finding.ts'

/** One step of a working. */
export const step = (step: string, expression: string, value: number, unit: string): WorkingStep => ({
  step,
  expression,
  value,
  unit,
})
