import { z } from 'zod'
import type { Source } from '../source.ts'
import { list, oneOf, quantity, tempC } from '../schema.ts'
import { workingSchema } from '../finding.ts'
import { ALTITUDE_M } from './atmosphere.ts'
import { BAROMETER_PA, boilingPoint } from './boiling-point.ts'

export const fixedPoints: Source = {
  document: 'Wisconsin Food Code Fact Sheet 7, Thermometer calibration (dfs-3007)',
  section: 'the ice point serves to within 0.1 °F, the boiling point to within 1.0 °F',
  edition: 'April 2001',
  mark: 'quoted',
}

/** How well a kitchen makes each fixed point, °C either way (0.1 °F and 1.0 °F). */
const POINT_ERROR_C = { ice: 0.1 / 1.8, boiling: 1 / 1.8 } as const

const reading = {
  /** Readings once steady, the probe taken out and put back between them. */
  readingsC: list(tempC(), { min: 1, max: 20 }),
  /** Smallest step the display shows. */
  resolutionC: quantity('°C', { above: 0, max: 5 }),
  /** Error the kitchen allows the thermometer. */
  toleranceC: quantity('°C', { above: 0, max: 10 }),
}

export const icePointInput = z.strictObject(reading)
export const thermometerCheckInput = z
  .strictObject({
    point: oneOf(['ice', 'boiling']),
    altitudeM: quantity('m', ALTITUDE_M).optional(),
    pressurePa: quantity('Pa', BAROMETER_PA).optional(),
    ...reading,
  })
  .superRefine((input, ctx) => {
    const given = (input.altitudeM !== undefined ? 1 : 0) + (input.pressurePa !== undefined ? 1 : 0)
    const wanted = input.point === 'boiling' ? 1 : 0
    if (given !== wanted)
      ctx.addIssue({
        code: 'custom',
        message: `has ${given} of altitudeM and pressurePa; allowed: ${wanted ? 'exactly one of the two at the boiling point' : 'neither at the ice point'}`,
      })
  })
export type ThermometerCheckInput = z.infer<typeof thermometerCheckInput>

export const thermometerCheckOutput = z.strictObject({
  referenceC: z.number(),
  /** Mean reading minus the fixed point: take it off a reading to correct it. */
  offsetC: z.number(),
  /** Uncertainty of that offset, either way. */
  uncertaintyC: z.number(),
  verdict: z.enum(['within', 'outside', 'cannot-tell']),
  because: z.string(),
  working: workingSchema,
})
export type ThermometerCheckOutput = z.infer<typeof thermometerCheckOutput>

const shown = (x: number): string => String(Number(x.toFixed(3)))

/**
 * Judge a thermometer at a fixed point. Its offset is known only to half a display step, the scatter of its readings and how well
 * the point is made, added up; an offset nearer to the tolerance than that is `cannot-tell`.
 */
export function thermometerCheck(input: ThermometerCheckInput): ThermometerCheckOutput {
  const { altitudeM, pressurePa, readingsC, resolutionC, toleranceC } = input
  const boil =
    input.point === 'boiling'
      ? boilingPoint(pressurePa !== undefined ? { pressurePa } : { altitudeM: altitudeM ?? 0 })
      : undefined
  const referenceC = boil?.boilingC ?? 0
  const pointC = boil ? POINT_ERROR_C.boiling + (boil.highC - boil.lowC) / 2 : POINT_ERROR_C.ice
  const mean = readingsC.reduce((s, v) => s + v, 0) / readingsC.length
  const scatter = (Math.max(...readingsC) - Math.min(...readingsC)) / 2
  const offsetC = mean - referenceC
  const uncertaintyC = resolutionC / 2 + scatter + pointC
  const off = Math.abs(offsetC)
  const verdict =
    off + uncertaintyC <= toleranceC ? 'within' : off - uncertaintyC > toleranceC ? 'outside' : 'cannot-tell'
  const figures = `off by ${shown(offsetC)} °C, known to ±${shown(uncertaintyC)} °C, against ±${shown(toleranceC)} °C`
  const settle = boil
    ? 'check it in ice and water, or read a barometer at the place'
    : 'use a finer display, stir the slush and repeat, or have it calibrated'
  return {
    referenceC,
    offsetC,
    uncertaintyC,
    verdict,
    because: verdict === 'cannot-tell' ? `${figures}: too close to tell; ${settle}` : figures,
    working: [
      {
        step: 'fixed point',
        expression: boil ? `boiling point at ${shown(boil.pressurePa)} Pa` : 'melting ice',
        value: referenceC,
        unit: '°C',
      },
      { step: 'offset', expression: `${shown(mean)} − ${shown(referenceC)}`, value: offsetC, unit: '°C' },
      {
        step: 'uncertainty',
        expression: `${resolutionC}/2 + ${shown(scatter)} + ${shown(pointC)}`,
        value: uncertaintyC,
        unit: '°C',
      },
    ],
  }
}

/** The same at the ice point: 0 °C in a packed slush of crushed ice and water. */
export const icePoint = (input: z.infer<typeof icePointInput>): ThermometerCheckOutput =>
  thermometerCheck({ point: 'ice', ...input })
