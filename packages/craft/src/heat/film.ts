import type { Source } from '../source.ts'

export const filmSources: readonly Source[] = [
  {
    document: 'Churchill & Bernstein 1977, J. Heat Transfer 99:300–306 (cylinder in cross-flow)',
    section: 'equation as reproduced in Incropera & DeWitt, external flow',
    edition: '1977',
    mark: 'quoted',
  },
  {
    document: 'Churchill & Chu 1975, Int. J. Heat Mass Transfer 18:1049–1053 (natural convection, horizontal cylinder)',
    section: 'equation as reproduced in public documentation of open-source heat-transfer codes',
    edition: '1975',
    mark: 'quoted',
  },
]

/**
 * Black-body constant times the emissivity of wet meat or casing, W/(m²·K⁴). Emissivity 0.9: from memory, handbooks give 0.9 to 0.96 for wet
 * organic surfaces; walls are taken to be as warm as the air.
 */
const RADIATION = 0.9 * 5.670374e-8

/** Properties of the fluid about a body, SI units; `expansion` in 1/K. */
type Fluid = { conductivity: number; viscosity: number; prandtl: number; expansion: number }

const KELVIN = 273.15

/**
 * Dry air at sea level: kinematic viscosity and conductivity by Sutherland's laws, Prandtl number 0.71 at all temperatures here.
 * Within 1 % of handbook tables from −30 to 150 °C.
 */
function airAt(tempC: number, pressurePa: number): Fluid {
  const t = tempC + KELVIN
  const dynamic = (1.458e-6 * t ** 1.5) / (t + 110.4)
  const density = pressurePa / (287.05 * t)
  return {
    conductivity: (2.6482e-3 * Math.sqrt(t)) / (1 + (245.4 / t) * 10 ** (-12 / t)),
    viscosity: dynamic / density,
    prandtl: 0.71,
    expansion: 1 / t,
  }
}

/** Liquid water 0 to 100 °C: viscosity by Vogel's law, conductivity as in the food tables, expansion by a quadratic of density. */
function waterAt(tempC: number): Fluid {
  const t = Math.min(100, Math.max(0, tempC))
  const dynamic = 2.414e-5 * 10 ** (247.8 / (t + KELVIN - 140))
  const conductivity = 0.57109 + 1.7625e-3 * t - 6.7036e-6 * t * t
  const density = 1000 - 0.0178 * Math.abs(t - 4) ** 1.7
  const expansion = (0.0178 * 1.7 * Math.abs(t - 4) ** 0.7) / density
  return {
    conductivity,
    viscosity: dynamic / density,
    prandtl: (dynamic * 4182) / conductivity,
    expansion: Math.max(expansion, 2e-5),
  }
}

/** Nusselt number of a cylinder in cross-flow (Churchill & Bernstein), Re·Pr at least 0.2. */
export const crossFlowNusselt = (reynolds: number, prandtl: number): number =>
  0.3 +
  ((0.62 * Math.sqrt(reynolds) * Math.cbrt(prandtl)) / (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25) *
    (1 + (reynolds / 282_000) ** 0.625) ** 0.8

/** Nusselt number of a horizontal cylinder in still fluid (Churchill & Chu), Rayleigh number 1e-5 to 1e12. */
export const naturalNusselt = (rayleigh: number, prandtl: number): number =>
  (0.6 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2

export type FilmQuery = {
  readonly medium: 'air' | 'water'
  readonly mediumC: number
  readonly surfaceC: number
  readonly diameterM: number
  /** Speed of the fluid, m/s; 0 is still. */
  readonly speed: number
  readonly pressurePa: number
}

/** Nusselt's film of condensate keeps even pure steam below this in small houses; common practice, no source: more than 1000. */
export const STEAM_FILM_W_PER_M2K = 1500
/** Ice water with pieces of ice moving in it, W/(m²·K); common practice, no source. */
export const ICE_WATER_FILM_W_PER_M2K = 300

/**
 * Film coefficient of one cylinder, W/(m²·K): forced and natural convection added as cubes, fluid properties at the mean of
 * medium and surface. Natural convection takes half the first difference of temperature, which stands for the whole stage.
 */
export function filmCoefficient({ medium, mediumC, surfaceC, diameterM, speed, pressurePa }: FilmQuery): number {
  const mean = (mediumC + surfaceC) / 2
  const fluid = medium === 'air' ? airAt(mean, pressurePa) : waterAt(mean)
  const difference = Math.max(1, Math.abs(mediumC - surfaceC) / 2)
  const rayleigh = (9.81 * fluid.expansion * difference * diameterM ** 3 * fluid.prandtl) / fluid.viscosity ** 2
  const forced = speed > 0 ? crossFlowNusselt((speed * diameterM) / fluid.viscosity, fluid.prandtl) : 0
  const natural = naturalNusselt(rayleigh, fluid.prandtl)
  return (Math.cbrt(forced ** 3 + natural ** 3) * fluid.conductivity) / diameterM
}

/** Film of radiation between surface and walls, W/(m²·K): as large as convection in still air. */
export const radiationFilm = (mediumC: number, surfaceC: number): number =>
  4 * RADIATION * ((mediumC + surfaceC) / 2 + KELVIN) ** 3
