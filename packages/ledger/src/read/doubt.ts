import type { Store } from '../dialect/store.ts'
import { batchesNamed, slowAmong, type BatchFacts } from './batches.ts'
import { checkedInstruments, proving, type JudgedCheck } from './checks.ts'
import { factsOf, type RecordedFact } from './facts-of.ts'
import { usedInSpan, type Used } from './used-in-span.ts'

/** An instrument found out of tolerance after it was used, and since when nobody knows. */
export type Doubt = {
  readonly instrument: string
  /** Entry of the check that found it, its day, and how far it was off. */
  readonly check: number
  readonly found: string
  readonly error: number
  readonly unit: string
  readonly tolerance: number
  /** Day of its last good check; absent where it never had one. */
  readonly since?: string
}

const byDay = (checks: readonly JudgedCheck[]): JudgedCheck[] =>
  checks.toSorted((a, b) => a.on.localeCompare(b.on) || a.root - b.root)

/** Spans in which an instrument is not to be believed: from its last good check to the one that found it wrong. */
export function doubtsOf(checks: readonly JudgedCheck[]): Doubt[] {
  let last: JudgedCheck | undefined
  const found: Doubt[] = []
  let open = false
  for (const c of byDay(proving(checks))) {
    if (c.withinTolerance) {
      last = c
      open = false
    } else if (!open) {
      open = true
      found.push({
        instrument: c.instrument,
        check: c.seq,
        found: c.on,
        error: c.error,
        unit: c.unit,
        tolerance: c.allowed,
        ...(last ? { since: last.on } : {}),
      })
    }
  }
  return found
}

export type Settled = RecordedFact<'doubt.settle'>
export type Touched = Doubt & { readonly batches: readonly (BatchFacts & { readonly settled?: Settled })[] }

/** The batches that rest on what was used in the span: by the days of use, and of their meat too where a cook alone does not make them safe. */
async function restingOn(store: Store, used: Used): Promise<BatchFacts[]> {
  const candidates = await batchesNamed(store, [...new Set([...used.byUse, ...used.byMeat])])
  const cooked = candidates.filter((b) => b.recipeKind === 'cooked' && !used.byUse.has(b.batch)).map((b) => b.batch)
  const slow = cooked.length === 0 ? new Set<string>() : await slowAmong(store, cooked)
  return candidates.filter((b) => used.byUse.has(b.batch) || b.recipeKind !== 'cooked' || slow.has(b.batch))
}

/** Every batch that used an instrument in a span of doubt, with what was said of each. Of one instrument, or of all. */
export async function touchedByDoubt(store: Store, only?: string): Promise<Touched[]> {
  const answer: Touched[] = []
  for (const { instrument: of, checks: mine } of await checkedInstruments(store, only)) {
    const { instrument } = of
    const doubts = doubtsOf(mine)
    if (doubts.length === 0) continue
    for (const d of doubts) {
      const used = await usedInSpan(store, instrument, d)
      const resting = await restingOn(store, used)
      const codes = resting.map((b) => b.batch)
      const settled = (await factsOf(store, 'doubt.settle', codes)).filter(
        (s) => s.instrument === instrument && s.check === d.check,
      )
      const batches = resting.map((b) => {
        const said = settled.findLast((s) => s.batch === b.batch)
        return said ? { ...b, settled: said } : b
      })
      answer.push({ ...d, batches })
    }
  }
  return answer
}
