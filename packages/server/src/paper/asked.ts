import type { System } from './amounts.ts'
import { z } from 'zod'
import { paperSizes, type PaperSize } from './frame.ts'

/** Units a paper is printed in. */
export const paperUnits = ['metric', 'us'] as const

/** What may be asked of every paper: the sheet it is on, and units other than the kitchen's own. */
export const paperShape = {
  size: z.enum(paperSizes, { error: `is not a paper size; allowed: ${paperSizes.join(', ')}` }).optional(),
  units: z
    .enum(paperUnits, {
      error: `is no system of units; allowed: ${paperUnits.join(', ')}; the kitchen’s where none is`,
    })
    .optional(),
}

/** A paper as asked for; a size alone is printed in the units of the kitchen. */
export type PaperAsked = PaperSize | { readonly size: PaperSize; readonly units?: System }

/** The paper of a query: A4 where no size is said, the units of the kitchen where none are. */
export const askedPaper = ({
  size = 'A4',
  units,
}: {
  readonly size?: PaperSize | undefined
  readonly units?: System | undefined
}): { readonly size: PaperSize; readonly units?: System } => ({ size, ...(units ? { units } : {}) })
