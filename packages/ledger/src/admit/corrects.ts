import type { Sql } from '../dialect/store.ts'
import { standing } from '../entry.ts'
import type { Draft, Entry } from '../facts.ts'
import { subjectOf } from '../subjects.ts'
import { balanceHolds } from './balance.ts'
import { anOwnerStays } from './owners.ts'
import type { Admission } from './report.ts'

type Report = Pick<Admission, 'sql' | 'fault'>

async function supersededBy(sql: Sql, seq: number): Promise<string> {
  const [row] = await sql.all<{ by_seq: number; how: string }>('select by_seq, how from superseded where seq = ?', [
    seq,
  ])
  return row ? `${row.how} by entry ${row.by_seq}` : 'not a fact that can be replaced'
}

/** The entry a draft corrects or withdraws, once it is sure that it may. Faults are reported; nothing is returned then. */
export async function targetOf({ sql, fault }: Report, draft: Draft): Promise<Entry | undefined> {
  const [seq, path] = draft.kind === 'entry.withdraw' ? [draft.body.entry, 'body.entry'] : [draft.corrects, 'corrects']
  if (seq === undefined) return undefined
  const found = await standing(sql, seq)
  const refuse = (why: string) => {
    fault(path, `names entry ${seq}, ${why}`)
    return undefined
  }
  if (!found) return refuse('which the record does not have; allowed: the number of an entry recorded before')
  if (found.entry.kind === 'entry.withdraw') return refuse('a withdrawal; allowed: to record the withdrawn fact anew')
  if (found.root === null)
    return refuse(`which was ${await supersededBy(sql, seq)}; allowed: the entry that stands now`)
  if (draft.kind === 'entry.withdraw') return found.entry
  if (found.entry.kind !== draft.kind)
    return refuse(`of kind ${found.entry.kind}; allowed: an entry of kind ${draft.kind}`)
  const [was, now] = [subjectOf(found.entry), subjectOf(draft)]
  if (was.id !== now.id) return refuse(`about ${was.type} ${was.id}; allowed: an entry about ${now.type} ${now.id}`)
  return found.entry
}

/** What still leans on each kind of thing, by query of its code. */
const onLot = `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'lot'
    and (f.kind not in ('lot.receive', 'lot.split', 'lot.rework') or f.subject <> a.id)`
const leaning: Partial<Record<Draft['kind'], string>> = {
  'lot.split': onLot,
  'lot.rework': onLot,
  'deviation.open': `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'deviation' and f.kind <> 'deviation.open'`,
  'lot.receive': onLot,
  'instrument.add': `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'instrument' and f.kind <> 'instrument.add'`,
  'batch.plan': `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'batch' and f.kind <> 'batch.plan'`,
  'order.take': `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'order' and f.kind <> 'order.take'`,
  'room.add': `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'room' and f.kind <> 'room.add'`,
  'batch.pack': `select a.seq from about a join fact f on f.seq = a.seq where a.id = ? and a.type = 'pack' and f.kind <> 'batch.pack'`,
  'person.add': `select seq from entry where author = ?`,
}

/** A withdrawal takes a fact away; not one that other facts still lean on. */
export async function withdrawalHolds(a: Admission<'entry.withdraw'>, target: Entry): Promise<void> {
  const { sql, draft, fault } = a
  if (draft.why === undefined && draft.body.note === undefined)
    fault('why', 'is missing; a withdrawal says why it is made')
  const { id, part } = subjectOf(target)
  let dependents: { seq: number }[] = []
  const query = leaning[target.kind]
  if (query !== undefined) dependents = await sql.all(`${query} order by 1 limit 5`, [id])
  if (target.kind === 'recipe.save') {
    dependents = await sql.all('select seq from batch where recipe = ? and version = ? order by seq limit 5', [
      id,
      target.body.version,
    ])
    const later = await sql.all<{ part: string }>(`select part from fact where subject = ? and kind = 'recipe.save'`, [
      id,
    ])
    if (later.some((r) => Number(r.part) > Number(part)))
      fault(
        'body.entry',
        `names version ${part} of recipe ${id}, which has later ones; allowed: to withdraw the newest version`,
      )
  }
  if (target.kind === 'person.add') await anOwnerStays(a, target, 'body.entry')
  if (dependents.length > 0)
    fault(
      'body.entry',
      `names entry ${target.seq} (${target.kind} ${id}), on which entries ${dependents.map((d) => d.seq).join(', ')} lean; allowed: to withdraw those first, or to correct this one`,
    )
  await balanceHolds({ ...a, old: target }, 'body.entry')
}
