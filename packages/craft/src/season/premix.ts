import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { strengthOf } from '../cure/agent.ts'
import { acceleratorCaution, nitriteCaution, spiceCaution } from '../cure/caution.ts'
import { preblend, preblendOutput } from '../cure/preblend.ts'
import { scaleSchema } from '../cure/scale-error.ts'
import { list, massG, quantity, text } from '../schema.ts'
import { computeRecipe } from '../recipe/compute.ts'
import { recipeComputeInput } from '../recipe/compute-schema.ts'
import { lookupOf } from '../recipe/lines.ts'
import { portionOf, type PremixScale } from './portion.ts'

const premixScale = z.strictObject({ ...scaleSchema.shape, id: text(80), capacityG: massG().optional() })

export const premixInput = z.strictObject({
  ...recipeComputeInput.pick({ recipe: true, materials: true }).shape,
  /** Meat block of one batch. */
  meatKg: recipeComputeInput.shape.meatKg,
  batches: quantity('batches', { min: 1, max: 1000 }),
  scales: list(premixScale, { min: 1, max: 20 }),
})
export type PremixInput = z.infer<typeof premixInput>

const portionSchema = z.strictObject({
  kg: z.number(),
  toleranceG: z.number(),
  scale: z.string().optional(),
  fit: z.boolean(),
})
const lineSchema = z.strictObject({
  material: z.string(),
  name: z.string(),
  gPerKg: z.number(),
  /** In one batch, weighed alone. */
  alone: portionSchema,
  /** In the pre-mix, for all batches. */
  together: portionSchema,
  allergens: z.array(z.string()),
})
export const premixOutput = z.strictObject({
  batches: z.number(),
  spice: z.strictObject({
    lines: z.array(lineSchema),
    totalKg: z.number(),
    /** Pre-mix to weigh for one batch. */
    perBatch: portionSchema,
  }),
  cure: z.union([
    z.strictObject({ made: z.literal(true), agent: z.string(), name: z.string(), sheet: preblendOutput }),
    z.strictObject({ made: z.literal(false), because: z.string() }),
  ]),
  /** Weighed for each batch on its own, and why. */
  apart: z.array(z.strictObject({ material: z.string(), name: z.string(), alone: portionSchema, because: z.string() })),
  advice: z.array(z.string()),
  cautions: z.array(z.string()),
})
export type Premix = z.infer<typeof premixOutput>

/** Dry and keeping: may wait together in one bag. */
const dryCategories = new Set(['spice', 'herb', 'sugar'])

/**
 * The sheets that make many batches quick and even: all dry seasonings of one recipe in one bag, and the cure in the recipe's salt in
 * another. Cure and spice never share a bag, accelerators and cultures go in on their own, and liquids wait for the batch.
 * @throws InvalidInput where `batches` is not whole or a material is not known
 */
export function premix({ recipe, materials, meatKg, batches, scales }: PremixInput): Premix {
  if (!Number.isInteger(batches))
    throw new InvalidInput([
      { path: 'batches', message: `is ${batches}; allowed: a whole number of batches, 1 to 1000` },
    ])
  const made = computeRecipe({ recipe, meatKg, ...(materials ? { materials } : {}) })
  const { find } = lookupOf(materials)
  const dry = made.lines.filter((l) => l.role === 'addition' && l.kg > 0)
  const spices = dry.filter((l) => dryCategories.has(l.category) && find(l.material)?.agent === undefined)
  const lines = spices.map((l) => ({
    material: l.material,
    name: l.name,
    gPerKg: l.pctOfMeat * 10,
    alone: portionOf(l.kg, scales),
    together: portionOf(l.kg * batches, scales),
    allergens: [...(find(l.material)?.allergens ?? [])],
  }))
  const perBatchKg = spices.reduce((s, l) => s + l.kg, 0)
  const taken = new Set(spices)
  const cure = cureBlend()
  const apart = dry.flatMap((l) => {
    const agent = find(l.material)?.agent
    const strength = agent && strengthOf(agent)
    const cures = strength !== undefined && (strength.nitrite > 0 || strength.nitrate > 0)
    if (taken.has(l) || l.category === 'water' || (cure.made && (cures || l.category === 'salt'))) return []
    return [
      { material: l.material, name: l.name, alone: portionOf(l.kg, scales), because: why(l.category, cures, strength) },
    ]
  })
  const helped = lines.filter((l) => !l.alone.fit && l.together.fit).map((l) => l.name)
  return {
    batches,
    spice: { lines, totalKg: perBatchKg * batches, perBatch: portionOf(perBatchKg, scales) },
    cure,
    apart,
    advice: [
      ...(lines.length > 0
        ? [
            'Sift what is finest in first and last, and turn the closed bag end over end until no streak shows; turn it again before each use, since coarse and fine part in a drum.',
          ]
        : []),
      ...(helped.length > 0
        ? [`Too little for the scales in one batch, fit in the pre-mix: ${helped.join(', ')}.`]
        : []),
    ],
    cautions: [
      ...(dry.some((l) => hasCure(l.material)) ? [nitriteCaution, spiceCaution] : []),
      ...(apart.some((a) => a.because.startsWith('an accelerator')) ? [acceleratorCaution] : []),
    ],
  }

  function hasCure(id: string): boolean {
    const agent = find(id)?.agent
    const s = agent && strengthOf(agent)
    return s !== undefined && (s.nitrite > 0 || s.nitrate > 0)
  }

  function cureBlend(): Premix['cure'] {
    const cures = dry.filter((l) => hasCure(l.material))
    const [one] = cures
    if (!one) return { made: false, because: 'the recipe holds no cure' }
    if (cures.length > 1) return { made: false, because: `${cures.length} cures: each is weighed on its own` }
    const agent = find(one.material)!.agent!
    if (strengthOf(agent).nitrite === 0)
      return { made: false, because: 'the cure holds nitrate alone: it is weighed on its own' }
    const band = recipe.nitriteTarget
    if (!band) return { made: false, because: 'the recipe states no band of ingoing nitrite to hold the blend to' }
    const salt = dry.filter((l) => l.category === 'salt').reduce((s, l) => s + l.kg, 0)
    const totalSaltKg = salt + one.kg * strengthOf(agent).salt
    if (!(totalSaltKg > 0)) return { made: false, because: 'there is no salt to blend the cure into' }
    const finest = finestFor(scales)
    const sheet = preblend({
      basisKg: meatKg,
      targetNitritePpm: (one.kg * strengthOf(agent).nitrite * 1e6) / meatKg,
      agent: { composition: agent },
      totalSaltKg,
      batches,
      blendScale: finest((one.kg * batches + salt * batches) * 1000),
      batchScale: finest((one.kg + salt) * 1000),
      target: band,
    })
    return { made: true, agent: one.material, name: one.name, sheet }
  }
}

/** The finest scale that carries a load; the finest there is where none does. */
const finestFor =
  (scales: readonly PremixScale[]) =>
  (grams: number): { readabilityG: number; toleranceG?: number } => {
    const fine = scales.toSorted((a, b) => a.readabilityG - b.readabilityG)
    const s = fine.find((x) => x.capacityG === undefined || grams <= x.capacityG) ?? fine.at(-1)!
    return { readabilityG: s.readabilityG, ...(s.toleranceG === undefined ? {} : { toleranceG: s.toleranceG }) }
  }

function why(category: string, cures: boolean, strength: ReturnType<typeof strengthOf> | undefined): string {
  if (cures) return 'a cure: weighed for each batch, apart from spices'
  if (strength && (strength.erythorbate > 0 || strength.ascorbate > 0)) return 'an accelerator: never stored with cure'
  if (category === 'culture') return 'a culture: salt and spice in a bag harm it'
  if (category === 'salt') return 'salt: weighed for each batch'
  if (category === 'phosphate') return 'a phosphate: dissolved or strewn in first, on its own'
  return 'weighed for each batch'
}
