import type { Source } from '../source.ts'

export const diffusivitySources: readonly Source[] = [
  {
    document: 'Kinetics of pepperoni drying, J. Food Sci. 42 (1977) 1029–1033',
    section: 'abstract: apparent moisture diffusivity at 13.3, 17.4 and 25.1 % starting fat',
    edition: '1977',
    url: 'https://doi.org/10.1111/j.1365-2621.1977.tb12660.x',
    mark: 'quoted',
  },
  {
    document:
      'Simulation of simultaneous water and salt diffusion in dry fermented sausages, J. Food Eng. 97 (2010) 311–318',
    section: 'abstract: the diffusivity depends strongly on the water content',
    edition: '2010',
    mark: 'quoted',
  },
  {
    document: 'Rise of moisture diffusivity of meat with temperature',
    section: 'activation energy of 30 kJ/mol, in the middle of published values',
    edition: 'none',
    mark: 'from-memory',
  },
]

/** ln D = ln D0 − k·fat through the three apparent values of 5.7, 5.6 and 4.7e-11 m²/s, by least squares. */
const AT_NO_FAT = 7.31e-11
const FALL_PER_FAT_PCT = 0.0172

/** Temperature the apparent values stand at, °C: the usual drying room for the product; from memory, not in the abstract. */
const REFERENCE_C = 13
const ACTIVATION_J_PER_MOL = 30_000
const GAS_J_PER_MOL_K = 8.314

/**
 * The published values are apparent overall ones: of a cylinder that keeps its size and diffusivity, with film and casing laid into them. The
 * local value falls in proportion to the water left; started at this many times the apparent one, a shrinking piece of 55 mm behind its film
 * and casing takes within 15 % of the time of the apparent one to 70 and 85 % of its loss (computed), and longer at first, when the film rules.
 */
export const LOCAL_TO_APPARENT = 2

/** Spread of a product's diffusivity about these, as a logarithm: papers on fermented sausage span 0.5 to 5e-11 m²/s. An assumption. */
export const DIFFUSIVITY_SD = 0.4

/** Apparent diffusivity of moisture in sausage by its starting fat, m²/s at the reference temperature. Studied from 13 to 25 % fat. */
export const apparentDiffusivity = (fatPct: number): number => AT_NO_FAT * Math.exp(-FALL_PER_FAT_PCT * fatPct)

/** Rise with temperature over the reference, Arrhenius. */
export const temperatureFactor = (tempC: number): number =>
  Math.exp((ACTIVATION_J_PER_MOL / GAS_J_PER_MOL_K) * (1 / (REFERENCE_C + 273.15) - 1 / (tempC + 273.15)))

/**
 * Local diffusivity, m²/s.
 * @param waterShare water per kg of solids over that of the start
 */
export const localDiffusivity = (atStart: number, waterShare: number): number =>
  atStart * Math.max(0.02, Math.min(1.5, waterShare))

/** Diffusivity at the starting water, m²/s. */
export const startingDiffusivity = (fatPct: number, tempC: number): number =>
  LOCAL_TO_APPARENT * apparentDiffusivity(fatPct) * temperatureFactor(tempC)
