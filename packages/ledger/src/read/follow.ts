import type { Store } from '../dialect/store.ts'
import { kilograms } from '../views/project.ts'
import { inParts } from './in-parts.ts'

/** One step of a trace: from a lot into a batch or a part of it, from a batch into rework. */
export type Step = {
  readonly from: { readonly type: 'lot' | 'batch'; readonly id: string }
  readonly to: { readonly type: 'lot' | 'batch'; readonly id: string }
  readonly kg: number
}

/** Everything reached, each with how many steps away it lies, and the steps between. */
export type Followed = {
  readonly lots: ReadonlyMap<string, number>
  readonly batches: ReadonlyMap<string, number>
  readonly steps: readonly Step[]
}

type Row = { from: string; to: string; mg: number }

const sums = (store: Store, by: 'lot' | 'batch', ids: readonly string[]): Promise<Row[]> =>
  store.read
    .selectFrom('movement as m')
    .select((e) => [
      by === 'lot' ? 'm.lot as from' : e.ref('m.batch').$notNull().as('from'),
      by === 'lot' ? e.ref('m.batch').$notNull().as('to') : 'm.lot as to',
      e.fn.sum<number>('m.mg').as('mg'),
    ])
    .where(by === 'lot' ? 'm.lot' : 'm.batch', 'in', ids)
    .where('m.batch', 'is not', null)
    .groupBy(['m.lot', 'm.batch'])
    .execute()

const origins = (store: Store, by: 'from_lot' | 'from_batch' | 'lot', ids: readonly string[]) =>
  store.read.selectFrom('origin').select(['lot', 'from_lot', 'from_batch', 'mg']).where(by, 'in', ids).execute()

async function neighbours(
  store: Store,
  way: 'forward' | 'back',
  lots: readonly string[],
  batches: readonly string[],
): Promise<Step[]> {
  const steps: Step[] = []
  const at = (type: 'lot' | 'batch', id: string) => ({ type, id })
  const by = way === 'forward' ? 'lot' : 'batch'
  for (const r of await inParts(way === 'forward' ? lots : batches, (part) => sums(store, by, part))) {
    const [lot, batch] = way === 'forward' ? [r.from, r.to] : [r.to, r.from]
    steps.push({ from: at('lot', lot), to: at('batch', batch), kg: kilograms(-r.mg) })
  }
  const arise = async (by: 'from_lot' | 'from_batch' | 'lot', ids: readonly string[]) => {
    for (const o of await inParts(ids, (part) => origins(store, by, part)))
      steps.push({
        from: o.from_lot === null ? at('batch', o.from_batch!) : at('lot', o.from_lot),
        to: at('lot', o.lot),
        kg: kilograms(o.mg),
      })
  }
  if (way === 'forward') {
    await arise('from_lot', lots)
    await arise('from_batch', batches)
  } else await arise('lot', lots)
  return steps
}

/**
 * Follow lots and batches through weighings, splits and rework, level by level: forward to what was made of them, or back to what they
 * were made of. Each thing is visited once, so rework that goes round in a ring ends.
 */
export async function follow(
  store: Store,
  way: 'forward' | 'back',
  start: { readonly lots?: readonly string[]; readonly batches?: readonly string[] },
): Promise<Followed> {
  const seen = { lot: new Map<string, number>(), batch: new Map<string, number>() }
  const steps = new Map<string, Step>()
  let edge = { lot: [...(start.lots ?? [])], batch: [...(start.batches ?? [])] }
  for (const l of edge.lot) seen.lot.set(l, 0)
  for (const b of edge.batch) seen.batch.set(b, 0)
  for (let level = 1; edge.lot.length + edge.batch.length > 0; level += 1) {
    const found = await neighbours(store, way, edge.lot, edge.batch)
    edge = { lot: [], batch: [] }
    for (const step of found) {
      steps.set(`${step.from.type}:${step.from.id}>${step.to.type}:${step.to.id}`, step)
      const next = way === 'forward' ? step.to : step.from
      if (seen[next.type].has(next.id)) continue
      seen[next.type].set(next.id, level)
      edge[next.type].push(next.id)
    }
  }
  return { lots: seen.lot, batches: seen.batch, steps: [...steps.values()] }
}
