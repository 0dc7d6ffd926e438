import type { Calculation } from './calculation.ts'

/**
 * The registry: every computation the program can do. Each engine lists its own entries in its `calculations.ts`; an engine is
 * added here, a calculation in its engine's list, and every door follows.
 */
const engines: readonly (readonly Calculation<never, unknown>[])[] = []

const all = engines.flat() as unknown as readonly Calculation[]

/** Entries by name. */
export const calculations: Readonly<Record<string, Calculation>> = Object.fromEntries(all.map((c) => [c.name, c]))

/** An entry by name, or undefined; never a property of Object. */
export const findCalculation = (name: string): Calculation | undefined =>
  Object.hasOwn(calculations, name) ? calculations[name] : undefined
