import { defineCalculation } from '../calculation.ts'
import { acid } from './acid.ts'
import { acidInput, acidOutput, acidSources } from './acid-schema.ts'
import { degreeHours } from './degree-hours.ts'
import { fiveLog, fiveLogInput, fiveLogOutput } from './five-log.ts'
import { inactivation, inactivationInput, inactivationOutput, inactivationSources } from './inactivation.ts'
import { degreeHoursInput, degreeHoursOutput } from './schema.ts'
import { staph, staphInput, staphOutput, staphSources } from './staph.ts'

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
  defineCalculation({
    name: 'ferment.acid',
    title: 'End pH from sugar and acidulant',
    summary:
      'A band of end pH from sugars, glucono-delta-lactone and lean share, between rules of thumb and stoichiometry, with what each rests on; says where the target cannot be counted on and where it would overshoot.',
    input: acidInput,
    output: acidOutput,
    sources: acidSources,
    example: { startPh: 5.8, dextrosePct: 0.6, leanPct: 75 },
    compute: acid,
  }),
  defineCalculation({
    name: 'ferment.staph',
    title: 'Estimate of Staphylococcus aureus growth',
    summary:
      'Growth while a sausage ferments, from chamber temperature and water activity, without lag, competition or slowing by acid until the target pH was measured. An estimate beside the degree-hours; it decides nothing.',
    input: staphInput,
    output: staphOutput,
    sources: staphSources,
    example: {
      log: [
        { hour: 0, tempC: 24, ph: 5.8 },
        { hour: 12, tempC: 24, ph: 5.6 },
        { hour: 24, tempC: 24, ph: 5.2 },
      ],
      saltPct: 2.8,
      waterPct: 57,
    },
    compute: staph,
  }),
  defineCalculation({
    name: 'ferment.inactivation',
    title: 'Estimate of the death of E. coli and Salmonella',
    summary:
      'Slow death in an acid and drying sausage by its temperature, with its spread, from the moment growth was stopped. An estimate: Listeria gets no credit, and nothing here stands in for a validated process.',
    input: inactivationInput,
    output: inactivationOutput,
    sources: inactivationSources,
    example: {
      organism: 'e-coli',
      log: [
        { hour: 0, tempC: 25, ph: 5.8, aw: 0.965 },
        { hour: 72, tempC: 25, ph: 4.9, aw: 0.945 },
        { hour: 240, tempC: 15, ph: 4.9, aw: 0.93 },
        { hour: 480, tempC: 15, ph: 5, aw: 0.9 },
      ],
    },
    compute: inactivation,
  }),
  defineCalculation({
    name: 'ferment.five-log',
    title: 'Validated ways to five tenfolds of E. coli',
    summary:
      'Holds a fermentation and the heat after it against published combinations of chamber temperature, end pH, diameter and heat shown to take five tenfolds of E. coli O157:H7. Following one passes; not following one proves nothing.',
    input: fiveLogInput,
    output: fiveLogOutput,
    sources: [
      {
        document: 'CFIA, Meat hygiene manual of procedures, chapter 4, Annex K',
        section: 'option 2',
        edition: 'archived, read in part',
        url: 'https://inspection.canada.ca',
        mark: 'quoted',
      },
      {
        document: 'Hinkens et al. 1996, Journal of Food Protection 59:1260',
        section: 'abstract',
        edition: '1996',
        mark: 'quoted',
      },
    ],
    example: { chamberC: 36, endPh: 4.9, casingMm: 55, heat: [{ tempC: 53.5, hours: 1, core: true }] },
    compute: fiveLog,
  }),
]
