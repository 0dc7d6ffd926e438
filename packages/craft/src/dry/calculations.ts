import { defineCalculation } from '../calculation.ts'
import { ashraePsychrometrics } from '../heat/psychrometrics.ts'
import { course } from './course.ts'
import { courseInput, courseOutput } from './course-schema.ts'
import { diffusivitySources } from './diffusivity.ts'
import { rimSources } from './rim.ts'
import { room } from './room.ts'
import { roomInput, roomOutput } from './room-schema.ts'
import { roomTurns } from './room-turns.ts'
import { turnsInput, turnsOutput } from './room-turns-schema.ts'
import { sorptionSources } from './sorption.ts'
import { stability, stabilityInput, stabilityOutput } from './stability.ts'
import { waterActivity, waterActivityInput, waterActivityOutput } from './water-activity.ts'

export const dryCalculations = [
  defineCalculation({
    name: 'dry.water-activity',
    title: 'Water activity from composition',
    summary:
      'Water activity and water-phase salt of a product at 25 °C from its water, salt and sugars. A measured value, where given, wins over the computed one.',
    input: waterActivityInput,
    output: waterActivityOutput,
    sources: [
      {
        document: 'Pitzer & Mayorga, Thermodynamics of electrolytes II',
        section: 'Table I, NaCl',
        edition: 'J. Phys. Chem. 77 (1973) 2300',
        mark: 'from-memory',
      },
      {
        document: 'Robinson & Stokes, Electrolyte Solutions',
        section: 'osmotic coefficients of NaCl at 25 °C',
        edition: '2nd edition, 1965',
        mark: 'quoted',
      },
      {
        document:
          'Norrish, An equation for the activity coefficients and equilibrium relative humidities of water in confectionery syrups',
        section: 'equation and constants',
        edition: 'J. Food Technol. 1 (1966) 25',
        mark: 'from-memory',
      },
    ],
    example: { waterPct: 50, saltPct: 3.2, proteinPct: 22, fatPct: 22, solutes: [{ name: 'dextrose', pct: 0.4 }] },
    compute: waterActivity,
  }),
  defineCalculation({
    name: 'dry.course',
    title: 'Course of drying and the day it is ready',
    summary:
      'Weight loss, water activity at core, rim and of the whole, and moisture to protein by the day, for a sausage in a drying room; the day its targets are met as a band that narrows with weighings; days of crust risk with the air that would be safe. An estimate to plan by: its errors against measured series are in docs/method/dry.md, and its band held fewer published batches than the 9 in 10 it is meant for.',
    input: courseInput,
    output: courseOutput,
    sources: [...diffusivitySources, ...sorptionSources, ...rimSources],
    example: {
      diameterMm: 50,
      composition: { waterPct: 57, proteinPct: 16, fatPct: 23, carbohydratePct: 0.6, ashPct: 3.4, saltPct: 2.8 },
      startPh: 5.7,
      stages: [
        { days: 2, tempC: 22, rhPct: 92 },
        { days: 5, tempC: 16, rhPct: 86 },
        { days: 33, tempC: 14, rhPct: 80, airSpeedMPerS: 0.2 },
      ],
      target: { weightLossPct: 33 },
      weighings: [
        { day: 3, weightLossPct: 1.7 },
        { day: 7, weightLossPct: 6.4 },
        { day: 12, weightLossPct: 12.9 },
        { day: 17, weightLossPct: 18.2 },
      ],
    },
    compute: course,
  }),
  defineCalculation({
    name: 'dry.room',
    title: 'Moisture load of a drying room',
    summary:
      'Water the batches in a room give off day by day against what its unit takes away at the set air, the humidity at which the two would settle, and which batch is at risk of a crust.',
    input: roomInput,
    output: roomOutput,
    sources: [ashraePsychrometrics, ...diffusivitySources],
    example: {
      room: { tempC: 14, rhPct: 80 },
      unit: { airM3PerHour: 1500, coilTempC: 6 },
      batches: [
        { name: 'first', kg: 400, inDay: 0, lossPctPerDay: 1, outDay: 30 },
        {
          name: 'second',
          kg: 300,
          inDay: 7,
          piece: {
            diameterMm: 50,
            composition: { waterPct: 57, proteinPct: 16, fatPct: 23, saltPct: 2.8 },
            target: { weightLossPct: 33 },
          },
        },
      ],
      days: 28,
    },
    compute: room,
  }),
  defineCalculation({
    name: 'dry.turns',
    title: 'Turns of batches in a drying room',
    summary:
      'First day each planned batch can go into a room so that the water of all batches never exceeds what its unit takes away and the room never holds more than it can; the load by the day, with and without them.',
    input: turnsInput,
    output: turnsOutput,
    sources: [ashraePsychrometrics, ...diffusivitySources],
    example: {
      room: { tempC: 14, rhPct: 80 },
      unit: { airM3PerHour: 600, coilTempC: 6 },
      capacityKg: 1200,
      batches: [{ name: 'hangs', kg: 500, inDay: 0, lossPctPerDay: 1, outDay: 12 }],
      planned: [{ name: 'waits', kg: 500, inDay: 1, lossPctPerDay: 1.2, outDay: 25 }],
      days: 30,
    },
    compute: roomTurns,
  }),
  defineCalculation({
    name: 'dry.stability',
    title: 'Shelf stability by pH and water activity',
    summary:
      'Holds a finished product against the published combinations of pH and water activity, the growth limits of Listeria, Staphylococcus aureus and Clostridium botulinum, and the moisture to protein its name asks for. Only measured figures give a pass.',
    input: stabilityInput,
    output: stabilityOutput,
    sources: [
      {
        document: 'Leistner & Rödel, classes of meat products by pH and water activity',
        section: 'as given in a USDA FSIS training text',
        edition: 'undated',
        mark: 'quoted',
      },
      {
        document: 'Regulation (EC) No 2073/2005, Annex I',
        section: 'products unable to support the growth of Listeria monocytogenes',
        edition: 'as quoted',
        url: 'https://eur-lex.europa.eu/eli/reg/2005/2073/oj',
        mark: 'quoted',
      },
    ],
    example: {
      ph: 4.9,
      aw: 0.9,
      phTolerance: 0.05,
      awTolerance: 0.005,
      moistureToProtein: 1.6,
      storage: 'ambient',
      named: 'dry-salami',
    },
    compute: stability,
  }),
]
