import { defineCalculation } from '../calculation.ts'
import { icaoAtmosphere } from './atmosphere.ts'
import { boilingPoint, boilingPointInput, boilingPointOutput } from './boiling-point.ts'
import { handbook44, oimlR76 } from './data/scale-classes.ts'
import { iapwsIf97 } from './saturation.ts'
import { scaleTolerance, scaleToleranceInput, scaleToleranceOutput } from './scale-tolerance.ts'
import {
  fixedPoints,
  icePoint,
  icePointInput,
  thermometerCheck,
  thermometerCheckInput,
  thermometerCheckOutput,
} from './thermometer-check.ts'

export const instrumentCalculations = [
  defineCalculation({
    name: 'instrument.boiling-point',
    title: 'Boiling point of water',
    summary:
      'Boiling point at an altitude (standard atmosphere, with the band of weather) or at a measured pressure, to check a thermometer by.',
    input: boilingPointInput,
    output: boilingPointOutput,
    sources: [icaoAtmosphere, iapwsIf97],
    example: { altitudeM: 1600 },
    compute: boilingPoint,
  }),
  defineCalculation({
    name: 'instrument.scale-tolerance',
    title: 'Tolerance of a scale at a load',
    summary:
      'Maximum permissible error by accuracy class, scale interval and load, at first verification and in service.',
    input: scaleToleranceInput,
    output: scaleToleranceOutput,
    sources: [oimlR76, handbook44],
    example: { class: 'III', divisionG: 1, loadG: 1500 },
    compute: scaleTolerance,
  }),
  defineCalculation({
    name: 'instrument.ice-point',
    title: 'Thermometer at the ice point',
    summary:
      'Offset of a thermometer in melting ice with its uncertainty, and whether it lies within the tolerance set.',
    input: icePointInput,
    output: thermometerCheckOutput,
    sources: [fixedPoints],
    example: { readingsC: [0.1, 0.2, 0.1], resolutionC: 0.1, toleranceC: 0.5 },
    compute: icePoint,
  }),
  defineCalculation({
    name: 'instrument.thermometer-check',
    title: 'Thermometer at a fixed point',
    summary:
      'Offset of a thermometer in melting ice or boiling water with its uncertainty, and whether it lies within the tolerance set.',
    input: thermometerCheckInput,
    output: thermometerCheckOutput,
    sources: [fixedPoints, icaoAtmosphere, iapwsIf97],
    example: { point: 'boiling', altitudeM: 300, readingsC: [98.8, 99], resolutionC: 0.1, toleranceC: 2 },
    compute: thermometerCheck,
  }),
]
