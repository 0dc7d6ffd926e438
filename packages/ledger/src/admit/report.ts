import type { Fault } from '@forcemeat/craft/calculation'
import type { Sql } from '../dialect/store.ts'
import type { Draft, FactKind } from '../facts.ts'
import type { PlanCache } from '../views/project.ts'

/** What one draft is held against: the record so far, and where its faults go. */
export type Admission<K extends FactKind = FactKind> = {
  readonly sql: Sql
  readonly draft: Extract<Draft, { kind: K }>
  /** The entry this draft corrects or withdraws, where it stands. */
  readonly old: Extract<Draft, { kind: K }> | undefined
  readonly plans: PlanCache
  readonly fault: (path: string, message: string) => void
}

export type Faults = Fault[]

/** Whether a fact of this kind stands for this subject. */
export async function stands(sql: Sql, kind: FactKind, subject: string, part?: string): Promise<boolean> {
  const rows =
    part === undefined
      ? await sql.all('select 1 from fact where subject = ? and kind = ? limit 1', [subject, kind])
      : await sql.all('select 1 from fact where subject = ? and kind = ? and part = ? limit 1', [subject, kind, part])
  return rows.length > 0
}

const things = {
  person: ['person.add', 'person'],
  instrument: ['instrument.add', 'instrument'],
  lot: ['lot.receive', 'lot'],
  recipe: ['recipe.save', 'recipe'],
  batch: ['batch.plan', 'batch'],
  pack: ['batch.pack', 'pack'],
} as const satisfies Record<string, readonly [FactKind, string]>

/** A code that must name something in the record; nothing to check where it is absent. */
export async function mustBeKnown(
  { sql, fault }: Pick<Admission, 'sql' | 'fault'>,
  path: string,
  thing: keyof typeof things,
  id: string | undefined,
): Promise<boolean> {
  if (id === undefined) return true
  const [kind, word] = things[thing]
  if (await stands(sql, kind, id)) return true
  fault(
    path,
    `names ${word} ${JSON.stringify(id)}, which the record does not have; allowed: a ${word} recorded before (${kind})`,
  )
  return false
}

/** A code that must be new, unless this is a correction of the entry that gave it. */
export async function mustBeNew(
  { sql, fault, old }: Pick<Admission, 'sql' | 'fault' | 'old'>,
  path: string,
  thing: keyof typeof things,
  id: string,
): Promise<void> {
  const [kind, word] = things[thing]
  if (old === undefined && (await stands(sql, kind, id)))
    fault(
      path,
      `names ${word} ${JSON.stringify(id)}, which the record has already; allowed: a new code, or a correction of the earlier entry`,
    )
}
