import { saturationPressurePa } from '../heat/psychrometrics.ts'
import type { CourseOutput } from './course-schema.ts'
import type { Product } from './product.ts'
import type { Run, Snapshot } from './run.ts'

/**
 * How far the rim's water activity may lie under the product's. Common practice, no source: air 3 to 5 points under the product's own; past
 * twice that the rim is called at high risk (an assumption).
 */
const WATCH = 0.05
const HIGH = 0.1

/**
 * Days on which the rim dries faster than the core can feed it, and the driest air that would be safe. A core feeds its rim as a parabola of
 * water does: 4 · D(rim) · (mean − rim) / R for each kilogram of solids about it.
 */
export function crustRisk(product: Product, { at, isotherm }: Run): CourseOutput['crustRisk'] {
  return at.flatMap((s) => {
    const aw = isotherm.aw(s.meanWater)
    const rimAw = isotherm.aw(s.rimWater)
    const gap = aw - rimAw
    if (s.day === 0 || gap <= WATCH) return []
    const safeRhPct = safeHumidity(product, s, aw - WATCH, isotherm.water(aw - WATCH))
    return [
      {
        day: s.day,
        rhPct: s.air.rhPct,
        aw,
        rimAw,
        level: gap > HIGH ? ('high' as const) : ('watch' as const),
        safeRhPct,
        because: `the rim stands at ${rimAw.toFixed(3)}, ${(100 * gap).toFixed(1)} points under the whole; air of ${safeRhPct.toFixed(0)} % would take no more than the core can feed`,
      },
    ]
  })
}

function safeHumidity(product: Product, s: Snapshot, rimAw: number, rimWater: number): number {
  const solids = 1 / (1 / product.solidKgPerM3 + s.meanWater / product.waterKgPerM3)
  // Through the rim's own, drier layer: the air has to stay safe for the days to come, while the core falls behind.
  const through = (s.diffusivity * rimWater) / s.meanWater
  const fed = (4 * through * solids * Math.max(0, s.meanWater - rimWater)) / s.radiusM
  const safe = 100 * (rimAw - (fed * s.resistance) / saturationPressurePa(s.air.tempC))
  return Math.max(s.air.rhPct, Math.min(100, safe))
}
