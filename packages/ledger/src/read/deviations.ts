import type { Store } from '../dialect/store.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'

/** A deviation with what was done about it; the newest word on product, cause and prevention counts. */
export type Deviation = RecordedFact<'deviation.open'> & {
  readonly acts: readonly RecordedFact<'deviation.act'>[]
  readonly product?: string
  readonly cause?: string
  readonly prevention?: string
  readonly closed?: RecordedFact<'deviation.close'>
}

/** Deviations, the newest first: of one code, or all. */
export async function deviationsOf(store: Store, only?: string): Promise<Deviation[]> {
  const [opened, acts, closed] = await Promise.all([
    factsOf(store, 'deviation.open', only),
    factsOf(store, 'deviation.act', only),
    factsOf(store, 'deviation.close', only),
  ])
  const done = Map.groupBy(acts, (a) => a.deviation)
  const ends = new Map(closed.map((c) => [c.deviation, c]))
  return opened.toReversed().map((d) => {
    const mine = done.get(d.deviation) ?? []
    const newest = (of: 'product' | 'cause' | 'prevention') => {
      const text = mine.findLast((a) => a[of] !== undefined)?.[of]
      return text === undefined ? {} : { [of]: text }
    }
    const end = ends.get(d.deviation)
    return {
      ...d,
      acts: mine,
      ...newest('product'),
      ...newest('cause'),
      ...newest('prevention'),
      ...(end ? { closed: end } : {}),
    }
  })
}
