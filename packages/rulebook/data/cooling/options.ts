import { celsiusOfF } from '@forcemeat/craft/heat/fahrenheit'
import type { Source } from '@forcemeat/craft/source'

/** A stage of cooling: the warmest point from one temperature to the next within so many minutes. */
export type Window = {
  readonly fromC: number
  readonly toC: number
  readonly maxMinutes: number
  readonly strictlyUnder?: boolean
  /** Warmer end of the stage that another source gives: between the two the stage is neither met nor missed. */
  readonly orToC?: number
  /** Temperature inside the stage that other forms of it have a step at: a core that climbs back over it leaves open whether it cooled continuously. */
  readonly stepOfOthersC?: number
  readonly shown: string
}

/** A condition the product must meet for the option to speak for it; `mark` where it was read otherwise than the times. */
export type Condition =
  | { readonly of: 'cured' | 'intact' | 'retail' | 'largeMassNonIntact'; readonly is: boolean }
  | {
      readonly of: 'nitritePpm' | 'erythorbatePpm' | 'brinePct'
      readonly atLeast: number
      readonly fromMemory?: boolean
    }

export type CoolingOption = {
  readonly id: string
  readonly title: string
  readonly scope: string
  readonly jurisdiction: string
  readonly when: readonly Condition[]
  readonly windows: readonly Window[]
  /** Temperature the cooling must go on to, °C. */
  readonly finalC: number
  /** True where meeting it supports the performance standard of a federally inspected product today. */
  readonly current: boolean
  readonly from?: string
  readonly until?: string
  readonly source: Source
  readonly note?: string
}

const f = celsiusOfF
const stage = (fromF: number, toF: number, maxMinutes: number, more: Partial<Window> = {}): Window => ({
  fromC: f(fromF),
  toC: f(toF),
  maxMinutes,
  shown: `${fromF} to ${toF} °F`,
  ...more,
})

const noStepAt80: Partial<Window> = { stepOfOthersC: f(80) }

/**
 * A core that has entered a stage and climbs back over its upper temperature by more than this (and the thermometer's error) has not cooled
 * continuously, °C. Our reading, the stricter one: the guideline asks that the core not stay between the temperatures, and gives no figure.
 */
export const REWARMED_C = 1

const b1999: Source = {
  document:
    'USDA FSIS, Compliance Guidelines for Cooling Heat-Treated Meat and Poultry Products (Stabilization), Appendix B',
  section: 'options 1 to 3',
  edition: 'June 1999',
  mark: 'quoted',
}
const b2021: Source = {
  document: 'USDA FSIS, Stabilization Guideline for Meat and Poultry Products (Revised Appendix B), FSIS-GD-2021-13',
  section: 'options 1 to 4 and scientific gaps',
  edition: 'December 2021 (first revised June 2017)',
  url: 'https://www.fsis.usda.gov/guidelines/2017-0008',
  mark: 'quoted',
}

/** The published ways to cool, one entry a published form. */
export const coolingOptions: readonly CoolingOption[] = [
  {
    id: 'us.fsis.cooling.option-1',
    title: 'Appendix B option 1: 130 to 80 °F in 1.5 h, then 80 to 40 °F in 5 h',
    scope: 'any heat-treated product, cured or not, intact or not',
    jurisdiction: 'US',
    when: [],
    windows: [stage(130, 80, 90), stage(80, 40, 300)],
    finalC: f(40),
    current: true,
    source: b2021,
  },
  {
    id: 'us.fsis.cooling.option-2',
    title: 'Appendix B option 2: 120 to 80 °F in 1 h, then 80 to 55 °F in 5 h, and on to 40 °F',
    scope: 'any heat-treated product; smaller margin of safety than option 1',
    jurisdiction: 'US',
    when: [],
    windows: [stage(120, 80, 60), stage(80, 55, 300)],
    finalC: f(40),
    current: true,
    source: b2021,
    note: 'The steps were read in a quotation; that the first hour is mandatory is from memory and taken as so.',
  },
  {
    id: 'us.fsis.cooling.option-2-1999',
    title: 'Appendix B option 2 in its 1999 form: 120 to 55 °F in 6 h, and on to 40 °F',
    scope: 'superseded by the form with a first hour; more than 1 h between 120 and 80 °F made compliance less certain',
    jurisdiction: 'US',
    when: [],
    windows: [stage(120, 55, 360, noStepAt80)],
    finalC: f(40),
    current: false,
    source: b1999,
    note: 'Chilling begins within 90 minutes of the end of the cook.',
  },
  {
    id: 'us.fsis.cooling.gap-large-mass',
    title: 'Large-mass non-intact products, scientific gap: 120 to 55 °F in less than 6 h',
    scope: 'large-mass non-intact ready-to-eat products only, until the research ends',
    jurisdiction: 'US',
    when: [{ of: 'largeMassNonIntact', is: true }],
    windows: [stage(120, 55, 360, { strictlyUnder: true, ...noStepAt80 })],
    finalC: f(40),
    current: true,
    source: b2021,
  },
  {
    id: 'us.fsis.cooling.option-3-1999',
    title: 'Appendix B option 3 in its 1999 form: cured, 130 to 80 °F in 5 h, then 80 to 40 °F in 10 h',
    scope: 'cured with at least 100 ppm ingoing sodium nitrite; narrow margin',
    jurisdiction: 'US',
    when: [
      { of: 'cured', is: true },
      { of: 'nitritePpm', atLeast: 100 },
    ],
    windows: [stage(130, 80, 300), stage(80, 40, 600, { orToC: f(45) })],
    finalC: f(40),
    current: false,
    source: b1999,
    note: 'Sources disagree on the end: 40 °F in one, 45 °F in another (from memory). Met to both it passes, missed to both it fails; between them it cannot be told.',
  },
  {
    id: 'us.fsis.cooling.option-3',
    title: 'Appendix B option 3: cured, 130 to 80 °F in 5 h, then 80 to 40 °F in 10 h',
    scope: 'cured with at least 100 ppm ingoing sodium nitrite and 250 ppm erythorbate or ascorbate',
    jurisdiction: 'US',
    when: [
      { of: 'cured', is: true },
      { of: 'nitritePpm', atLeast: 100 },
      { of: 'erythorbatePpm', atLeast: 250, fromMemory: true },
    ],
    windows: [stage(130, 80, 300), stage(80, 40, 600, { orToC: f(45) })],
    finalC: f(40),
    current: true,
    source: b2021,
    note: 'The erythorbate figure is from memory. Sources disagree on the end: 40 °F or 45 °F; between them it cannot be told.',
  },
  {
    id: 'us.fsis.cooling.option-4',
    title: 'Appendix B option 4: salt and nitrite, 120 to 40 °F in 20 h, falling all the way',
    scope: 'at least 120 ppm ingoing sodium nitrite and 3.5 % brine; other combinations exist',
    jurisdiction: 'US',
    when: [
      { of: 'cured', is: true },
      { of: 'nitritePpm', atLeast: 120, fromMemory: true },
      { of: 'brinePct', atLeast: 3.5, fromMemory: true },
    ],
    windows: [stage(120, 40, 1200, noStepAt80)],
    finalC: f(40),
    current: true,
    source: { ...b2021, section: 'option 4, after Directive 7110.3 Rev. 1 (1989)', mark: 'from-memory' },
  },
  {
    id: 'ca.cfia.cooling.intact',
    title: 'CFIA, intact muscle: 50 to 20 °C in 2 h, to 4 °C in 7.5 h',
    scope: 'intact muscle, not tenderised; never a comminuted sausage',
    jurisdiction: 'CA',
    when: [{ of: 'intact', is: true }],
    windows: [
      { fromC: 50, toC: 20, maxMinutes: 120, shown: '50 to 20 °C' },
      { fromC: 50, toC: 4, maxMinutes: 450, shown: '50 to 4 °C' },
    ],
    finalC: 4,
    current: true,
    source: {
      document: 'CFIA, Meat Hygiene Manual of Procedures',
      section: 'chapter 4, 4.5',
      edition: 'archived',
      mark: 'quoted',
    },
    note: 'Where the 7.5 hours begin was not read; 50 °C is taken, so a pass leaves the time above 50 °C open.',
  },
  {
    id: 'us.food-code.cooling',
    title: 'FDA Food Code: 135 to 70 °F in 2 h, and to 41 °F in 6 h in all',
    scope: 'retail and food service, where the local authority has adopted it',
    jurisdiction: 'US',
    when: [{ of: 'retail', is: true }],
    windows: [stage(135, 70, 120), stage(135, 41, 360)],
    finalC: f(41),
    current: true,
    source: {
      document: 'FDA Food Code',
      section: '3-501.14',
      edition: 'as quoted; the local code decides',
      mark: 'quoted',
    },
  },
]

/** Where the performance standard behind the US options stands. */
export const stabilizationSource: Source = {
  document: '9 CFR 318.17(a)(2), 318.23(c), 381.150(a)(2)',
  section: 'stabilization: no multiplication of C. botulinum, at most 1-log of C. perfringens',
  edition: 'as quoted',
  mark: 'quoted',
}
