import { z } from 'zod'
import { isoDate, list, money, text } from '../../schema.ts'
import { computeRecipe } from '../compute.ts'
import { recipeComputeInput } from '../compute-schema.ts'

export const costOverTimeInput = z.strictObject({
  ...recipeComputeInput.pick({ recipe: true, meatKg: true, materials: true }).shape,
  /** Prices as they came, each from its day on until the next of the same material. */
  prices: list(z.strictObject({ material: text(60), costPerKg: money(), on: isoDate() }), { min: 1, max: 5000 }),
})
export type CostOverTimeInput = z.infer<typeof costOverTimeInput>

export const costOverTimeOutput = z.strictObject({
  days: z.array(
    z.strictObject({
      on: z.string(),
      perKgRaw: z.number().optional(),
      perKgFinished: z.number().optional(),
      /** What changed on the day, and what it added to a kg of raw mix; the largest first. */
      changes: z.array(
        z.strictObject({
          material: z.string(),
          before: z.number().optional(),
          after: z.number(),
          perKgRaw: z.number(),
        }),
      ),
      unpriced: z.array(z.string()),
    }),
  ),
})
export type CostOverTime = z.infer<typeof costOverTimeOutput>

/** What a recipe's materials cost by the price list of each day on which a price of one of them changed. */
export function costOverTime({ recipe, meatKg, materials, prices }: CostOverTimeInput): CostOverTime {
  const made = computeRecipe({ recipe, meatKg, ...(materials ? { materials } : {}) })
  const kgOf = new Map<string, number>()
  for (const l of made.lines) if (l.kg > 0) kgOf.set(l.material, (kgOf.get(l.material) ?? 0) + l.kg)
  const { totalKg, finishedKg } = made.totals
  const now = new Map<string, number>()
  const days = Map.groupBy(
    prices.filter((p) => kgOf.has(p.material)).toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0)),
    (p) => p.on,
  )
  return {
    days: [...days].flatMap(([on, today]) => {
      const changes = [...new Map(today.map((p) => [p.material, p.costPerKg]))].flatMap(([material, after]) => {
        const before = now.get(material)
        now.set(material, after)
        if (before === after) return []
        const perKgRaw = ((after - (before ?? 0)) * kgOf.get(material)!) / totalKg
        return [{ material, ...(before === undefined ? {} : { before }), after, perKgRaw }]
      })
      if (changes.length === 0) return []
      const unpriced = [...kgOf.keys()].filter((m) => !now.has(m))
      const total = [...kgOf].reduce((s, [m, kg]) => s + kg * (now.get(m) ?? 0), 0)
      return [
        {
          on,
          ...(unpriced.length > 0
            ? {}
            : {
                perKgRaw: total / totalKg,
                ...(finishedKg === undefined ? {} : { perKgFinished: total / finishedKg }),
              }),
          changes: changes.toSorted((a, b) => Math.abs(b.perKgRaw) - Math.abs(a.perKgRaw)),
          unpriced,
        },
      ]
    }),
  }
}
