import type { Source } from '@forcemeat/craft/source'

const guideline = (section: string): Source => ({
  document: 'USDA FSIS, Cooking Guideline for Meat and Poultry Products (Revised Appendix A), FSIS-GD-2021-14',
  section,
  edition: 'December 2021',
  url: 'https://www.fsis.usda.gov/guidelines/2017-0007',
  mark: 'seen',
})

/** Day from which earlier versions of the guideline are no longer taken as support. */
export const guidelineFrom = '2022-12-14'

/** Come-up: total time with the centre between the two temperatures. */
export const comeUp = { fromF: 50, toF: 130, maxMinutes: 360, source: guideline('Come-up time, p. 23-24') } as const

export type HumidityOption = {
  readonly option: 1 | 2 | 3 | 4
  readonly text: string
  /** What has to last: share of the cooking time or so many minutes, whichever is longer. */
  readonly share: number
  readonly minMinutes: number
  /** Lowest row of the table it serves, °F; absent where any row does. */
  readonly fromF?: number
  readonly minCookMinutes: number
  readonly source: Source
}

const humidity = guideline('Table 1, p. 26; exemptions p. 31-33')
export const humidityOptions: readonly HumidityOption[] = [
  {
    option: 1,
    text: 'live steam introduced',
    share: 0.5,
    minMinutes: 60,
    fromF: 145,
    minCookMinutes: 60,
    source: humidity,
  },
  {
    option: 2,
    text: 'oven sealed, dampers and doors closed',
    share: 0.5,
    minMinutes: 60,
    fromF: 145,
    minCookMinutes: 60,
    source: humidity,
  },
  {
    option: 3,
    text: 'relative humidity at least 90 %',
    share: 0.25,
    minMinutes: 60,
    minCookMinutes: 60,
    source: humidity,
  },
  {
    option: 4,
    text: 'relative humidity at least 90 % through the whole cook',
    share: 1,
    minMinutes: 0,
    minCookMinutes: 0,
    source: humidity,
  },
]
export const humiditySource = humidity

/** Targets by product. */
export const targets: readonly {
  readonly id: string
  readonly title: string
  readonly scope: string
  readonly reduction: string
  readonly source: Source
}[] = [
  {
    id: 'us.target.roast-beef',
    title: 'Cooked, roast and corned beef: 6.5-log reduction of Salmonella or an equivalent',
    scope: 'cooked beef, roast beef, cooked corned beef',
    reduction: '6.5-log',
    source: {
      document: '9 CFR 318.17(a)(1)',
      section: 'as restated in FSIS-GD-2021-14, p. 18-19',
      edition: 'December 2021',
      mark: 'quoted',
    },
  },
  {
    id: 'us.target.poultry',
    title: 'Ready-to-eat poultry: 7-log reduction of Salmonella',
    scope: 'any product with any poultry in it',
    reduction: '7-log',
    source: {
      document: '9 CFR 381.150(a)(1)',
      section: 'as restated in FSIS-GD-2021-14, p. 18-19',
      edition: 'December 2021',
      mark: 'quoted',
    },
  },
  {
    id: 'us.target.patties',
    title: 'Uncured meat patties: the permitted combinations of 9 CFR 318.23 (5-log)',
    scope: 'uncured, comminuted meat patties',
    reduction: '5-log',
    source: {
      document: '9 CFR 318.23',
      section: 'as restated in FSIS-GD-2021-14, p. 18-19',
      edition: 'December 2021',
      mark: 'quoted',
    },
  },
  {
    id: 'us.target.other-meat',
    title: 'Other cooked meat: 6.5-log, or 5-log with further support',
    scope: 'cooked meat products without poultry that no section above names, cooked sausage among them',
    reduction: '6.5-log',
    source: guideline('p. 18-19'),
  },
  {
    id: 'us.target.shelf-stable',
    title: 'Shelf-stable meat: 5-log reduction of Salmonella',
    scope: 'shelf-stable meat products without poultry',
    reduction: '5-log',
    source: guideline('p. 18-19'),
  },
]
