import { formatNumber, formatQuantity } from '@forcemeat/craft/quantity/format'

export type System = 'metric' | 'us'

/** A weight as it is weighed: in the kitchen's units, but small ones in grams, which is what fine scales read. */
export function weight(kg: number, system: System): string {
  if (system === 'metric') return formatQuantity(kg, 'mass', { system, digits: kg >= 1 && kg < 10 ? 4 : 5 })
  return kg < 0.5 ? `${formatNumber(kg * 1000, { digits: 4 })} g` : formatQuantity(kg, 'mass', { system })
}

/** The other unit of a weight printed in grams in a kitchen that thinks in ounces. */
export const inOunces = (kg: number, system: System): string | undefined =>
  system === 'us' && kg < 0.5 ? formatQuantity(kg, 'mass', { system, digits: 3 }) : undefined

/** A scale's figures are read in grams everywhere. */
export const grams = (g: number): string => (g >= 1000 ? `${formatNumber(g / 1000)} kg` : `${formatNumber(g)} g`)

export const temperature = (c: number, system: System): string => formatQuantity(c, 'temperature', { system })
export const duration = (minutes: number): string => formatQuantity(minutes, 'time', { system: 'metric' })
export const length = (mm: number, system: System): string => formatQuantity(mm, 'length', { system, digits: 3 })

/** An error, a margin or a tolerance: one of a temperature is a difference, which has no zero to move. */
export const apart = (value: number, unit: string, system: System): string =>
  unit === '°C'
    ? `${formatNumber(system === 'us' ? value * 1.8 : value)} ${system === 'us' ? '°F' : '°C'}`
    : figure(value, unit, system)

/** A figure of a finding in its own unit; temperatures in the kitchen's. */
export function figure(value: number | undefined, unit: string, system: System): string {
  if (value === undefined) return '–'
  if (unit === '°C') return temperature(value, system)
  if (unit === 'min' || unit === 'minutes') return duration(value)
  // Digits enough that a limit of 156.25 is not printed as one it is not.
  return `${formatNumber(value, { digits: 5 })}${unit ? ` ${unit}` : ''}`
}
