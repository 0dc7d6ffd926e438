/** The unit a field's name ends in. */
export function unitIn(path: string): string {
  const name = path.replace(/.*[.\]]/, '')
  if (name.endsWith('PerKg')) return 'per kg'
  if (name === 'kg' || name.endsWith('Kg')) return 'kg'
  if (name.endsWith('Pct') || name === 'pct') return '%'
  if (name.endsWith('Ppm')) return 'mg/kg'
  if (/[a-z]C$/.test(name)) return '°C'
  if (/[a-z]Mm$/.test(name)) return 'mm'
  if (/[a-z]G$/.test(name)) return 'g'
  if (/[a-z]M$/.test(name)) return 'm'
  return ''
}

/** Whether a figure in °C is a difference of two temperatures, with no zero of its own. */
export const isDifference = (path: string): boolean => /(?:^|[a-z.\]])(?:offset|tolerance|resolution)C$/i.test(path)
