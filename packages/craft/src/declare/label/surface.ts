import { InvalidInput } from '../../calculation.ts'
import type { LabelInput } from './schema.ts'

/** @throws InvalidInput where the label is larger than what is said to be the largest surface of its pack */
export function surfaceHolds({ largestSurfaceCm2, widthMm, heightMm }: LabelInput['pack']): void {
  if (largestSurfaceCm2 === undefined || widthMm === undefined || heightMm === undefined) return
  const labelCm2 = (widthMm * heightMm) / 100
  if (largestSurfaceCm2 < labelCm2 - 1e-9)
    throw new InvalidInput([
      {
        path: 'pack.largestSurfaceCm2',
        message: `is ${largestSurfaceCm2} cm²; allowed: at least ${labelCm2} cm², the area of this label (${widthMm} × ${heightMm} mm), which has to fit on it`,
      },
    ])
}

/** @throws InvalidInput where a display is asked for that its panel has not, or a surface is smaller than what lies in it */
export function displayHolds({ place, pack }: LabelInput): void {
  const { panelDisplay: display, panel, availableSurfaceCm2: all, largestSurfaceCm2: one } = pack
  if (place === 'US' && display !== undefined && display !== 'vertical' && panel === 'us-1993')
    throw new InvalidInput([
      {
        path: 'pack.panelDisplay',
        message: `is ${display}; allowed with the panel of the 1990s: vertical, its other displays are not held`,
      },
    ])
  const labelCm2 = ((pack.widthMm ?? 0) * (pack.heightMm ?? 0)) / 100
  const least = Math.max(one ?? 0, labelCm2)
  if (all !== undefined && all < least - 1e-9)
    throw new InvalidInput([
      {
        path: 'pack.availableSurfaceCm2',
        message: `is ${all} cm²; allowed: at least ${Number(least.toFixed(2))} cm², ${one !== undefined && one >= labelCm2 ? 'the largest surface of the pack' : 'the area of this label'}`,
      },
    ])
}
