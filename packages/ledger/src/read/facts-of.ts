import { sql as fragment } from 'kysely'
import type { Entry, Fact, FactKind } from '../facts.ts'
import { fromText } from '../entry.ts'
import type { Store } from '../dialect/store.ts'
import { inParts } from './in-parts.ts'

/** Who recorded a fact, when, in which entry. `root` is the first entry of its line of corrections: its place in the order of things. */
export type Recorded = { readonly seq: number; readonly root: number; readonly at: string; readonly by: string }
export type RecordedFact<K extends FactKind> = Fact<K> & Recorded

export const recorded = <K extends FactKind>(entry: Entry, root: number): RecordedFact<K> =>
  ({ ...entry.body, seq: entry.seq, root, at: entry.at, by: entry.by }) as unknown as RecordedFact<K>

/**
 * The kind of a fact, where it is looked up by its subject. Written so that no index on kinds serves it: without counts of its rows a
 * database takes one kind to be rarer than some hundred subjects, and reads millions.
 */
export const ofKind = (kind: FactKind) => fragment<boolean>`(f.kind || '') = ${kind}`

/** Facts of a kind that stand, in the order they were first recorded; of one subject, of several, or of all. */
export async function factsOf<K extends FactKind>(
  store: Store,
  kind: K,
  subjects?: string | readonly string[],
): Promise<RecordedFact<K>[]> {
  const selection = store.read
    .selectFrom('fact as f')
    .innerJoin('entry as e', 'e.seq', 'f.seq')
    .select(['e.text', 'e.hash', 'f.root'])
    .orderBy('f.root')
  const rows =
    subjects === undefined
      ? await selection.where('f.kind', '=', kind).execute()
      : await inParts(
          typeof subjects === 'string' ? [subjects] : subjects,
          (part) => selection.where('f.subject', 'in', part).where(ofKind(kind)).execute(),
          (row) => row.root,
        )
  return rows.map((row) => recorded<K>(fromText(row.text, row.hash), row.root))
}

/** ISO date so many days after another. */
export const daysAfter = (date: string, days: number): string =>
  new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)
