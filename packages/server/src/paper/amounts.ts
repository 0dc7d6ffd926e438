import { formatNumber, formatQuantity } from '@forcemeat/craft/quantity/format'

export type System = 'metric' | 'us'

/** A weight as it is weighed: in the kitchen's units, with the grams beside them where scales for small weights read grams. */
export function weight(kg: number, system: System): string {
  if (system === 'metric') return formatQuantity(kg, 'mass', { system, digits: 5 })
  const grams = `${formatNumber(kg * 1000, { digits: 4 })} g`
  return kg < 0.5 ? `${grams} (${formatQuantity(kg, 'mass', { system })})` : formatQuantity(kg, 'mass', { system })
}

/** A scale's figures are read in grams everywhere. */
export const grams = (g: number): string => (g >= 1000 ? `${formatNumber(g / 1000)} kg` : `${formatNumber(g)} g`)

export const temperature = (c: number, system: System): string => formatQuantity(c, 'temperature', { system })
export const duration = (minutes: number): string => formatQuantity(minutes, 'time', { system: 'metric' })
export const length = (mm: number, system: System): string => formatQuantity(mm, 'length', { system, digits: 3 })

/** A figure of a finding in its own unit; temperatures in the kitchen's. */
export function figure(value: number | undefined, unit: string, system: System): string {
  if (value === undefined) return '–'
  if (unit === '°C') return temperature(value, system)
  if (unit === 'min' || unit === 'minutes') return duration(value)
  return `${formatNumber(value)}${unit ? ` ${unit}` : ''}`
}
