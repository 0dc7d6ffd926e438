export { InvalidInput, defineCalculation, type Calculation, type Fault } from './calculation.ts'
export { overall, type Finding, type Verdict, type WorkingStep } from './finding.ts'
export { calculations, findCalculation } from './calculations.ts'
