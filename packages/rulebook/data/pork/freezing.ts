import type { Source } from '@forcemeat/craft/source'
import { EVERYWHERE, type Rule } from '../../src/rule.ts'

/** Room schedule: days at or below a room temperature, by the largest thickness it covers. */
export type RoomSchedule = {
  readonly kind: 'room'
  readonly rule: Rule
  readonly groups: readonly {
    readonly upToMm: number
    readonly rows: readonly { readonly c: number; readonly days: number }[]
  }[]
}
/** Centre schedule: hours at or below a temperature at the centre of the thickest piece, any thickness. */
export type CentreSchedule = {
  readonly kind: 'centre'
  readonly rule: Rule
  readonly rows: readonly { readonly c: number; readonly hours: number }[]
}
export type FreezingSchedule = RoomSchedule | CentreSchedule

const us = (section: string): Source => ({
  document: 'former 9 CFR 318.10(c)(2)',
  section,
  edition:
    'removed by 83 FR 25302 from 30 July 2018; figures kept in the FSIS compliance guideline on Trichinella (2018)',
  url: 'https://www.fsis.usda.gov/policy/fsis-directives/7320.1',
  mark: 'quoted',
})

const eu = (section: string): Source => ({
  document: 'Regulation (EU) 2015/1375, Annex II',
  section,
  edition: 'read in the identical French transposition, order of 10 July 1986, annex VIII',
  mark: 'quoted',
})

const rule = (id: string, jurisdiction: string, title: string, unit: 'days' | 'h', source: Source): Rule => ({
  id,
  title,
  jurisdiction,
  topic: 'pork',
  scope: 'Pork that will be eaten without a cook that kills Trichinella. One of the schedules of the place is enough.',
  unit,
  weight: 'limit',
  values: [{ source }],
})

const room = 'Freezing by room temperature, thickness and days'
const centre = 'Freezing by temperature at the centre'

export const freezingSchedules: readonly FreezingSchedule[] = [
  {
    kind: 'room',
    rule: rule('us.pork.freezing.room', 'US', room, 'days', us('Table 1')),
    groups: [
      // 6 inches and 27 inches, exactly.
      {
        upToMm: 152.4,
        rows: [
          { c: -15, days: 20 },
          { c: -23.3, days: 10 },
          { c: -28.9, days: 6 },
        ],
      },
      {
        upToMm: 685.8,
        rows: [
          { c: -15, days: 30 },
          { c: -23.3, days: 20 },
          { c: -28.9, days: 12 },
        ],
      },
    ],
  },
  {
    kind: 'centre',
    rule: rule('us.pork.freezing.centre', 'US', centre, 'h', us('Table 2')),
    rows: [
      { c: -17.8, hours: 106 },
      { c: -20.6, hours: 82 },
      { c: -23.3, hours: 63 },
      { c: -26.1, hours: 48 },
      { c: -28.9, hours: 35 },
      { c: -31.7, hours: 22 },
      { c: -34.5, hours: 8 },
      { c: -37.2, hours: 0.5 },
    ],
  },
  {
    kind: 'room',
    rule: rule('eu.pork.freezing.1', 'EU', `${room}: method 1`, 'days', eu('method 1')),
    groups: [
      { upToMm: 250, rows: [{ c: -25, days: 10 }] },
      { upToMm: 500, rows: [{ c: -25, days: 20 }] },
    ],
  },
  {
    kind: 'room',
    rule: rule('eu.pork.freezing.2', 'EU', `${room}: method 2`, 'days', eu('method 2')),
    groups: [
      {
        upToMm: 150,
        rows: [
          { c: -15, days: 20 },
          { c: -23, days: 10 },
          { c: -29, days: 6 },
        ],
      },
      {
        upToMm: 500,
        rows: [
          { c: -15, days: 30 },
          { c: -25, days: 20 },
          { c: -29, days: 12 },
        ],
      },
    ],
  },
  {
    kind: 'centre',
    rule: rule('eu.pork.freezing.3', 'EU', `${centre}: method 3`, 'h', eu('method 3')),
    rows: [
      { c: -18, hours: 106 },
      { c: -21, hours: 82 },
      { c: -23.5, hours: 63 },
      { c: -26, hours: 48 },
      { c: -29, hours: 35 },
      { c: -32, hours: 22 },
      { c: -35, hours: 8 },
      { c: -37, hours: 0.5 },
    ],
  },
]

/** Meats whose Trichinella survive freezing: no schedule makes them safe. */
export const freezingDoesNotHelp: Rule = {
  id: 'all.pork.freezing.game',
  title: 'Freezing does not make this meat safe from Trichinella',
  jurisdiction: EVERYWHERE,
  topic: 'pork',
  scope:
    'Wild boar, bear and horse meat: kinds of Trichinella found in them survive freezing. Cook it through, or have each carcass tested.',
  unit: '',
  weight: 'limit',
  values: [
    {
      source: {
        document: 'International Commission on Trichinellosis, recommendations on post-harvest control',
        section: 'freezing is recommended for meat of domestic pigs only',
        edition: 'Food and Waterborne Parasitology 2019, 14: e00041',
        mark: 'quoted',
      },
    },
  ],
}
