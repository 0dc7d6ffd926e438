import type { Fact } from '../facts.ts'
import { fromText } from '../entry.ts'
import type { Store } from '../dialect/store.ts'
import { batchesNamed, slowAmong } from './batches.ts'
import { ofKind, recorded, type RecordedFact } from './facts-of.ts'
import { inParts } from './in-parts.ts'

type Curve = RecordedFact<'batch.curve'>

/** A cook or a chill; the air of a chamber is that of every batch in it. */
const ofCook = (purpose: Fact<'batch.curve'>['purpose']): boolean => purpose !== 'ferment' && purpose !== 'dry'

/** A log of a batch's cook or chill that stands on another batch too: the same file, byte for byte. */
export type SharedLog = {
  /** This batch's own curve. */
  readonly seq: number
  readonly fileName: string
  readonly other: {
    readonly batch: string
    readonly on: string
    readonly seq: number
    /** It sours or dries, and may be cooked weeks after its day. */
    readonly slow: boolean
  }
  /** Which of the two was attached later, and what it said then or since. */
  readonly later: 'this' | 'other'
  readonly note?: string
}

/** Curves of cooks and chills that stand on these files, in the order they were first recorded. */
export async function curvesOfFiles(store: Store, files: readonly string[]): Promise<Curve[]> {
  const rows = await inParts(
    files,
    (part) =>
      store.read
        .selectFrom('about as a')
        .innerJoin('fact as f', 'f.seq', 'a.seq')
        .innerJoin('entry as e', 'e.seq', 'f.seq')
        .select(['e.text', 'e.hash', 'f.root'])
        .where('a.id', 'in', part)
        .where('a.type', '=', 'file')
        .where(ofKind('batch.curve'))
        .orderBy('f.root')
        .execute(),
    (row) => row.root,
  )
  return rows
    .map((row) => recorded<'batch.curve'>(fromText(row.text, row.hash), row.root))
    .filter((c) => ofCook(c.purpose))
}

/** The logs of a batch's cook that stand on other batches too. */
export async function sharedLogsOf(
  store: Store,
  { batch, curves }: { readonly batch: string; readonly curves: readonly Curve[] },
): Promise<SharedLog[]> {
  const own = curves.filter((c) => ofCook(c.purpose))
  if (own.length === 0) return []
  const others = (
    await curvesOfFiles(
      store,
      own.map((c) => c.file),
    )
  ).filter((c) => c.batch !== batch)
  if (others.length === 0) return []
  const codes = others.map((c) => c.batch)
  const [batches, slow] = await Promise.all([batchesNamed(store, codes), slowAmong(store, codes)])
  const dayOf = new Map(batches.map((b) => [b.batch, b.on]))
  return own.flatMap((mine) =>
    others
      .filter((c) => c.file === mine.file)
      .map((c): SharedLog => {
        const later = c.root > mine.root ? c : mine
        return {
          seq: mine.seq,
          fileName: mine.fileName,
          other: { batch: c.batch, on: dayOf.get(c.batch) ?? '', seq: c.seq, slow: slow.has(c.batch) },
          later: later === c ? 'other' : 'this',
          ...(later.note === undefined ? {} : { note: later.note }),
        }
      }),
  )
}
