import { z } from 'zod'
import { defineCalculation, InvalidInput } from '../../calculation.ts'
import { list, massKgOrNone, text } from '../../schema.ts'
import { recipeSchema, type Recipe } from '../schema.ts'

export const meatSharesInput = z.strictObject({
  recipe: recipeSchema,
  /** Meat as blended or weighed; several lots of one material add up. */
  meat: list(z.strictObject({ material: text(60), kg: massKgOrNone() }), { min: 1, max: 500 }),
})
export type MeatSharesInput = z.infer<typeof meatSharesInput>

/** Shares no scale sees beyond. */
const PLACES = 6

/**
 * The recipe with its meat block in the shares of these weights; what rounding leaves over goes to the largest part. Notes and bounds of meats
 * that stay are kept.
 * @throws InvalidInput where the weights are nothing in all
 */
export function withMeatShares({ recipe, meat }: MeatSharesInput): { recipe: Recipe } {
  const kgOf = new Map<string, number>()
  for (const m of meat) if (m.kg > 0) kgOf.set(m.material, (kgOf.get(m.material) ?? 0) + m.kg)
  const total = [...kgOf.values()].reduce((s, kg) => s + kg, 0)
  if (total === 0)
    throw new InvalidInput([{ path: 'meat', message: 'has no mass in all; allowed: at least one part above 0 kg' }])
  const parts = [...kgOf].map(([material, kg]) => ({
    ...recipe.meat.find((m) => m.material === material),
    material,
    pct: Number(((100 * kg) / total).toFixed(PLACES)),
  }))
  const largest = parts.reduce((a, b) => (b.pct > a.pct ? b : a))
  const rest = 100 - parts.reduce((s, p) => s + p.pct, 0)
  return {
    recipe: {
      ...recipe,
      meat: parts.map((p) => (p === largest ? { ...p, pct: Number((p.pct + rest).toFixed(PLACES)) } : p)),
    },
  }
}

export const meatSharesCalculation = defineCalculation({
  name: 'recipe.meat-shares',
  title: 'A meat block from weights',
  summary:
    'The recipe with its meat block in the shares of the weights given: what a blend chose, or what was weighed.',
  input: meatSharesInput,
  output: z.strictObject({ recipe: recipeSchema }),
  sources: [
    {
      document: 'Shares of a whole',
      section: 'each part over the sum',
      edition: 'computed here',
      mark: 'computed',
    },
  ],
  example: {
    recipe: {
      name: 'Coarse',
      kind: 'fresh',
      smoked: false,
      readyToEat: false,
      meat: [{ material: 'pork-butt', pct: 100 }],
      additions: [{ material: 'salt', pct: 1.6 }],
    },
    meat: [
      { material: 'pork-butt', kg: 6.2 },
      { material: 'pork-back-fat', kg: 1.8 },
    ],
  },
  compute: withMeatShares,
})
