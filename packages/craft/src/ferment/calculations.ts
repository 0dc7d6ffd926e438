import { defineCalculation } from '../calculation.ts'
import { degreeHours } from './degree-hours.ts'
import { degreeHoursInput, degreeHoursOutput } from './schema.ts'

export const fermentCalculations = [
  defineCalculation({
    name: 'ferment.degree-hours',
    title: 'Degree-hours of a fermentation',
    summary:
      'Counts chamber temperature above the start of effective Staphylococcus aureus growth until the target pH was measured, in the two published systems, and holds each against the limit for the highest temperature met.',
    input: degreeHoursInput,
    output: degreeHoursOutput,
    sources: [
      {
        document:
          'American Meat Institute Foundation, Good manufacturing practices for fermented dry and semi-dry sausage products',
        section: 'degree-hours',
        edition: '1997',
        mark: 'quoted',
      },
      {
        document: 'CFIA, Meat hygiene manual of procedures',
        section: 'chapter 4, 4.16, fermentation',
        edition: 'archived',
        url: 'https://inspection.canada.ca',
        mark: 'quoted',
      },
    ],
    example: {
      log: [
        { hour: 0, tempC: 24, ph: 5.8 },
        { hour: 10, tempC: 24 },
        { hour: 10, tempC: 30, ph: 5.6 },
        { hour: 20, tempC: 30 },
        { hour: 20, tempC: 35 },
        { hour: 35, tempC: 35, ph: 5.3 },
      ],
    },
    compute: degreeHours,
  }),
]
