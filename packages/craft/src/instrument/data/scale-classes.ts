import type { Source } from '../../source.ts'

export const scaleClasses = ['I', 'II', 'III', 'IIII'] as const
export type ScaleClass = (typeof scaleClasses)[number]

/** A step of a tolerance table: loads up to and including `upTo` scale intervals may be off by `errors` intervals. */
export type ToleranceStep = { readonly upTo: number; readonly errors: number }

export const oimlR76: Source = {
  document: 'OIML R 76-1, Non-automatic weighing instruments. Part 1: Metrological and technical requirements',
  section: 'Table 6, maximum permissible errors on initial verification; in service twice those (3.5.2)',
  edition: '2006 (E)',
  url: 'https://www.oiml.org/en/files/pdf_r/r076-1-e06.pdf',
  mark: 'quoted',
}

/** Table 6: limits of load in verification scale intervals e, with the error allowed in e. The last bound is the class's largest n. */
export const initialVerification: Readonly<Record<ScaleClass, readonly ToleranceStep[]>> = {
  I: [
    { upTo: 50_000, errors: 0.5 },
    { upTo: 200_000, errors: 1 },
    { upTo: Infinity, errors: 1.5 },
  ],
  II: [
    { upTo: 5_000, errors: 0.5 },
    { upTo: 20_000, errors: 1 },
    { upTo: 100_000, errors: 1.5 },
  ],
  III: [
    { upTo: 500, errors: 0.5 },
    { upTo: 2_000, errors: 1 },
    { upTo: 10_000, errors: 1.5 },
  ],
  IIII: [
    { upTo: 50, errors: 0.5 },
    { upTo: 200, errors: 1 },
    { upTo: 1_000, errors: 1.5 },
  ],
}

/** Errors in service over errors at first verification. */
export const IN_SERVICE = 2

/** The United States' own table; the document itself was not at hand, so it serves as a comparison only. */
export const handbook44: Source = {
  document: 'NIST Handbook 44, section 2.20 Scales',
  section: 'Table 6, maintenance tolerances in divisions, class III; acceptance tolerances are half',
  edition: '2007 and later',
  mark: 'from-memory',
}
export const maintenanceClassIII: readonly ToleranceStep[] = [
  { upTo: 500, errors: 1 },
  { upTo: 2_000, errors: 2 },
  { upTo: 4_000, errors: 3 },
  { upTo: 10_000, errors: 5 },
]
