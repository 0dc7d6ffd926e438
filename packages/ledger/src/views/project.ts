import type { Sql } from '../dialect/store.ts'
import { bodyOf, standing } from '../entry.ts'
import type { Draft, Entry, Fact } from '../facts.ts'
import { subjectOf, subjectsOf } from '../subjects.ts'

/** Mass in whole milligrams, the unit of every sum the views keep. */
export const milligrams = (kg: number): number => Math.round(kg * 1e6)
export const kilograms = (mg: number): number => mg / 1e6

/** Plans met lately, so that a long run of weighings does not read each plan again. Keyed by batch; dropped with each new plan. */
export type PlanCache = Map<string, Fact<'batch.plan'>>

async function planOf(sql: Sql, batch: string, plans: PlanCache): Promise<Fact<'batch.plan'> | undefined> {
  const known = plans.get(batch)
  if (known) return known
  const plan = await bodyOf<Fact<'batch.plan'>>(sql, 'batch.plan', batch)
  if (plan) {
    if (plans.size >= 256) plans.clear()
    plans.set(batch, plan)
  }
  return plan
}

/** The lot a weighing takes from: the one it names, else the one the plan names for the line. */
export async function lotWeighed(sql: Sql, body: Fact<'batch.weigh'>, plans: PlanCache): Promise<string | undefined> {
  if (body.lot !== undefined) return body.lot
  return (await planOf(sql, body.batch, plans))?.lines.find((l) => l.line === body.line)?.lot
}

type Movement = { readonly lot: string; readonly mg: number; readonly batch?: string; readonly day?: string }

/** What a fact does to the balances of lots, mg: in is positive. */
export async function movementsOf(sql: Sql, draft: Draft, plans: PlanCache): Promise<readonly Movement[]> {
  switch (draft.kind) {
    case 'lot.receive':
    case 'lot.adjust':
    case 'lot.rework':
      return [{ lot: draft.body.lot, mg: milligrams(draft.body.kg), day: draft.body.on }]
    case 'lot.split': {
      const { from, lot, kg, on: day } = draft.body
      return [
        { lot, mg: milligrams(kg), day },
        { lot: from, mg: -milligrams(kg), day },
      ]
    }
    case 'batch.weigh': {
      const lot = await lotWeighed(sql, draft.body, plans)
      return lot === undefined ? [] : [{ lot, mg: -milligrams(draft.body.kg), batch: draft.body.batch }]
    }
    default:
      return []
  }
}

/** State of one batch, or of all when none is named, from the facts that stand. */
export async function refreshBatches(sql: Sql, batch?: string): Promise<void> {
  const [only, values] = batch === undefined ? ['', []] : [' where batch = ?', [batch]]
  await sql.run(
    `update batch set
       weighed = (select count(distinct f.part) from fact f where f.subject = batch.batch and f.kind = 'batch.weigh'),
       packs = (select count(*) from pack p where p.batch = batch.batch),
       decision = (select f.part from fact f where f.subject = batch.batch and f.kind = 'batch.decide' order by f.root desc limit 1)${only}`,
    values,
  )
  await sql.run(
    `update batch set state = case when decision = 'hold' then 'held' when decision = 'release' and packs > 0 then 'packed'
       when decision = 'release' then 'released' when weighed = 0 then 'planned' when weighed < lines then 'weighing'
       else 'made' end${only}`,
    values,
  )
}

/** Take out of the views what an entry put there, for a correction or withdrawal of it. */
async function retract(sql: Sql, entry: Entry, by: number, how: 'corrected' | 'withdrawn'): Promise<void> {
  await sql.run('delete from fact where seq = ?', [entry.seq])
  await sql.run('insert into superseded (seq, by_seq, how) values (?, ?, ?)', [entry.seq, by, how])
  if (entry.kind === 'pack.ship')
    await sql.run('update pack set shipped = shipped - ? where pack = ?', [entry.body.count, entry.body.pack])
  const moved = await sql.all<{ lot: string; mg: number }>('select lot, mg from movement where seq = ?', [entry.seq])
  if (moved.length > 0) await sql.run('delete from movement where seq = ?', [entry.seq])
  for (const { lot, mg } of moved) await sql.run('update lot set balance_mg = balance_mg - ? where lot = ?', [mg, lot])
  if (how === 'corrected') return
  if (entry.kind === 'lot.split' || entry.kind === 'lot.rework')
    await sql.run('delete from origin where lot = ?', [entry.body.lot])
  if (entry.kind === 'lot.receive' || entry.kind === 'lot.split' || entry.kind === 'lot.rework')
    await sql.run('delete from lot where lot = ?', [entry.body.lot])
  if (entry.kind === 'batch.plan') await sql.run('delete from batch where batch = ?', [entry.body.batch])
  if (entry.kind === 'batch.pack') await sql.run('delete from pack where pack = ?', [entry.body.pack])
}

type LotRow = { material: string; supplier: string | null; received: string; use_by: string | null }

const upsertLot = (sql: Sql, lot: string, seq: number, root: number, row: LotRow): Promise<void> =>
  sql.run(
    `insert into lot (lot, seq, root, material, supplier, received, use_by, balance_mg) values (?, ?, ?, ?, ?, ?, ?, 0)
     on conflict (lot) do update set seq = excluded.seq, material = excluded.material, supplier = excluded.supplier,
     received = excluded.received, use_by = excluded.use_by`,
    [lot, seq, root, row.material, row.supplier, row.received, row.use_by],
  )

const upsertOrigin = (
  sql: Sql,
  { lot, kg }: { lot: string; kg: number },
  seq: number,
  root: number,
  from: { lot?: string; batch?: string },
): Promise<void> =>
  sql.run(
    `insert into origin (lot, seq, root, from_lot, from_batch, mg) values (?, ?, ?, ?, ?, ?)
     on conflict (lot) do update set seq = excluded.seq, from_lot = excluded.from_lot, from_batch = excluded.from_batch,
     mg = excluded.mg`,
    [lot, seq, root, from.lot ?? null, from.batch ?? null, milligrams(kg)],
  )

/** What was split off a lot is the same meat: a correction of how it came in holds for its parts too. */
const tellParts = (sql: Sql, lot: string): Promise<void> =>
  sql.run(
    `with recursive part (lot) as (select lot from origin where from_lot = ?
       union select o.lot from origin o join part p on o.from_lot = p.lot)
     update lot set (material, supplier, use_by) = (select material, supplier, use_by from lot w where w.lot = ?)
     where lot in (select lot from part)`,
    [lot, lot],
  )

/** The rows of things that have a row of their own: made by the first entry, changed by a correction. */
async function upsertThing(sql: Sql, entry: Entry, root: number): Promise<void> {
  const { seq } = entry
  if (entry.kind === 'lot.receive') {
    const { lot, material, supplier, on, useBy } = entry.body
    await upsertLot(sql, lot, seq, root, { material, supplier: supplier ?? null, received: on, use_by: useBy ?? null })
    if (entry.corrects !== undefined) await tellParts(sql, lot)
  } else if (entry.kind === 'lot.split') {
    const { lot, from, on } = entry.body
    const [whole] = await sql.all<LotRow>('select material, supplier, received, use_by from lot where lot = ?', [from])
    if (!whole) return
    await upsertLot(sql, lot, seq, root, { ...whole, received: on })
    await upsertOrigin(sql, entry.body, seq, root, { lot: from })
  } else if (entry.kind === 'lot.rework') {
    const { lot, batch, material, on, useBy } = entry.body
    await upsertLot(sql, lot, seq, root, { material, supplier: null, received: on, use_by: useBy ?? null })
    await upsertOrigin(sql, entry.body, seq, root, { batch })
  } else if (entry.kind === 'batch.plan') {
    const { batch, recipe, version, on, lines } = entry.body
    await sql.run(
      `insert into batch (batch, seq, root, recipe, version, day, lines) values (?, ?, ?, ?, ?, ?, ?)
       on conflict (batch) do update set seq = excluded.seq, recipe = excluded.recipe, version = excluded.version,
       day = excluded.day, lines = excluded.lines`,
      [batch, seq, root, recipe, version, on, lines.length],
    )
  } else if (entry.kind === 'batch.pack') {
    const { pack, batch, count, totalKg, on } = entry.body
    await sql.run(
      `insert into pack (pack, seq, root, batch, count, mg, day) values (?, ?, ?, ?, ?, ?, ?)
       on conflict (pack) do update set seq = excluded.seq, batch = excluded.batch, count = excluded.count, mg = excluded.mg,
       day = excluded.day`,
      [pack, seq, root, batch, count, milligrams(totalKg), on],
    )
  } else if (entry.kind === 'pack.ship') {
    await sql.run('update pack set shipped = shipped + ? where pack = ?', [entry.body.count, entry.body.pack])
  }
}

async function addMovement(sql: Sql, seq: number, root: number, { lot, mg, batch, day }: Movement): Promise<void> {
  await sql.run('insert into movement (seq, root, lot, mg, batch, day) values (?, ?, ?, ?, ?, ?)', [
    seq,
    root,
    lot,
    mg,
    batch ?? null,
    day ?? null,
  ])
  await sql.run('update lot set balance_mg = balance_mg + ? where lot = ?', [mg, lot])
}

const about = (sql: Sql, type: string, id: string, seq: number): Promise<void> =>
  sql.run('insert into about (seq, type, id) values (?, ?, ?) on conflict do nothing', [seq, type, id])

const batchOf = (entry: Draft): string | undefined => ('batch' in entry.body ? entry.body.batch : undefined)

export type ProjectOptions = {
  readonly plans: PlanCache
  /** Leave the states of batches for one refresh at the end. */ readonly refreshLater?: boolean
}

/** Put one entry into the views. The entries before it are there already; nothing is checked, for it was when it was recorded. */
export async function project(sql: Sql, entry: Entry, { plans, refreshLater = false }: ProjectOptions): Promise<void> {
  const target = entry.kind === 'entry.withdraw' ? entry.body.entry : entry.corrects
  const old = target === undefined ? undefined : await standing(sql, target)
  if (entry.kind === 'batch.plan') plans.delete(entry.body.batch)
  if (entry.kind === 'entry.withdraw') {
    await about(sql, 'entry', String(entry.body.entry), entry.seq)
    if (!old) return
    plans.clear()
    for (const s of subjectsOf(old.entry)) await about(sql, s.type, s.id, entry.seq)
    await retract(sql, old.entry, entry.seq, 'withdrawn')
    const batch = batchOf(old.entry)
    if (batch !== undefined && !refreshLater) await refreshBatches(sql, batch)
    return
  }
  if (old) await retract(sql, old.entry, entry.seq, 'corrected')
  const root = old?.root ?? entry.seq
  const movements = await movementsOf(sql, entry, plans)
  for (const s of subjectsOf(entry, movements[0]?.lot)) await about(sql, s.type, s.id, entry.seq)
  const { id, part } = subjectOf(entry)
  await sql.run('insert into fact (seq, root, kind, subject, part) values (?, ?, ?, ?, ?)', [
    entry.seq,
    root,
    entry.kind,
    id,
    part ?? null,
  ])
  await upsertThing(sql, entry, root)
  for (const m of movements) await addMovement(sql, entry.seq, root, m)
  if (refreshLater) return
  const batches = new Set([batchOf(entry), old && batchOf(old.entry)])
  for (const batch of batches) if (batch !== undefined) await refreshBatches(sql, batch)
}
