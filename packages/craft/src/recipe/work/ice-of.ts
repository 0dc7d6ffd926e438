import { z } from 'zod'
import { thermalComposition } from '../../heat/properties.ts'
import { ice, iceInput, iceOutput, type IceOutput } from '../../mix/ice.ts'
import { quantity } from '../../schema.ts'
import type { RecipeComputed } from '../compute-schema.ts'
import type { Part } from '../lines.ts'
import type { Recipe } from '../schema.ts'

/** Temperature the dry parts are taken to have where none is given. */
const DRY_C = 20

export const iceConditions = z.strictObject({
  meatC: quantity('°C', { min: -40, max: 60 }),
  waterC: iceInput.shape.waterTempC,
  targetC: iceInput.shape.targetC,
  iceC: iceInput.shape.iceTempC,
  dryC: quantity('°C', { min: -40, max: 60 }).optional(),
  /** Heat of chopping and mixing that stays in a kg of mix. */
  workKjPerKg: quantity('kJ/kg', { min: 0, max: 1000 }).optional(),
})
export type IceConditions = z.infer<typeof iceConditions>

export const iceOfOutput = z.union([
  z.strictObject({
    known: z.literal(true),
    ...iceOutput.shape,
    /** Parts whose composition no source gives: left out of the balance, by name. */
    leftOut: z.array(z.string()),
  }),
  z.strictObject({ known: z.literal(false), because: z.string() }),
])
export type IceOf = z.infer<typeof iceOfOutput>

const figures = (c: Part['composition']) => {
  const { waterPct, proteinPct, fatPct, carbohydratePct, ashPct, saltPct } = c
  const sum =
    (waterPct ?? 0) + (proteinPct ?? 0) + (fatPct ?? 0) + (carbohydratePct ?? 0) + Math.max(ashPct ?? 0, saltPct ?? 0)
  // Tables give independent means; a sum a little over 100 is shared back.
  const fit = sum > 100 ? 100 / sum : 1
  return Object.fromEntries(
    Object.entries({ waterPct, proteinPct, fatPct, carbohydratePct, ashPct, saltPct }).flatMap(([k, v]) =>
      v === undefined ? [] : [[k, v * fit]],
    ),
  )
}

/** The ice of a recipe at its size: its meats at one temperature, dry parts at the room's, all its water as water or ice. */
export function iceOf(
  recipe: Recipe,
  parts: readonly Part[],
  { totals, cure }: Pick<RecipeComputed, 'totals' | 'cure'>,
  at: IceConditions,
): IceOf {
  const waterKg = parts.reduce((s, p) => (p.material.category === 'water' ? s + p.kg : s), 0)
  if (waterKg === 0) return { known: false, because: 'the recipe adds no water, so there is none to add as ice' }
  const schema = thermalComposition()
  const leftOut: string[] = []
  const balance = parts.flatMap((p) => {
    // Salt and cure enter as dissolving salt, water as water.
    if (p.kg === 0 || ['water', 'salt', 'cure'].includes(p.material.category)) return []
    const composition = schema.safeParse(figures(p.composition)).data
    if (!composition) {
      leftOut.push(p.material.name)
      return []
    }
    return [{ kg: p.kg, tempC: p.role === 'meat' ? at.meatC : (at.dryC ?? DRY_C), composition }]
  })
  if (balance.length === 0) return { known: false, because: `no composition is known of ${leftOut.join(', ')}` }
  const out: IceOutput = ice({
    parts: balance.slice(0, 60),
    waterKg,
    waterTempC: at.waterC,
    targetC: at.targetC,
    workKj: (at.workKjPerKg ?? 0) * totals.totalKg,
    saltKg: cure.addedSaltKg,
    kind: recipe.kind,
    ...(at.iceC === undefined ? {} : { iceTempC: at.iceC }),
  })
  return { known: true, ...out, leftOut }
}
