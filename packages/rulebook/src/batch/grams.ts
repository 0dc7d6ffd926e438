/** Grams in each unit a scale may show: international avoirdupois pound of 1959, exact. */
const gramsIn: Readonly<Record<string, number>> = { g: 1, kg: 1000, oz: 453.59237 / 16, lb: 453.59237 }

/** Units a marked piece may be weighed in. */
export const massUnits: readonly string[] = Object.keys(gramsIn)

/** A weight in grams; nothing where its unit is not stated or not one of mass. */
export const gramsOf = (value: number, unit: string | undefined): number | undefined => {
  const each = unit === undefined ? undefined : gramsIn[unit.trim().toLowerCase()]
  return each === undefined ? undefined : value * each
}
