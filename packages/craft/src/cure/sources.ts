import type { Source } from '../source.ts'

export const handbook: Source = {
  document: "FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook",
  section: 'chapter 3 (curing agents; comminuted p. 15, pumped p. 19, immersion, dry cured p. 24)',
  edition: 'rev. 1995',
  url: 'https://www.fsis.usda.gov/policy/fsis-directives/7620.3',
  mark: 'quoted',
}

export const atomicWeights: Source = {
  document: 'Abridged standard atomic weights',
  section: 'Na 22.990, K 39.098, N 14.007, O 15.999, C 12.011, H 1.008',
  edition: 'IUPAC',
  mark: 'computed',
}

/** The interval's arithmetic is derived in `scale-error.ts`: the sum of two independent rectangular errors is a trapezoid. */
export const convolution: Source = {
  document: 'Sum of independent rectangular distributions (own derivation)',
  section: 'quantiles of the trapezoid of half-widths readability / 2 and tolerance',
  edition: 'checked against simulation in the tests',
  mark: 'computed',
}
