// The course of drying, as planned and as fitted to weighings.
import { course } from '@forcemeat/craft/dry/course'
import { report, timed } from './measure.ts'

export function run(): void {
  const input = {
    diameterMm: 60,
    composition: { waterPct: 57, proteinPct: 16, fatPct: 23, carbohydratePct: 0.6, ashPct: 3.4, saltPct: 2.8 },
    stages: [
      { days: 2, tempC: 22, rhPct: 92 },
      { days: 5, tempC: 16, rhPct: 86 },
      { days: 53, tempC: 14, rhPct: 78 },
    ],
    target: { weightLossPct: 33 },
  }
  report({
    measure: 'course of 60 days with its band and crust risk',
    unit: 'ms',
    limit: 20,
    ...timed(() => course(input), { runs: 40 }),
  })
  const weighings = course(input)
    .series.filter((p) => p.day > 0 && p.day <= 30 && p.day % 3 === 0)
    .map((p) => ({ day: p.day, weightLossPct: Math.round(9 * p.weightLossPct) / 10 }))
  report({
    measure: `course fitted to ${weighings.length} weighings, with its band`,
    unit: 'ms',
    limit: 500,
    ...timed(() => course({ ...input, weighings }), { runs: 15 }),
  })
}
