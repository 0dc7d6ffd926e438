/** Exact Celsius of a temperature stated in °F; one expression for all, so that equal inputs give equal bits. */
export const celsiusOfF = (f: number): number => ((f - 32) * 5) / 9

/** °F of a Celsius temperature. */
export const fahrenheitOfC = (c: number): number => (c * 9) / 5 + 32

/** Each temperature with the two it may truly be, for a thermometer right within `toleranceC`. */
export const withTolerance = (marksC: readonly number[], toleranceC: number): number[] =>
  marksC.flatMap((c) => [c, c + toleranceC, c - toleranceC])
