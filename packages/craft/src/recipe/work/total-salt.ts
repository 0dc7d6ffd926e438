import { z } from 'zod'
import { strengthOf } from '../../cure/agent.ts'
import { pct } from '../../schema.ts'
import { recipeComputeInput } from '../compute-schema.ts'
import { lookupOf } from '../lines.ts'
import { recipeSchema } from '../schema.ts'

export const totalSaltInput = z.strictObject({
  ...recipeComputeInput.pick({ recipe: true, materials: true }).shape,
  /** All salt weighed in, that of the cures included, percent of the meat block; without it the plain salt as it stands is meant to be all. */
  totalSaltPct: pct().optional(),
})
export type TotalSaltInput = z.infer<typeof totalSaltInput>

export const totalSaltOutput = z.strictObject({
  possible: z.boolean(),
  because: z.string(),
  totalSaltPct: z.number(),
  /** Percent of the meat block: salt the cures carry, and plain salt that makes up the rest. */
  cureSaltPct: z.number(),
  plainSaltPct: z.number(),
  recipe: recipeSchema.optional(),
})
export type TotalSalt = z.infer<typeof totalSaltOutput>

const shown = (x: number): string => String(Number(x.toPrecision(4)))

/** The recipe with its plain salt set so that salt and cures together come to a total: the cure's own salt is taken out. */
export function withTotalSalt({ recipe, materials, totalSaltPct: wanted }: TotalSaltInput): TotalSalt {
  const { find } = lookupOf(materials)
  const cureSaltPct = recipe.additions.reduce((s, a) => {
    const m = find(a.material)
    return m?.agent ? s + a.pct * strengthOf(m.agent).salt : s
  }, 0)
  const plain = recipe.additions.filter((a) => find(a.material)?.category === 'salt' && !find(a.material)?.agent)
  // Sea salt and the like hold a little water: as much more is weighed.
  const strength = (find(plain[0]?.material ?? 'salt')?.composition.saltPct ?? 100) / 100
  const totalSaltPct = wanted ?? plain.reduce((s, p) => s + p.pct, 0) * strength
  const plainSaltPct = Math.max(0, Number(((totalSaltPct - cureSaltPct) / strength).toFixed(8)))
  const base = { cureSaltPct, plainSaltPct, totalSaltPct }
  if (totalSaltPct < cureSaltPct)
    return {
      ...base,
      possible: false,
      because: `the cures alone carry ${shown(cureSaltPct)} % of salt, more than the ${shown(totalSaltPct)} % asked for`,
    }
  if (plain.length > 1)
    return {
      ...base,
      possible: false,
      because: 'the recipe has more than one line of salt: which is to change is not said',
    }
  const line = plain[0] ?? { material: 'salt', pct: 0 }
  const additions = plain[0]
    ? recipe.additions.map((a) => (a === line ? { ...a, pct: plainSaltPct } : a))
    : [...recipe.additions, { material: 'salt', pct: plainSaltPct }]
  return {
    ...base,
    possible: true,
    because: `${shown(plainSaltPct)} % of plain salt${strength === 1 ? '' : `, which is ${shown(strength * 100)} % salt,`} and ${shown(cureSaltPct)} % from the cures make ${shown(totalSaltPct)} %`,
    recipe: { ...recipe, additions },
  }
}
