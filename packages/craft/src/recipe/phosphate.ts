import type { MeasureOut } from './compute-schema.ts'
import type { Part } from './lines.ts'

/** Molar masses from IUPAC abridged atomic weights (P 30.974, O 15.999, Na 22.990, H 1.008), g/mol. */
const P = 30.974
const O = 15.999
const NA = 22.99
const H = 1.008
const P2O5 = 2 * P + 5 * O
const DISODIUM = 2 * NA + H + P + 4 * O

/** P2O5 a kg of the anhydrous salt stands for, kg. Computed from its formula. */
const p2o5Of: Readonly<Record<string, number>> = {
  tripolyphosphate: (1.5 * P2O5) / (5 * NA + 3 * P + 10 * O),
  'tetrasodium-diphosphate': P2O5 / (4 * NA + 2 * P + 7 * O),
  'acid-diphosphate': P2O5 / (2 * NA + 2 * H + 2 * P + 7 * O),
  // A long chain: one NaPO3 a link, its ends left out.
  polyphosphate: (0.5 * P2O5) / (NA + P + 3 * O),
}

/** Added phosphate of the finished product: as weighed, as disodium phosphate, and as P2O5, the three ways limits are written. */
export function phosphateMeasures(parts: readonly Part[], finishedKg: number): Record<string, MeasureOut> {
  const added = parts.filter((p) => p.kg > 0 && p.material.category === 'phosphate')
  const kg = added.reduce((s, p) => s + p.kg, 0)
  const asWeighed = { phosphatePct: { value: (100 * kg) / finishedKg } }
  const unknown = added.filter((p) => p2o5Of[p.material.id] === undefined)
  if (unknown.length > 0) {
    const missing: MeasureOut = {
      missing: `the phosphorus of ${unknown.map((p) => p.material.name).join(', ')} is not known`,
      settle: 'its P2O5, from the specification',
    }
    return { ...asWeighed, phosphateP2O5Ppm: missing, phosphateAsDisodiumPct: missing }
  }
  const p2o5Kg = added.reduce((s, p) => s + p.kg * p2o5Of[p.material.id]!, 0)
  return {
    ...asWeighed,
    phosphateP2O5Ppm: { value: (1e6 * p2o5Kg) / finishedKg },
    phosphateAsDisodiumPct: { value: (100 * p2o5Kg * ((2 * DISODIUM) / P2O5)) / finishedKg },
  }
}
