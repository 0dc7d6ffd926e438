import { paper } from './model.ts'

type Look = { readonly stroke: string; readonly width: number; readonly dash?: readonly number[] }

/** A line of the key as it is drawn on the plot, as a CSS background: its dash tells it where colours are not seen; points are rings. */
export function swatchOf({ stroke, width, dash }: Look, points: boolean): string {
  if (points)
    return `radial-gradient(circle, ${paper.ground} 0 2.6px, ${stroke} 3.2px 5px, transparent 5.6px) center / 100% 100% no-repeat`
  const thick = `${Math.max(2, Math.round(width * 1.2))}px`
  const place = `left center / 100% ${thick} no-repeat`
  if (!dash) return `linear-gradient(${stroke}, ${stroke}) ${place}`
  let at = 0
  const stops = dash.map((length, i) => {
    const from = at
    at += length
    return `${i % 2 === 0 ? stroke : 'transparent'} ${from}px ${at}px`
  })
  return `repeating-linear-gradient(90deg, ${stops.join(', ')}) ${place}`
}
