import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { quantity } from '../schema.ts'
import {
  dewPoint,
  humidityRatio,
  moistEnthalpy,
  ratioFromWetBulb,
  SATURATION_RANGE_C,
  saturationPressurePa,
  STANDARD_PRESSURE_PA,
  vapourPressurePa,
  wetBulb,
} from './psychrometrics.ts'

/** Pressure in Pa from the highest town to the deepest mine. */
export const pressure = () => quantity('Pa', { min: 50_000, max: 120_000 })

export const airInput = z
  .strictObject({
    tempC: quantity('°C', { min: -60, max: SATURATION_RANGE_C.max }),
    rhPct: quantity('% relative humidity', { min: 0, max: 100 }).optional(),
    wetBulbC: quantity('°C', { min: -60, max: 120 }).optional(),
    pressurePa: pressure().optional(),
  })
  .superRefine((air, ctx) => {
    if ((air.rhPct === undefined) === (air.wetBulbC === undefined))
      ctx.addIssue({
        code: 'custom',
        path: [air.rhPct === undefined ? 'rhPct' : 'wetBulbC'],
        message: `${air.rhPct === undefined ? 'is missing, and so is wetBulbC' : 'is given together with rhPct'}; allowed: exactly one of rhPct and wetBulbC`,
      })
  })
export const airOutput = z.strictObject({
  rhPct: z.number(),
  wetBulbC: z.number(),
  dewPointC: z.number(),
  /** kg of water vapour per kg of dry air */
  humidityRatio: z.number(),
  /** kJ per kg of dry air */
  enthalpyKjPerKg: z.number(),
  vapourPressurePa: z.number(),
  pressurePa: z.number(),
})
export type AirInput = z.infer<typeof airInput>
export type AirOutput = z.infer<typeof airOutput>

/** What is wrong with this pair of dry bulb and humidity, or undefined; `path` names the field. */
export function airFault(air: AirInput): { path: string; message: string } | undefined {
  const pressurePa = air.pressurePa ?? STANDARD_PRESSURE_PA
  if (air.wetBulbC !== undefined) {
    if (air.wetBulbC > air.tempC)
      return {
        path: 'wetBulbC',
        message: `is ${air.wetBulbC} °C, above the dry bulb of ${air.tempC} °C; allowed: at most the dry bulb`,
      }
    if (saturationPressurePa(air.wetBulbC) >= pressurePa)
      return {
        path: 'wetBulbC',
        message: `is ${air.wetBulbC} °C, at or above the boiling point at this pressure; allowed: below it`,
      }
    // A hundredth of a degree of slack: dry air given by its own wet bulb may come out a hair under nothing.
    if (ratioFromWetBulb(air.tempC, air.wetBulbC + 0.01, pressurePa) < 0)
      return {
        path: 'wetBulbC',
        message: `is ${air.wetBulbC} °C, below the wet bulb of bone-dry air at ${air.tempC} °C; allowed: from ${wetBulb(air.tempC, 0, pressurePa).toFixed(2)} to ${air.tempC} °C`,
      }
    return undefined
  }
  if (((air.rhPct ?? 0) / 100) * saturationPressurePa(air.tempC) >= pressurePa * 0.999)
    return {
      path: 'rhPct',
      message: `is ${air.rhPct} %, more vapour than the pressure of ${pressurePa} Pa can hold at ${air.tempC} °C; allowed: below ${((pressurePa / saturationPressurePa(air.tempC)) * 100).toFixed(1)} %`,
    }
  return undefined
}

/** Humidity ratio of air given by relative humidity or wet bulb; never below zero. */
export function ratioOf({ tempC, rhPct, wetBulbC, pressurePa = STANDARD_PRESSURE_PA }: AirInput): number {
  if (wetBulbC !== undefined) return Math.max(0, ratioFromWetBulb(tempC, wetBulbC, pressurePa))
  return humidityRatio(((rhPct ?? 0) / 100) * saturationPressurePa(tempC), pressurePa)
}

/**
 * State of moist air from dry bulb and either relative humidity or wet bulb, at sea-level pressure unless given.
 * @throws InvalidInput where no air can have the pair
 * @source ASHRAE Handbook—Fundamentals, chapter 1
 */
export function air(input: AirInput): AirOutput {
  const fault = airFault(input)
  if (fault) throw new InvalidInput([fault])
  const pressurePa = input.pressurePa ?? STANDARD_PRESSURE_PA
  const ratio = ratioOf(input)
  const vapour = vapourPressurePa(ratio, pressurePa)
  return {
    rhPct: input.rhPct ?? Math.min(100, (100 * vapour) / saturationPressurePa(input.tempC)),
    wetBulbC: input.wetBulbC ?? wetBulb(input.tempC, ratio, pressurePa),
    dewPointC: Math.min(dewPoint(vapour), input.tempC),
    humidityRatio: ratio,
    enthalpyKjPerKg: moistEnthalpy(input.tempC, ratio),
    vapourPressurePa: vapour,
    pressurePa,
  }
}
