// The cook simulated.
import { cook } from '@forcemeat/craft/heat/cook'
import { report, timed } from './measure.ts'

export function run(): void {
  const input = {
    diameterMm: 70,
    composition: { waterPct: 58, proteinPct: 14, fatPct: 24, ashPct: 3 },
    startC: 8,
    stages: [
      { medium: 'air' as const, tempC: 50, rhPct: 35, minutes: 60 },
      { medium: 'air' as const, tempC: 60, rhPct: 40, minutes: 90 },
      { medium: 'air' as const, tempC: 70, rhPct: 50, minutes: 90 },
      { medium: 'steam' as const, tempC: 78, minutes: 60 },
      { medium: 'air' as const, tempC: 20, rhPct: 60, minutes: 30 },
      { medium: 'ice-water' as const, tempC: 1, minutes: 150 },
    ],
  }
  report({ measure: 'cook of 8 hours in 6 stages', unit: 'ms', limit: 10, ...timed(() => cook(input), { runs: 40 }) })
}
