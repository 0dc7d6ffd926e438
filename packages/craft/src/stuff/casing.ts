import { z } from 'zod'
import { lengthMm, massG, massKg, oneOf, pct, quantity, text } from '../schema.ts'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { casingKinds } from './data/casings.ts'
import { capacityOf, type Capacity } from './capacity.ts'

export const casingInput = z
  .strictObject({
    mixKg: massKg(),
    casing: z.strictObject({
      calibreMm: lengthMm(),
      /** Raw mix in a metre, as the kitchen has measured it; without it the table's figure for the calibre is taken. */
      kgPerM: quantity('kg/m', { above: 0, max: 100 }).optional(),
      /** Length of one piece. */
      pieceM: quantity('m', { above: 0, max: 1000 }).optional(),
      kind: oneOf(casingKinds).optional(),
    }),
    /** Weight of a link as stuffed. */
    linkG: massG().optional(),
    /** Weight a link must have when finished; the fill weight follows from lossPct. Instead of linkG. */
    finishedLinkG: massG().optional(),
    /** Cook or dry loss, percent of the stuffed weight. */
    lossPct: pct().optional(),
  })
  .superRefine((input, ctx) => {
    if (input.linkG !== undefined && input.finishedLinkG !== undefined)
      ctx.addIssue({
        code: 'custom',
        path: ['finishedLinkG'],
        message: 'is given beside linkG; allowed: one of the two',
      })
    if (input.finishedLinkG !== undefined && input.lossPct === undefined)
      ctx.addIssue({
        code: 'custom',
        path: ['lossPct'],
        message: 'is missing; allowed: the loss in %, 0 if none, beside finishedLinkG',
      })
    if (input.lossPct !== undefined && input.lossPct >= 100)
      ctx.addIssue({
        code: 'custom',
        path: ['lossPct'],
        message: `is ${input.lossPct}; allowed: less than 100, so that something is left`,
      })
  })
export type CasingInput = z.infer<typeof casingInput>

export const casingOutput = z.strictObject({
  metres: z.number(),
  /** Fewest and most metres that the band of capacity asks for. */
  metresLow: z.number(),
  metresHigh: z.number(),
  /** Whole pieces to lay out, where the piece's length is known. */
  pieces: z.number().optional(),
  piecesHigh: z.number().optional(),
  /** Whole links; 0 where no link weight is given. */
  links: z.number(),
  /** Mix that makes no whole link; 0 where no link weight is given. */
  leftoverKg: z.number(),
  lastPieceKg: z.number().optional(),
  lastPieceM: z.number().optional(),
  linkMm: z.number().optional(),
  fillG: z.number().optional(),
  finishedG: z.number().optional(),
  /** Fill weight that leaves a finished link of linkG after lossPct. */
  fillForFinishedG: z.number().optional(),
  kgPerM: z.number(),
  kgPerMLow: z.number(),
  kgPerMHigh: z.number(),
  basis: z.enum(['given', 'table', 'geometry']),
  soak: z.string().optional(),
  note: z.string(),
  source: text(400),
  working: workingSchema,
})
export type CasingOutput = z.infer<typeof casingOutput>

/** A count of whole units that a float a hair under the whole does not lose. */
const whole = (x: number): number => Math.floor(x * (1 + 1e-12) + 1e-9)
/** The least count of whole units that covers x, not one more for a hair of float. */
const covering = (x: number): number => Math.max(1, Math.ceil(x * (1 - 1e-12) - 1e-9))

function pieceFigures(
  mixKg: number,
  metres: number,
  metresHigh: number,
  pieceM: number,
  kgPerM: number,
): Partial<CasingOutput> {
  const pieces = covering(metres / pieceM)
  const lastPieceM = metres - (pieces - 1) * pieceM
  return {
    pieces,
    piecesHigh: covering(metresHigh / pieceM),
    lastPieceM,
    lastPieceKg: mixKg - (pieces - 1) * pieceM * kgPerM,
  }
}

function linkFigures(
  input: CasingInput,
  kgPerM: number,
): Partial<CasingOutput> & Pick<CasingOutput, 'links' | 'leftoverKg'> {
  const kept = 1 - (input.lossPct ?? 0) / 100
  const fillG = input.finishedLinkG !== undefined ? input.finishedLinkG / kept : input.linkG
  if (fillG === undefined) return { links: 0, leftoverKg: 0 }
  const links = whole((input.mixKg * 1000) / fillG)
  return {
    links,
    leftoverKg: Math.max(0, input.mixKg - (links * fillG) / 1000),
    linkMm: fillG / kgPerM,
    fillG,
    ...(input.lossPct !== undefined && { finishedG: fillG * kept }),
    ...(input.linkG !== undefined && input.lossPct !== undefined && { fillForFinishedG: input.linkG / kept }),
  }
}

function workingOf(
  input: CasingInput,
  capacity: Capacity,
  out: Partial<CasingOutput>,
  metres: number,
  pieceM?: number,
): WorkingStep[] {
  const steps: WorkingStep[] = [
    { step: 'capacity', expression: capacity.expression, value: capacity.kgPerM, unit: 'kg/m' },
    {
      step: 'length',
      expression: `${Number(input.mixKg.toPrecision(7))} kg / ${Number(capacity.kgPerM.toPrecision(7))} kg/m`,
      value: metres,
      unit: 'm',
    },
  ]
  if (out.pieces !== undefined)
    steps.push({
      step: 'pieces',
      expression: `${metres} m / ${pieceM} m, rounded up`,
      value: out.pieces,
      unit: 'pieces',
    })
  if (input.finishedLinkG !== undefined && out.fillG !== undefined)
    steps.push({
      step: 'fill weight',
      expression: `${input.finishedLinkG} g / (1 − ${input.lossPct ?? 0}/100)`,
      value: out.fillG,
      unit: 'g',
    })
  if (out.fillG !== undefined && out.links !== undefined)
    steps.push({
      step: 'links',
      expression: `${Number(input.mixKg.toPrecision(7))} kg / ${Number(out.fillG.toPrecision(7))} g, rounded down`,
      value: out.links,
      unit: 'links',
    })
  return steps
}

/**
 * Casing to lay out for a mix: metres (with the band of published capacity), pieces, links and what is left. Capacity is the
 * kitchen's own figure, the table's for the calibre, or, outside the table, geometry times a fill factor.
 */
export function casing(input: CasingInput): CasingOutput {
  const capacity = capacityOf(input.casing)
  const { kgPerM, kgPerMLow, kgPerMHigh } = capacity
  const metres = input.mixKg / kgPerM
  const metresHigh = input.mixKg / kgPerMLow
  const pieceM = input.casing.pieceM ?? capacity.pieceM
  const out = {
    ...(pieceM !== undefined && pieceFigures(input.mixKg, metres, metresHigh, pieceM, kgPerM)),
    ...linkFigures(input, kgPerM),
  }
  return {
    metres,
    metresLow: input.mixKg / kgPerMHigh,
    metresHigh,
    ...out,
    kgPerM,
    kgPerMLow,
    kgPerMHigh,
    basis: capacity.basis,
    ...(capacity.soak !== undefined && { soak: capacity.soak }),
    note: capacity.note,
    source: capacity.source,
    working: workingOf(input, capacity, out, metres, pieceM),
  }
}
