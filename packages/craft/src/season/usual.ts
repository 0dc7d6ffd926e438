import { z } from 'zod'
import { list, quantity, text } from '../schema.ts'
import { recipeSchema, type Recipe } from '../recipe/schema.ts'
import { lookupOf } from '../recipe/lines.ts'
import { materialSchema } from '../materials/schema.ts'

const saved = z.strictObject({
  /** Code of the recipe, and the version it is. */
  recipe: text(80),
  version: quantity('version', { min: 1, max: 1e6 }),
  body: recipeSchema,
  /** Batches made of this version; each counts like a version of its own. */
  batches: quantity('batches', { min: 0, max: 1e6 }).optional(),
})

export const usualInput = z.strictObject({
  /** What the record remembers: every version of every recipe. */
  saved: list(saved, { max: 5000 }),
  /** The recipe on the bench, held against it. */
  recipe: recipeSchema.optional(),
  materials: list(materialSchema, { max: 300 }).optional(),
})
export type UsualInput = z.infer<typeof usualInput>

const lineSchema = z.strictObject({
  material: z.string(),
  name: z.string(),
  /** Versions that hold it, and batches made of them. */
  versions: z.number(),
  batches: z.number(),
  lowGPerKg: z.number().optional(),
  usualGPerKg: z.number().optional(),
  highGPerKg: z.number().optional(),
  lastGPerKg: z.number().optional(),
  lastIn: z.string().optional(),
  nowGPerKg: z.number().optional(),
  stands: z.enum(['usual', 'less', 'more', 'new']).optional(),
})
export const usualOutput = z.strictObject({ lines: z.array(lineSchema) })
export type Usual = z.infer<typeof usualOutput>
type Line = z.infer<typeof lineSchema>

/** What is remembered by taste: spices, herbs, and what else seasons. */
const seasons = new Set(['spice', 'herb', 'salt', 'sugar', 'vegetable', 'alcohol', 'smoke', 'acid'])
/** Grams on a kilogram of meat block for a percent of it. */
const G_PER_KG = 10
/** A dose this near the band counts as in it: no tongue tells 5 % apart. Common practice, no source. */
const SLACK = 1.05

type Use = { readonly gPerKg: number; readonly weight: number; readonly at: string; readonly batches: number }

/** The middle dose, each version once and once more for each batch made of it. */
function median(uses: readonly Use[]): number {
  const sorted = uses.toSorted((a, b) => a.gPerKg - b.gPerKg)
  const half = sorted.reduce((s, u) => s + u.weight, 0) / 2
  let sum = 0
  for (const [i, u] of sorted.entries()) {
    sum += u.weight
    if (sum > half) return u.gPerKg
    if (sum === half) return (u.gPerKg + (sorted[i + 1] ?? u).gPerKg) / 2
  }
  return sorted.at(-1)!.gPerKg
}

function doses(recipe: Recipe): Map<string, number> {
  const found = new Map<string, number>()
  for (const a of recipe.additions)
    if (a.pct > 0) found.set(a.material, (found.get(a.material) ?? 0) + a.pct * G_PER_KG)
  return found
}

function standing(now: number, low: number, high: number): Line['stands'] {
  if (now * SLACK < low) return 'less'
  return now > high * SLACK ? 'more' : 'usual'
}

/**
 * What this kitchen is used to: grams of each seasoning on a kilogram of meat over every version saved, and where the recipe on the bench
 * stands against it. No advice of anybody else's taste. Cure is left out: its dose is a matter of rules, not of liking.
 */
export function usualDoses({ saved: remembered, recipe, materials }: UsualInput): Usual {
  const { find } = lookupOf(materials)
  const uses = new Map<string, Use[]>()
  for (const { recipe: code, version, body, batches = 0 } of remembered)
    for (const [material, gPerKg] of doses(body)) {
      const all = uses.get(material) ?? []
      uses.set(material, all)
      all.push({ gPerKg, weight: 1 + batches, at: `${code} version ${version}`, batches })
    }
  const now = recipe ? doses(recipe) : new Map<string, number>()
  const asked = recipe ? [...now.keys()] : [...uses.keys()]
  const lines = asked.flatMap((id): Line[] => {
    const material = find(id)
    if (!material || !seasons.has(material.category)) return []
    const all = uses.get(id) ?? []
    const given = now.get(id)
    const base = {
      material: id,
      name: material.name,
      versions: all.length,
      batches: all.reduce((s, u) => s + u.batches, 0),
      ...(given === undefined ? {} : { nowGPerKg: given }),
    }
    if (all.length === 0) return [{ ...base, ...(given === undefined ? {} : { stands: 'new' as const }) }]
    const [low, high] = [Math.min(...all.map((u) => u.gPerKg)), Math.max(...all.map((u) => u.gPerKg))]
    const last = all.at(-1)!
    const stands = given === undefined ? undefined : standing(given, low, high)
    return [
      {
        ...base,
        lowGPerKg: low,
        usualGPerKg: median(all),
        highGPerKg: high,
        lastGPerKg: last.gPerKg,
        lastIn: last.at,
        ...(stands === undefined ? {} : { stands }),
      },
    ]
  })
  return { lines }
}
