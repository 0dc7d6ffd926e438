// The cook simulated, fitted and planned.
import { cook } from '@forcemeat/craft/heat/cook'
import { fit } from '@forcemeat/craft/heat/fit'
import { schedule } from '@forcemeat/craft/heat/schedule'
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
  const log = cook(input)
    .series.filter((p) => Number.isInteger(p.minute) && p.minute <= 360)
    .map((p) => ({ minute: p.minute, coreC: Math.round(10 * p.coreC) / 10 }))
  report({
    measure: 'fit to 6 hours of readings a minute apart',
    unit: 'ms',
    limit: 300,
    ...timed(() => fit({ ...input, log }), { runs: 15 }),
  })
  const { stages: _, ...piece } = input
  const plan = {
    ...piece,
    medium: 'air' as const,
    rhPct: 60,
    airSpeedMPerS: 2,
    houseMaxC: 90,
    surfaceMaxC: 75,
    target: { coreC: 66 },
  }
  report({
    measure: 'schedule of shortest time under a surface limit',
    unit: 'ms',
    limit: 2000,
    ...timed(() => schedule(plan), { runs: 10 }),
  })
}
