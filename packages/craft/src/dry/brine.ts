/** Molar masses, g/mol (CODATA/IUPAC atomic masses). */
export const WATER_G_PER_MOL = 18.015
export const NACL_G_PER_MOL = 58.44

/** NaCl in water at 25 °C is saturated at this molality, mol/kg (Robinson & Stokes 1965). */
export const NACL_SATURATED_MOL_PER_KG = 6.144

/** Debye–Hückel slope for the osmotic coefficient in water at 25 °C, and the NaCl parameters fitted to 6 mol/kg. */
const A_PHI = 0.3915
const B_0 = 0.0765
const B_1 = 0.2664
const C_PHI = 0.00127

/**
 * Osmotic coefficient of NaCl in water at 25 °C.
 *
 * @param molality mol NaCl per kg water, 0 to 6.144
 * @source Pitzer & Mayorga, J. Phys. Chem. 77 (1973) 2300, Table I: NaCl to 6 mol/kg, standard deviation 0.001
 */
export function osmoticCoefficient(molality: number): number {
  const root = Math.sqrt(molality)
  return (
    1 - (A_PHI * root) / (1 + 1.2 * root) + molality * (B_0 + B_1 * Math.exp(-2 * root)) + molality * molality * C_PHI
  )
}

/** Water activity of an NaCl brine at 25 °C: ln aw = −2 · M(water) · m · φ. Held at saturation above it. */
export function saltWaterActivity(molality: number): number {
  const m = Math.min(molality, NACL_SATURATED_MOL_PER_KG)
  return Math.exp((-2 * WATER_G_PER_MOL * m * osmoticCoefficient(m)) / 1000)
}
