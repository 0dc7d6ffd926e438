import { amount } from '../cure/amount.ts'
import type { Material } from '../materials/schema.ts'
import type { Recipe } from './schema.ts'

const carriesNitrite = (m: Material | undefined): boolean =>
  (m?.agent?.sodiumNitritePct ?? 0) + (m?.agent?.potassiumNitritePct ?? 0) > 0

/**
 * Least and most of the one nitrite agent of a batch, kg, that keep its ingoing nitrite in the band the recipe means to hit. Undefined where
 * the recipe names no band, the cure is not mixed in, or more than one line carries nitrite: then no weight alone decides.
 * @param of the agent asked about
 * @param lines materials of all lines of the batch
 */
export function cureBand(
  { nitriteTarget, route = 'comminuted' }: Pick<Recipe, 'nitriteTarget' | 'route'>,
  of: Material | undefined,
  lines: readonly (Material | undefined)[],
  meatKg: number,
): { readonly lowKg: number; readonly highKg: number } | undefined {
  const composition = of?.agent
  if (!nitriteTarget || !composition || !carriesNitrite(of) || route !== 'comminuted') return undefined
  if (lines.filter(carriesNitrite).length !== 1) return undefined
  const kgAt = (targetNitritePpm: number) =>
    amount({ route, basisKg: meatKg, targetNitritePpm, agent: { composition } }).agentKg
  return { lowKg: kgAt(nitriteTarget.lowPpm), highKg: kgAt(nitriteTarget.highPpm) }
}
