import { defineCalculation } from '../calculation.ts'
import { freezing } from './freezing.ts'
import { freezingInput, freezingOutput } from './schema.ts'

export const porkCalculations = [
  defineCalculation({
    name: 'pork.freezing',
    title: 'Freezing of pork against Trichinella',
    summary:
      'Holds a freezer record against the published freezing schedules: by thickness, room temperature and days, or by the temperature at the centre of the thickest piece. Game and horse meat can carry kinds that survive freezing and never pass.',
    input: freezingInput,
    output: freezingOutput,
    sources: [
      {
        document: '9 CFR 318.10(c)(2), Tables 1 and 2',
        section: 'prescribed treatment of pork by freezing; removed by 83 FR 25302, kept in guidance',
        edition: 'until 30 July 2018',
        mark: 'quoted',
      },
      {
        document: 'Regulation (EU) 2015/1375, Annex II',
        section: 'freezing treatments, methods 1 to 3',
        edition: 'read in the identical French transposition, order of 10 July 1986, annex VIII',
        mark: 'quoted',
      },
    ],
    example: { thicknessMm: 150, storageC: -23.4, days: 12 },
    compute: freezing,
  }),
]
