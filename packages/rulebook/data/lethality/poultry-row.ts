/** One row of a poultry table: °F as printed and the seconds to hold in the columns for fat of 1, 2 … 12 %. */
export type PoultryRow = { readonly f: number; readonly seconds: readonly number[] }
