/** Text as it may stand in a drawing. */
export const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')

/** A step of 1, 2 or 5 times a power of ten that gives at most `most` ticks. */
export function niceStep(span: number, most: number): number {
  const raw = span / most
  const ten = 10 ** Math.floor(Math.log10(raw))
  return ten * ([1, 2, 5, 10].find((k) => k * ten >= raw) ?? 10)
}

export type Scale = (v: number) => number

/** A line through points, with a gap at each null. */
export function pathOf(points: readonly (readonly [number, number | null])[], x: Scale, y: Scale): string {
  let pen = 'M'
  const parts: string[] = []
  for (const [minute, c] of points) {
    if (c === null) {
      pen = 'M'
      continue
    }
    parts.push(`${pen}${x(minute).toFixed(1)} ${y(c).toFixed(1)}`)
    pen = 'L'
  }
  return parts.join('')
}
