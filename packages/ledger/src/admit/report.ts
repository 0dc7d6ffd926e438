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
  person: { kinds: ['person.add'], word: 'person' },
  instrument: { kinds: ['instrument.add'], word: 'instrument' },
  lot: { kinds: ['lot.receive', 'lot.split', 'lot.rework'], word: 'lot' },
  recipe: { kinds: ['recipe.save'], word: 'recipe' },
  batch: { kinds: ['batch.plan'], word: 'batch' },
  pack: { kinds: ['batch.pack'], word: 'pack' },
  business: { kinds: ['business.add'], word: 'business' },
  deviation: { kinds: ['deviation.open'], word: 'deviation' },
  room: { kinds: ['room.add'], word: 'room' },
  order: { kinds: ['order.take'], word: 'order' },
  resource: { kinds: ['plan.resource'], word: 'resource' },
  drill: { kinds: ['recall.drill'], word: 'drill' },
} as const satisfies Record<string, { kinds: readonly FactKind[]; word: string }>

/** Whether something of this name is in the record. */
export async function isKnown(sql: Sql, thing: keyof typeof things, id: string): Promise<boolean> {
  for (const kind of things[thing].kinds) if (await stands(sql, kind, id)) return true
  return false
}

/** A code that must name something in the record; nothing to check where it is absent. */
export async function mustBeKnown(
  { sql, fault }: Pick<Admission, 'sql' | 'fault'>,
  path: string,
  thing: keyof typeof things,
  id: string | undefined,
): Promise<boolean> {
  if (id === undefined) return true
  const { kinds, word } = things[thing]
  if (await isKnown(sql, thing, id)) return true
  fault(
    path,
    `names ${word} ${JSON.stringify(id)}, which the record does not have; allowed: a ${word} recorded before (${kinds.join(', ')})`,
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
  const { word } = things[thing]
  if (old === undefined && (await isKnown(sql, thing, id)))
    fault(
      path,
      `names ${word} ${JSON.stringify(id)}, which the record has already; allowed: a new code, or a correction of the earlier entry`,
    )
}
