import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { list, massG, massKg, massKgOrNone, quantity, text } from '../schema.ts'
import { lossOf } from './measures.ts'
import { recipeSchema } from './schema.ts'

const size = z.union([
  z.strictObject({ meatKg: massKg() }),
  z.strictObject({ mixKg: massKg() }),
  z.strictObject({ finishedKg: massKg() }),
  /** Links as stuffed, raw; `linkG` where the recipe's casing says none. */
  z.strictObject({ links: quantity('links', { min: 1, max: 10_000_000 }), linkG: massG().optional() }),
  z.strictObject({ stock: list(z.strictObject({ material: text(60), kg: massKgOrNone() }), { min: 1, max: 300 }) }),
])

export const recipeScaleInput = z.strictObject({ recipe: recipeSchema, to: size })
export type RecipeScaleInput = z.infer<typeof recipeScaleInput>

export const recipeScaleOutput = z.strictObject({
  meatKg: z.number(),
  mixKg: z.number(),
  finishedKg: z.number().optional(),
  links: z.number().optional(),
  lines: z.array(z.strictObject({ material: z.string(), role: z.enum(['meat', 'addition']), kg: z.number() })),
  /** The material that runs out first, where the size came from stock, and those of the recipe the stock list does not name. */
  limitedBy: z.string().optional(),
  notListed: z.array(z.string()).optional(),
  working: workingSchema,
})
export type RecipeScaled = z.infer<typeof recipeScaleOutput>

const fault = (path: string, message: string): never => {
  throw new InvalidInput([{ path, message }])
}

/** Percent of the meat block each material of the recipe takes in all, meat and additions together. */
function needs(recipe: RecipeScaleInput['recipe']): Map<string, number> {
  const needed = new Map<string, number>()
  for (const { material, pct } of [...recipe.meat, ...recipe.additions])
    if (pct > 0) needed.set(material, (needed.get(material) ?? 0) + pct)
  return needed
}

/** A recipe to a size: meat, mix or finished weight, links, or as much as the stock allows. @throws InvalidInput where the size cannot be had */
export function scaleRecipe({ recipe, to }: RecipeScaleInput): RecipeScaled {
  const mixPerMeat =
    (recipe.meat.reduce((s, m) => s + m.pct, 0) + recipe.additions.reduce((s, a) => s + a.pct, 0)) / 100
  const lossPct = lossOf(recipe)
  const keep = lossPct === undefined ? undefined : 1 - lossPct / 100
  const working: WorkingStep[] = [
    { step: 'mix per kg of meat block', expression: '(meat % + additions %) / 100', value: mixPerMeat, unit: 'kg/kg' },
  ]
  if (keep !== undefined)
    working.push({
      step: 'kept through cooking and drying',
      expression: '(1 − cook loss) × (1 − dry loss)',
      value: keep,
      unit: 'kg/kg',
    })
  const { meatKg, ...more } = meatFor()
  working.push({ step: 'meat block', expression: 'from the size asked for', value: meatKg, unit: 'kg' })
  const mixKg = meatKg * mixPerMeat
  const linkG = 'links' in to ? (to.linkG ?? recipe.casing?.linkG) : recipe.casing?.linkG
  const line = (role: 'meat' | 'addition') => (m: { material: string; pct: number }) => ({
    material: m.material,
    role,
    kg: (meatKg * m.pct) / 100,
  })
  return {
    meatKg,
    mixKg,
    ...(keep === undefined ? {} : { finishedKg: mixKg * keep }),
    ...(linkG === undefined ? {} : { links: Math.floor((mixKg * 1000) / linkG + 1e-9) }),
    lines: [...recipe.meat.map(line('meat')), ...recipe.additions.map(line('addition'))],
    ...more,
    working,
  }

  function meatFor(): { meatKg: number; limitedBy?: string; notListed?: string[] } {
    if ('meatKg' in to) return { meatKg: to.meatKg }
    if ('mixKg' in to) return { meatKg: to.mixKg / mixPerMeat }
    if ('finishedKg' in to) {
      if (keep === undefined)
        return fault(
          'recipe.cook.lossPct',
          'is missing; a finished weight needs the loss in cooking or drying (0 for a fresh sausage)',
        )
      if (keep <= 0) return fault('recipe.cook.lossPct', 'leaves nothing; allowed: less than 100')
      return { meatKg: to.finishedKg / keep / mixPerMeat }
    }
    if ('links' in to) {
      const grams = to.linkG ?? recipe.casing?.linkG
      if (grams === undefined) return fault('to.linkG', "is missing; the recipe's casing states no link weight either")
      return { meatKg: (to.links * grams) / 1000 / mixPerMeat }
    }
    const held = new Map<string, number>()
    for (const s of to.stock) held.set(s.material, (held.get(s.material) ?? 0) + s.kg)
    const needed = [...needs(recipe)]
    const limits = needed.flatMap(([material, pct]) =>
      held.has(material) ? [{ material, meatKg: (held.get(material)! * 100) / pct }] : [],
    )
    const first = limits.toSorted((a, b) => a.meatKg - b.meatKg)[0]
    if (!first) return fault('to.stock', 'names no material of the recipe; allowed: at least one of them')
    if (first.meatKg <= 0)
      return fault('to.stock', `holds no ${first.material}, which the recipe needs; allowed: more than 0 kg`)
    return {
      meatKg: first.meatKg,
      limitedBy: first.material,
      notListed: needed.flatMap(([m]) => (held.has(m) ? [] : [m])),
    }
  }
}
