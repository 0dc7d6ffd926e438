/**
 * Molar masses of what curing agents are made of, g/mol, from the conventional atomic weights
 * Na 22.990, K 39.098, N 14.007, O 15.999, C 12.011, H 1.008 (IUPAC abridged standard atomic weights).
 */
const atom = { H: 1.008, C: 12.011, N: 14.007, O: 15.999, Na: 22.99, K: 39.098 } as const

type Formula = Partial<Record<keyof typeof atom, number>>

/** Molar mass of a formula, g/mol. */
export const molarMassOf = (formula: Formula): number =>
  Object.entries(formula).reduce((sum, [element, count]) => sum + atom[element as keyof typeof atom] * count, 0)

const nitriteIon: Formula = { N: 1, O: 2 }
const nitrateIon: Formula = { N: 1, O: 3 }
const ascorbate: Formula = { C: 6, H: 7, O: 6 }

export const molarMass = {
  nitriteIon: molarMassOf(nitriteIon),
  nitrateIon: molarMassOf(nitrateIon),
  sodiumNitrite: molarMassOf({ ...nitriteIon, Na: 1 }),
  potassiumNitrite: molarMassOf({ ...nitriteIon, K: 1 }),
  sodiumNitrate: molarMassOf({ ...nitrateIon, Na: 1 }),
  potassiumNitrate: molarMassOf({ ...nitrateIon, K: 1 }),
  /** Anhydrous. The hydrate in trade (one H2O) is entered as the share of anhydrous salt it holds. */
  sodiumErythorbate: molarMassOf({ ...ascorbate, Na: 1 }),
  erythorbicAcid: molarMassOf({ ...ascorbate, H: 8 }),
  sodiumAscorbate: molarMassOf({ ...ascorbate, Na: 1 }),
  ascorbicAcid: molarMassOf({ ...ascorbate, H: 8 }),
} as const
export type Substance = keyof typeof molarMass

/** Mass of `to` that holds as many moles as one unit of mass of `from`. */
export const moleForMole = (from: Substance, to: Substance): number => molarMass[to] / molarMass[from]

/** Sodium nitrite (mg/kg) as nitrite ion (mg/kg). */
export const asNitriteIon = (sodiumNitritePpm: number): number =>
  sodiumNitritePpm * moleForMole('sodiumNitrite', 'nitriteIon')

/** Sodium nitrate (mg/kg) as nitrate ion (mg/kg). */
export const asNitrateIon = (sodiumNitratePpm: number): number =>
  sodiumNitratePpm * moleForMole('sodiumNitrate', 'nitrateIon')
