import type { BatchFacts } from './facts.ts'

/** A lot that is rework, or a part split off rework. */
export type ReworkLot = {
  readonly lot: string
  /** The rework it was split off, where it is a part. */
  readonly of?: string
  /** Day the rework was taken: a part is as old as the whole. */
  readonly on: string
  /** Batch it came out of. */
  readonly batch: string
}

/** Rework among the lots of a batch, by code, followed back through every split. What stands behind a part comes with the facts. */
export function reworkOf({ lots, ancestry }: Pick<BatchFacts, 'lots' | 'ancestry'>): ReadonlyMap<string, ReworkLot> {
  const known = new Map([...(ancestry?.lots ?? []), ...lots].map((l) => [l.lot, l]))
  const found = new Map<string, ReworkLot>()
  for (const { lot } of lots) {
    const seen = new Set<string>()
    let at = known.get(lot)
    while (at?.origin && 'lot' in at.origin && !seen.has(at.lot)) {
      seen.add(at.lot)
      at = known.get(at.origin.lot)
    }
    if (!at?.origin || !('batch' in at.origin)) continue
    found.set(lot, { lot, on: at.on, batch: at.origin.batch, ...(at.lot === lot ? {} : { of: at.lot }) })
  }
  return found
}
