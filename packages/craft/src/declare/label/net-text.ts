/** Grams in an avoirdupois ounce, exact by definition (international yard and pound, 1959). */
const G_PER_OZ = 28.349523125
const OZ_PER_LB = 16

/** Never more than is in the pack: figures are cut, not rounded. */
const cut = (x: number, decimals: number): string => {
  const f = 10 ** decimals
  return String(Math.floor(x * f + 1e-9) / f)
}

/** Net weight as the place prints it: grams or kilograms; in the US ounces, with pounds from one pound up, and metric beside. */
export function netText(place: string, netG: number): string {
  const metric = netG >= 1000 ? `${cut(netG / 1000, 3)} kg` : `${cut(netG, 1)} g`
  if (place !== 'US') return metric
  const oz = netG / G_PER_OZ
  const pounds = Math.floor(oz / OZ_PER_LB)
  const both = pounds === 0 ? '' : ` (${pounds} lb ${cut(oz - pounds * OZ_PER_LB, 1)} oz)`
  return `Net Wt ${cut(oz, 1)} oz${both} (${metric})`
}
