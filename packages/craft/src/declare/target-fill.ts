import { normalQuantile } from '../numeric/normal.ts'
import type { NetWeightRules, TargetFill } from './net-weight-schema.ts'

/** Tolerable negative error of a nominal quantity, g; undefined where the table does not reach. */
export function tolerableError(nominalG: number, rules: NetWeightRules): number | undefined {
  if (nominalG < rules.fromG) return undefined
  const band = rules.tolerable.find((b) => nominalG <= b.upToG)
  return band && (band.g ?? (nominalG * (band.pct ?? 0)) / 100)
}

/**
 * Least mean fill, g, at which packs that spread normally with `sdG` keep the three packers' rules: the mean at the nominal quantity, no
 * more than the allowed share under T1, and as good as none under T2.
 */
export function targetFill(nominalG: number, sdG: number, tneG: number, rules: NetWeightRules): TargetFill {
  const aims = [
    { boundBy: 'average' as const, fillG: nominalG },
    { boundBy: 'T1' as const, fillG: nominalG - tneG - normalQuantile(rules.t1SharePct / 100) * sdG },
    { boundBy: 'T2' as const, fillG: nominalG - 2 * tneG - normalQuantile(rules.t2SharePct / 100) * sdG },
  ]
  const highest = aims.reduce((a, b) => (b.fillG > a.fillG ? b : a))
  const giveawayG = highest.fillG - nominalG
  return { ...highest, giveawayG, giveawayPct: (100 * giveawayG) / nominalG }
}

/** Largest standard deviation at which the nominal quantity itself is target enough, g. */
export const sdForNominal = (tneG: number, rules: NetWeightRules): number =>
  Math.min(-tneG / normalQuantile(rules.t1SharePct / 100), (-2 * tneG) / normalQuantile(rules.t2SharePct / 100))
