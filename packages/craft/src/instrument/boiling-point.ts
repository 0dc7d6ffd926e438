import { z } from 'zod'
import { workingSchema } from '../finding.ts'
import { quantity } from '../schema.ts'
import { ALTITUDE_M, standardPressurePa } from './atmosphere.ts'
import { saturationC } from './saturation.ts'

/** Pressure a kitchen's weather or a barometer may show, Pa. */
export const BAROMETER_PA = { min: 20_000, max: 120_000 } as const
/** How far weather moves the pressure from the standard atmosphere's, Pa either way: common practice, no source. */
const WEATHER_PA = 2500

export const boilingPointInput = z
  .strictObject({
    altitudeM: quantity('m', ALTITUDE_M).optional(),
    /** Pressure at the place itself, not reduced to sea level as weather reports give it. */
    pressurePa: quantity('Pa', BAROMETER_PA).optional(),
  })
  .superRefine((input, ctx) => {
    if ((input.altitudeM === undefined) === (input.pressurePa === undefined))
      ctx.addIssue({
        code: 'custom',
        message: `has ${input.altitudeM === undefined ? 'neither' : 'both'} altitudeM and pressurePa; allowed: exactly one of the two`,
      })
  })
export type BoilingPointInput = z.infer<typeof boilingPointInput>

export const boilingPointOutput = z.strictObject({
  boilingC: z.number(),
  /** Where weather may put it when only the altitude is known; the same as boilingC when the pressure was measured. */
  lowC: z.number(),
  highC: z.number(),
  pressurePa: z.number(),
  note: z.string(),
  working: workingSchema,
})
export type BoilingPointOutput = z.infer<typeof boilingPointOutput>

/**
 * Boiling point of pure water at an altitude or a measured pressure, °C, to check a thermometer by.
 * @source ICAO standard atmosphere; IAPWS-IF97 region 4
 */
export function boilingPoint({ altitudeM, pressurePa }: BoilingPointInput): BoilingPointOutput {
  const pressure = pressurePa ?? standardPressurePa(altitudeM ?? 0)
  const spread = pressurePa === undefined ? WEATHER_PA : 0
  const boilingC = saturationC(pressure)
  return {
    boilingC,
    lowC: saturationC(pressure - spread),
    highC: saturationC(pressure + spread),
    pressurePa: pressure,
    note:
      pressurePa === undefined
        ? 'From the altitude alone: weather moves it by the band given. Read a barometer at the place for a closer check. Distilled water, a rolling boil, the probe off the bottom.'
        : 'From the pressure at the place. A weather report is reduced to sea level: it is not this pressure unless the place lies there. Distilled water, a rolling boil, the probe off the bottom.',
    working: [
      ...(altitudeM === undefined
        ? []
        : [
            {
              step: 'pressure of the standard atmosphere',
              expression: `101325 Pa × (1 − 0.0065 × ${altitudeM}/288.15)^5.25588`,
              value: pressure,
              unit: 'Pa',
            },
          ]),
      {
        step: 'boiling point',
        expression: `saturation temperature of water at ${pressure} Pa`,
        value: boilingC,
        unit: '°C',
      },
    ],
  }
}
