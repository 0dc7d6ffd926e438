import { dayAfter, daysBetween } from '@forcemeat/craft/plan/day'
import type { PlanInput } from '@forcemeat/craft/plan/schema'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { ResourceFacts, RoomFacts } from '@forcemeat/ledger'
import type { Lead, UnderWay } from './under-way.ts'

/** All drying rooms together, as one thing the plan takes room of, in kg as stuffed. */
export const dryingRooms = '(drying rooms)'

type Use = PlanInput['products'][number]['uses'][number]
type Resource = PlanInput['resources'][number]

/** What a kilogram of a recipe's mix takes of each resource: the line for the recipe, else for its kind, else for all. */
export function usesOf(
  recipe: string,
  body: Recipe,
  lead: Lead,
  resources: readonly ResourceFacts[],
  rooms: readonly RoomFacts[],
): Use[] {
  const own = resources.flatMap(({ resource, takes }): Use[] => {
    const line =
      takes.find((t) => t.of === 'recipe' && t.recipe === recipe) ??
      takes.find((t) => t.of === body.kind) ??
      takes.find((t) => t.of === 'all')
    if (!line || line.perKg === 0) return []
    return [
      {
        resource,
        perMixKg: line.perKg,
        ...(line.fromDay === undefined ? {} : { fromDay: line.fromDay }),
        ...(line.forDays === undefined ? {} : { forDays: line.forDays }),
      },
    ]
  })
  const dries = body.dry !== undefined && lead.days > lead.dryFrom
  return dries && capacityOf(rooms) !== undefined
    ? [...own, { resource: dryingRooms, perMixKg: 1, fromDay: lead.dryFrom, forDays: lead.days - lead.dryFrom }]
    : own
}

/** Kg the drying rooms hold; undefined where one does not say, for then nobody knows. */
export function capacityOf(rooms: readonly RoomFacts[]): number | undefined {
  const drying = rooms.filter((r) => r.purpose === 'dry' && !r.retired)
  if (drying.length === 0 || drying.some((r) => r.capacityKg === undefined)) return undefined
  return drying.reduce((s, r) => s + r.capacityKg!, 0)
}

/** What batches under way take of a resource from a day on. */
function takenOf(
  id: string,
  from: string,
  horizon: number,
  batches: readonly UnderWay[],
  usesBy: (b: UnderWay) => readonly Use[],
): NonNullable<Resource['taken']> {
  const days = new Map<number, number>()
  for (const b of batches)
    for (const u of usesBy(b)) {
      if (u.resource !== id) continue
      const first = daysBetween(from, b.on) + (u.fromDay ?? 0)
      // What dries takes its room until it is ready, by its own date.
      const until = id === dryingRooms ? daysBetween(from, b.ready) : first + (u.forDays ?? 1)
      for (let d = Math.max(0, first); d < Math.min(until, horizon); d++)
        days.set(d, (days.get(d) ?? 0) + u.perMixKg * b.mixKg)
    }
  return [...days].map(([d, amount]) => ({ day: dayAfter(from, d), amount }))
}

/** The kitchen's resources for a plan, less what is taken already. */
export function resourcesFor(
  from: string,
  horizon: number,
  resources: readonly ResourceFacts[],
  rooms: readonly RoomFacts[],
  batches: readonly UnderWay[],
): Resource[] {
  const standing = resources.filter((r) => !r.retired)
  const usesBy = (b: UnderWay) => usesOf(b.recipe, b.record.recipeBody, b.lead, standing, rooms)
  const room = capacityOf(rooms)
  return [
    ...standing.map((r) => ({ id: r.resource, perDay: r.perDay, unit: r.unit })),
    ...(room === undefined ? [] : [{ id: dryingRooms, perDay: room, unit: 'kg' }]),
  ].map((r) => {
    const taken = takenOf(r.id, from, horizon, batches, usesBy)
    return taken.length > 0 ? { ...r, taken } : r
  })
}
