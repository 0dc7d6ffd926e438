import { z } from 'zod'
import { components } from '../blend/composition-of.ts'
import { massKg } from '../schema.ts'
import { computeRecipe } from './compute.ts'
import { recipeComputeInput, type MeasureOut, type RecipeComputed } from './compute-schema.ts'
import { recipeSchema, type Recipe } from './schema.ts'

export const recipeCompareInput = z.strictObject({
  before: recipeSchema,
  after: recipeSchema,
  meatKg: massKg(),
  materials: recipeComputeInput.shape.materials,
  lots: recipeComputeInput.shape.lots,
  prices: recipeComputeInput.shape.prices,
})
export type RecipeCompareInput = z.infer<typeof recipeCompareInput>

const value = z.union([z.string(), z.number(), z.boolean()])
const figure = z.strictObject({
  name: z.string(),
  before: z.number().optional(),
  after: z.number().optional(),
  change: z.number().optional(),
})
export const recipeCompareOutput = z.strictObject({
  fields: z.array(z.strictObject({ path: z.string(), before: value.optional(), after: value.optional() })),
  composition: z.array(figure),
  measures: z.array(figure),
  cost: z.array(figure),
})
export type RecipeCompared = z.infer<typeof recipeCompareOutput>
type Value = z.infer<typeof value>

/** Every field of a recipe by its path; parts by their material and limits by what they are on, so that order is no difference. */
function flat(recipe: Recipe): Map<string, Value> {
  const fields = new Map<string, Value>()
  const walk = (path: string, v: unknown): void => {
    if (v === undefined || v === null) return
    if (Array.isArray(v)) {
      const seen = new Map<string, number>()
      v.forEach((item: unknown, i) => {
        const named =
          typeof item === 'object' && item !== null
            ? ((item as Record<string, unknown>)['material'] ?? (item as Record<string, unknown>)['of'])
            : undefined
        const name = typeof named === 'string' ? named : String(i)
        const again = seen.get(name) ?? 0
        seen.set(name, again + 1)
        walk(`${path}[${again === 0 ? name : `${name} ${again + 1}`}]`, item)
      })
    } else if (typeof v === 'object') for (const [k, inner] of Object.entries(v)) walk(path ? `${path}.${k}` : k, inner)
    else fields.set(path, v as Value)
  }
  walk('', recipe)
  return fields
}

const figureOf = (name: string, before: number | undefined, after: number | undefined): z.infer<typeof figure> => ({
  name,
  ...(before === undefined ? {} : { before }),
  ...(after === undefined ? {} : { after }),
  ...(before === undefined || after === undefined ? {} : { change: after - before }),
})
const valueOf = (m: MeasureOut | undefined): number | undefined => (m && 'value' in m ? m.value : undefined)
/** Floating sums differ in the last digits without anything having changed. */
const moved = (f: z.infer<typeof figure>): boolean =>
  f.change === undefined ? f.before !== f.after : Math.abs(f.change) > 1e-9

/** Two versions of a recipe, field by field, and what the differences do to composition, cure and cost at one size. */
export function compareRecipes({ before, after, ...rest }: RecipeCompareInput): RecipeCompared {
  const [a, b] = [flat(before), flat(after)]
  const paths = [...new Set([...a.keys(), ...b.keys()])].toSorted()
  const fields = paths.flatMap((path) => {
    const [x, y] = [a.get(path), b.get(path)]
    return x === y
      ? []
      : [{ path, ...(x === undefined ? {} : { before: x }), ...(y === undefined ? {} : { after: y }) }]
  })
  const [m, n] = [computeRecipe({ ...rest, recipe: before }), computeRecipe({ ...rest, recipe: after })]
  const names = [...new Set([...Object.keys(m.measures), ...Object.keys(n.measures)])]
  const cost = (c: RecipeComputed) => ({
    total: c.cost.total,
    perKgRaw: c.cost.perKgRaw,
    perKgFinished: c.cost.perKgFinished,
  })
  return {
    fields,
    composition: components.map((c) => figureOf(c, m.composition[c], n.composition[c])).filter(moved),
    measures: names.map((k) => figureOf(k, valueOf(m.measures[k]), valueOf(n.measures[k]))).filter(moved),
    cost: (['total', 'perKgRaw', 'perKgFinished'] as const)
      .map((k) => figureOf(k, cost(m)[k], cost(n)[k]))
      .filter(moved),
  }
}
