import { z } from 'zod'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { list, massKg, massKgOrNone, pct, quantity, text } from '../schema.ts'
import { compositionSchema } from '../composition.ts'
import { components, compositionOf, fatSdOf } from './composition-of.ts'
import { addedWaterOf } from './check.ts'
import { blendMaterialSchema, compositionOutSchema } from './schema.ts'

const trim = z.strictObject({
  name: text(80).optional(),
  fatPct: pct(),
  costPerKg: quantity('money per kg', { min: 0, max: 1e6 }).optional(),
})

export const squareInputSchema = z.strictObject({ batchKg: massKg(), targetFatPct: pct(), first: trim, second: trim })
export type SquareInput = z.infer<typeof squareInputSchema>

export const squareOutputSchema = z.strictObject({
  possible: z.boolean(),
  because: z.string(),
  firstKg: z.number().optional(),
  secondKg: z.number().optional(),
  firstPct: z.number().optional(),
  costPerKg: z.number().optional(),
  working: workingSchema,
})
export type SquareOutput = z.infer<typeof squareOutputSchema>

/**
 * Two trims to one fat by the square: each trim's parts are the distance of the other's fat from the target.
 * first : second = |second − target| : |target − first|.
 */
export function squareBlend({ batchKg, targetFatPct: t, first, second }: SquareInput): SquareOutput {
  const [a, b] = [first.fatPct, second.fatPct]
  const working: WorkingStep[] = [
    { step: 'parts of the first', expression: `|${b} − ${t}|`, value: Math.abs(b - t), unit: 'parts' },
    { step: 'parts of the second', expression: `|${t} − ${a}|`, value: Math.abs(t - a), unit: 'parts' },
  ]
  if (t < Math.min(a, b) || t > Math.max(a, b))
    return {
      possible: false,
      because: `${t} % fat does not lie between ${a} % and ${b} %: no mix of the two gives it`,
      working,
    }
  if (a === b) return { possible: true, because: `both trims have the target's fat: any mix of them gives it`, working }
  const share = (b - t) / (b - a)
  const firstKg = share * batchKg
  working.push({
    step: 'first',
    expression: `${batchKg} × ${Math.abs(b - t)} / ${Math.abs(b - a)}`,
    value: firstKg,
    unit: 'kg',
  })
  working.push({ step: 'second', expression: `${batchKg} − first`, value: batchKg - firstKg, unit: 'kg' })
  const cost =
    first.costPerKg === undefined || second.costPerKg === undefined
      ? {}
      : { costPerKg: share * first.costPerKg + (1 - share) * second.costPerKg }
  return {
    possible: true,
    because: 'the target lies between the two',
    firstKg,
    secondKg: batchKg - firstKg,
    firstPct: 100 * share,
    ...cost,
    working,
  }
}

/** A composition of which parts may be unknown; what is known may not add up to more than the whole. */
const knownComposition = z
  .strictObject({
    ...compositionSchema.shape,
    waterPct: pct().optional(),
    proteinPct: pct().optional(),
    fatPct: pct().optional(),
  })
  .superRefine((c, ctx) => {
    const sum =
      (c.waterPct ?? 0) +
      (c.proteinPct ?? 0) +
      (c.fatPct ?? 0) +
      (c.carbohydratePct ?? 0) +
      Math.max(c.ashPct ?? 0, c.saltPct ?? 0)
    if (sum > 100.01)
      ctx.addIssue({ code: 'custom', message: `adds up to ${Number(sum.toFixed(3))} %; allowed: at most 100 %` })
  })

export const madeInputSchema = z.strictObject({
  parts: list(
    z.strictObject({
      id: text(80),
      kg: massKgOrNone(),
      composition: knownComposition,
      fatSdPct: pct().optional(),
      costPerKg: quantity('money per kg', { min: -1e6, max: 1e6 }).optional(),
      species: text(40).optional(),
      protein: blendMaterialSchema.shape.protein,
    }),
    { min: 1, max: 500 },
  ).refine((parts) => parts.some((p) => p.kg > 0), {
    message: 'has no mass in all; allowed: at least one part above 0 kg',
  }),
})
export type MadeInput = z.infer<typeof madeInputSchema>

export const madeOutputSchema = z.strictObject({
  totalKg: z.number(),
  composition: compositionOutSchema,
  unknown: z.array(z.strictObject({ component: z.enum(components), materials: z.array(z.string()) })),
  addedWaterPct: z.number().optional(),
  fatSdPct: z.number().optional(),
  species: z.array(z.strictObject({ species: z.string(), pct: z.number() })),
  costPerKg: z.number().optional(),
})
export type MadeOutput = z.infer<typeof madeOutputSchema>

/** What weighed parts make together. A figure some part lacks is left out and the part named: blank is not zero. */
export function madeOf({ parts }: MadeInput): MadeOutput {
  const present = parts.filter((p) => p.kg > 0)
  const totalKg = present.reduce((s, p) => s + p.kg, 0)
  const { composition, unknown } = compositionOf(present)
  const sd = fatSdOf(present)
  const wetKnown = composition.waterPct !== undefined && composition.proteinPct !== undefined
  const kinds = [...new Set(present.flatMap((p) => p.species ?? []))]
  const priced = present.every((p) => p.costPerKg !== undefined)
  return {
    totalKg,
    composition,
    unknown,
    ...(wetKnown ? { addedWaterPct: addedWaterOf(present.map((p) => ({ kg: p.kg, material: p }))) } : {}),
    ...(sd === undefined ? {} : { fatSdPct: sd }),
    species: kinds.map((species) => ({
      species,
      pct: (100 * present.reduce((s, p) => s + (p.species === species ? p.kg : 0), 0)) / totalKg,
    })),
    ...(priced ? { costPerKg: present.reduce((s, p) => s + p.kg * p.costPerKg!, 0) / totalKg } : {}),
  }
}
