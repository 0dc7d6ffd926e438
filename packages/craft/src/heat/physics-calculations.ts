import { defineCalculation } from '../calculation.ts'
import type { Source } from '../source.ts'
import { air, airInput, airOutput } from './air.ts'
import { cook, cookInput, cookOutput } from './cook.ts'
import { choiOkos, mixtureRules } from './data/food-components.ts'
import { filmSources } from './film.ts'
import { fit, fitInput, fitOutput } from './fit.ts'
import { schedule, scheduleInput, scheduleOutput } from './schedule.ts'
import { properties, propertiesInput, propertiesOutput } from './properties.ts'
import { ashraePsychrometrics } from './psychrometrics.ts'

const conductionSource: Source = {
  document: 'Carslaw & Jaeger, Conduction of Heat in Solids',
  section: '7.7 (cylinder through a film): the series against which the solver is tested',
  edition: '2nd, 1959',
  mark: 'computed',
}

const mix = { waterPct: 57, proteinPct: 14, fatPct: 26, ashPct: 3 }

export const propertiesCalculation = defineCalculation({
  name: 'heat.properties',
  title: 'Thermal properties of a mix',
  summary:
    'Conductivity, density, specific heat and diffusivity of unfrozen sausage mix from its composition, −1 to 150 °C, with the bounds that any arrangement of its parts keeps to.',
  input: propertiesInput,
  output: propertiesOutput,
  sources: [choiOkos, mixtureRules],
  example: { composition: mix, tempC: 40 },
  compute: properties,
})

export const airCalculation = defineCalculation({
  name: 'heat.air',
  title: 'State of moist air',
  summary:
    'Relative humidity, wet bulb, dew point, humidity ratio and enthalpy of house or room air from its dry bulb and one of wet bulb and relative humidity, −60 to 200 °C.',
  input: airInput,
  output: airOutput,
  sources: [ashraePsychrometrics],
  example: { tempC: 70, wetBulbC: 56 },
  compute: air,
})

const cookExample = {
  diameterMm: 60,
  composition: mix,
  startC: 6,
  stages: [
    { medium: 'air', tempC: 55, rhPct: 40, airSpeedMPerS: 1.5, minutes: 40 },
    { medium: 'air', tempC: 70, wetBulbC: 58, airSpeedMPerS: 1.5, minutes: 60, rampMinutes: 10 },
    { medium: 'steam', tempC: 78, untilCoreC: 70 },
    { medium: 'ice-water', tempC: 1, untilCoreC: 20 },
  ],
}

export const cookCalculation = defineCalculation({
  name: 'heat.cook',
  title: 'Core, surface and weight through a cook and chill',
  summary:
    'Temperature of a sausage through stages of air, water, steam and ice water by transient conduction in an endless or short cylinder, with evaporation, condensation, ramps and stages that run until a core temperature.',
  input: cookInput,
  output: cookOutput,
  sources: [choiOkos, ashraePsychrometrics, ...filmSources, conductionSource],
  example: cookExample,
  compute: cook,
})

export const fitCalculation = defineCalculation({
  name: 'heat.fit',
  title: 'Fit of the cook to a log',
  summary:
    'Film coefficient of each stage and a factor on the diffusivity by least squares from core readings, with 95 % intervals, and the time to a core temperature with its band.',
  input: fitInput,
  output: fitOutput,
  sources: [choiOkos, ashraePsychrometrics, ...filmSources, conductionSource],
  example: {
    ...cookExample,
    log: [
      { minute: 0, coreC: 6.2 },
      { minute: 15, coreC: 11.9 },
      { minute: 30, coreC: 23.7 },
      { minute: 45, coreC: 31.4 },
      { minute: 60, coreC: 42.1 },
      { minute: 75, coreC: 50.4 },
    ],
    targetCoreC: 70,
  },
  compute: fit,
})

export const scheduleCalculation = defineCalculation({
  name: 'heat.schedule',
  title: 'Schedule for a target',
  summary:
    'A few steps in air, water or steam that bring a sausage to a core temperature or a log reduction soonest, or with the least loss of weight, the surface never above a limit.',
  input: scheduleInput,
  output: scheduleOutput,
  sources: [choiOkos, ashraePsychrometrics, ...filmSources, conductionSource],
  example: {
    diameterMm: 60,
    composition: mix,
    startC: 6,
    medium: 'air',
    rhPct: 70,
    airSpeedMPerS: 2,
    houseMaxC: 90,
    surfaceMaxC: 78,
    target: { coreC: 70 },
  },
  compute: schedule,
})
