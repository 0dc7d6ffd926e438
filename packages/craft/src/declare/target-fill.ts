import { normalQuantile } from '../numeric/normal.ts'
import type { NetWeightRules, TargetFill } from './net-weight-schema.ts'

/** Tolerable negative error of a nominal quantity, g; undefined where the table does not reach. */
export function tolerableError(nominalG: number, rules: NetWeightRules): number | undefined {
  if (nominalG < rules.fromG) return undefined
  const band = rules.tolerable.find((b) => nominalG <= b.upToG)
  return band && (band.g ?? (nominalG * (band.pct ?? 0)) / 100)
}

/** Share of a normal distribution below `z` standard deviations from its mean: the quantile turned round by halving. */
export function shareBelow(z: number): number {
  let [low, high] = [1e-16, 1 - 1e-16]
  for (let i = 0; i < 80; i += 1) {
    const mid = (low + high) / 2
    if (normalQuantile(mid) < z) low = mid
    else high = mid
  }
  return (low + high) / 2
}

/** Maximum allowable variation of a nominal quantity in the United States, g. */
export function allowableVariation(nominalG: number, rules: NetWeightRules): number | undefined {
  const band = rules.allowable.find((b) => nominalG <= b.upToG)
  return band && (band.g ?? (nominalG * (band.pct ?? 0)) / 100)
}

/** Least mean fill, g, that keeps the mean at the nominal quantity and as good as no pack short by more than the allowable variation. */
export function targetFillUs(nominalG: number, sdG: number, mavG: number, rules: NetWeightRules): TargetFill {
  const least = nominalG - mavG - normalQuantile(rules.t2SharePct / 100) * sdG
  const fillG = Math.max(nominalG, least)
  return {
    fillG,
    giveawayG: fillG - nominalG,
    giveawayPct: (100 * (fillG - nominalG)) / nominalG,
    boundBy: least > nominalG ? 'MAV' : 'average',
  }
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
