/** Grams in an avoirdupois ounce, exact by definition (international yard and pound, 1959). */
const G_PER_OZ = 28.349523125
const OZ_PER_LB = 16

/** Never more than is in the pack: figures are cut, not rounded. */
const cut = (x: number, decimals: number): string => {
  const f = 10 ** decimals
  return String(Math.floor(x * f + 1e-9) / f)
}

/** Pounds from which ounces are no longer asked for. */
const POUNDS_ALONE_FROM = 4

/** Pounds with what is left over in ounces: "1 lb 8 oz", "5 lb". */
function poundsText(oz: number): string {
  const pounds = Math.floor(oz / OZ_PER_LB + 1e-9)
  const left = cut(Math.max(0, oz - pounds * OZ_PER_LB), 1)
  return left === '0' ? `${pounds} lb` : `${pounds} lb ${left} oz`
}

/**
 * Net weight as the place prints it: grams or kilograms; in the United States ounces under one pound, ounces and then pounds from one pound
 * to under four, pounds from four up, with the metric figure behind.
 *
 * @source 9 CFR 317.2(h)(5), dual statement from one to four pounds, as described in a report on the proposed rule 84 FR 15989 (2019); the
 *   form above four pounds from memory
 */
export function netText(place: string, netG: number): string {
  const metric = netG >= 1000 ? `${cut(netG / 1000, 3)} kg` : `${cut(netG, 1)} g`
  if (place !== 'US') return metric
  const oz = netG / G_PER_OZ
  const pounds = oz / OZ_PER_LB + 1e-9
  if (pounds < 1) return `Net Wt ${cut(oz, 1)} oz (${metric})`
  if (pounds < POUNDS_ALONE_FROM) return `Net Wt ${cut(oz, 1)} oz (${poundsText(oz)}) (${metric})`
  return `Net Wt ${poundsText(oz)} (${metric})`
}
