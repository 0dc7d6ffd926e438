import type { Source } from '../../source.ts'

export const organisms = ['salmonella', 'listeria', 'e-coli-o157'] as const
export type Organism = (typeof organisms)[number]

/** A published rate of death: D at the reference, z, and the temperatures that were studied. Outside them it says nothing. */
export type DeathSet = {
  readonly id: string
  readonly organism: Organism
  readonly matrix: string
  readonly referenceC: number
  readonly dMinutes: number
  readonly zC: number
  readonly lowestC: number
  readonly highestC: number
  readonly source: Source
  readonly note?: string
}

const handbook = (study: string): Source => ({
  document: study,
  section:
    'D values tabulated in a meat handbook, Table 8.1, p. 171-172; D and z by least squares of log10 D on temperature',
  edition: 'as tabulated; 57 °C read as 57.5 °C',
  mark: 'computed',
})
const franks = handbook('Murphy et al. 2004, pork frankfurters')
const links = handbook('Murphy et al. 2004, beef and turkey link sausage')
const pooled = handbook(
  'Murphy et al. 2004 (pork frankfurters; beef and turkey links) and Sallami et al. 2006 (bologna batter), pooled',
)
const turkeyBologna: Source = {
  document: 'Thermal Processing of Poultry Products, in Thermal Food Processing',
  section: 'Table 7.1',
  edition: 'as quoted',
  mark: 'quoted',
}

/** Sets of D and z by organism; the first of each organism is its default. */
export const deathSets: readonly DeathSet[] = [
  {
    id: 'salmonella.fsis-meat-table',
    organism: 'salmonella',
    matrix: 'ground beef, as the FSIS meat table implies',
    referenceC: 60,
    dMinutes: 1.716,
    zC: 50 / 9,
    lowestC: (130 - 32) / 1.8,
    highestC: (157 - 32) / 1.8,
    source: {
      document: 'USDA FSIS, Cooking Guideline for Meat and Poultry Products (Revised Appendix A), FSIS-GD-2021-14',
      section:
        'Table 2, 6.5-log column: D of 0.1716 min at 150 °F and z of 10 °F give 27 of its 28 timed rows when rounded up',
      edition: 'December 2021',
      mark: 'computed',
    },
    note: 'Tests on whole-muscle products confirmed the times at 60, 65.6 and 71.1 °C but not at 54.4 °C (McMinn et al. 2018).',
  },
  {
    id: 'salmonella.link-sausage',
    organism: 'salmonella',
    matrix: 'beef and turkey link sausage',
    referenceC: 60,
    dMinutes: 5.58,
    zC: 5.75,
    lowestC: 55,
    highestC: 70,
    source: links,
  },
  {
    id: 'salmonella.frankfurter',
    organism: 'salmonella',
    matrix: 'pork frankfurter',
    referenceC: 60,
    dMinutes: 7.33,
    zC: 5.65,
    lowestC: 55,
    highestC: 70,
    source: franks,
  },
  {
    id: 'salmonella.turkey-bologna',
    organism: 'salmonella',
    matrix: 'turkey bologna (S. Typhimurium)',
    referenceC: 60,
    dMinutes: 1.4,
    zC: 5.56,
    lowestC: 57,
    highestC: 60,
    source: turkeyBologna,
  },
  {
    id: 'listeria.pooled-sausage',
    organism: 'listeria',
    matrix: 'cooked sausage: frankfurter, link and bologna batter pooled',
    referenceC: 60,
    dMinutes: 6.19,
    zC: 5.92,
    lowestC: 55,
    highestC: 70,
    source: pooled,
  },
  {
    id: 'listeria.frankfurter',
    organism: 'listeria',
    matrix: 'pork frankfurter',
    referenceC: 60,
    dMinutes: 7.3,
    zC: 5.74,
    lowestC: 55,
    highestC: 70,
    source: franks,
  },
  {
    id: 'listeria.link-sausage',
    organism: 'listeria',
    matrix: 'beef and turkey link sausage',
    referenceC: 60,
    dMinutes: 6.8,
    zC: 5.77,
    lowestC: 55,
    highestC: 70,
    source: links,
  },
  {
    id: 'listeria.turkey-bologna',
    organism: 'listeria',
    matrix: 'turkey bologna',
    referenceC: 61,
    dMinutes: 2.1,
    zC: 4.44,
    lowestC: 61,
    highestC: 65,
    source: turkeyBologna,
  },
  {
    id: 'listeria.liver-sausage-slurry',
    organism: 'listeria',
    matrix: 'liver sausage slurry (Scott A)',
    referenceC: 60,
    dMinutes: 2.4,
    zC: 6.2,
    lowestC: 57.2,
    highestC: 62.8,
    source: {
      document: 'Bhaduri et al. 1991, Food Microbiology',
      section: 'linear part of the survival curves',
      edition: 'abstract',
      mark: 'quoted',
    },
  },
  {
    id: 'e-coli-o157.pooled-sausage',
    organism: 'e-coli-o157',
    matrix: 'cooked sausage: frankfurter and link pooled',
    referenceC: 60,
    dMinutes: 3.18,
    zC: 5.19,
    lowestC: 55,
    highestC: 70,
    source: handbook('Murphy et al. 2004 (pork frankfurters; beef and turkey links), pooled'),
    note: 'The frankfurter D at 60 and 62.5 °C are printed alike and may be a misprint.',
  },
  {
    id: 'e-coli-o157.lean-turkey',
    organism: 'e-coli-o157',
    matrix: 'lean ground turkey (pork and lamb alike)',
    referenceC: 60,
    dMinutes: 1.89,
    zC: 6.5,
    lowestC: 55,
    highestC: 65,
    source: {
      document: 'Juneja & Marmer 1999, Food Research International 32:23',
      section: 'D values, linear model',
      edition: 'as quoted',
      mark: 'quoted',
    },
  },
]

export const deathSet = (id: string): DeathSet | undefined => deathSets.find((s) => s.id === id)
export const defaultDeathSet = (organism: Organism): DeathSet => deathSets.find((s) => s.organism === organism)!
