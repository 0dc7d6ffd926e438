import { bodyOf } from '../entry.ts'
import type { Fact } from '../facts.ts'
import { balanceHolds } from './balance.ts'
import { afterBatch, afterLot } from './days.ts'
import { mustBeKnown, mustBeNew, type Admission } from './report.ts'

export async function splitHolds(a: Admission<'lot.split'>): Promise<void> {
  const { draft, old, fault } = a
  const { from, lot } = draft.body
  await mustBeNew(a, 'body.lot', 'lot', lot)
  if (from === lot) return fault('body.from', `is the lot itself; allowed: the lot it is taken from`)
  if (old && old.body.from !== from)
    fault('body.from', `is ${from}, and the entry it corrects took from ${old.body.from}; allowed: the same lot`)
  if (!(await mustBeKnown(a, 'body.from', 'lot', from))) return
  await balanceHolds(a as Admission, 'body.kg')
  await afterLot(a, 'body.on', from, draft.body.on)
}

export async function reworkHolds(a: Admission<'lot.rework'>): Promise<void> {
  const { draft, old, fault, sql } = a
  const { batch, lot, kg, note } = draft.body
  await mustBeNew(a, 'body.lot', 'lot', lot)
  if (old) await balanceHolds(a as Admission, 'body.kg')
  if (!(await mustBeKnown(a, 'body.batch', 'batch', batch))) return
  await afterBatch(a, 'body.on', batch, draft.body.on)
  if (note !== undefined) return
  // Work does not make mass: a batch gives back no more than was weighed into it and not packed.
  const rows = await sql.all<{ text: string }>(
    `select e.text from fact f join entry e on e.seq = f.seq where f.subject = ? and f.kind = 'batch.weigh'`,
    [batch],
  )
  const inMg = rows.reduce(
    (mg, r) => mg + Math.round((JSON.parse(r.text) as { body: { kg: number } }).body.kg * 1e6),
    0,
  )
  const [back] = await sql.all<{ mg: number | null }>('select sum(mg) as mg from origin where from_batch = ?', [batch])
  const [packed] = await sql.all<{ mg: number | null }>('select sum(mg) as mg from pack where batch = ?', [batch])
  const before = (back?.mg ?? 0) - (old && old.body.batch === batch ? Math.round(old.body.kg * 1e6) : 0)
  const outMg = before + (packed?.mg ?? 0)
  const left = Math.max(0, (inMg - outMg) / 1e6)
  if (kg > left + 1e-9)
    fault(
      'body.kg',
      `is ${kg} kg, and batch ${batch} has ${Number(left.toFixed(6))} kg of what was weighed in and not packed to give; allowed: at most that, or a note that says why`,
    )
}

export async function deviationClosable(a: Admission<'deviation.close'>): Promise<void> {
  const { sql, draft, fault } = a
  const { deviation } = draft.body
  if (!(await mustBeKnown(a, 'body.deviation', 'deviation', deviation))) return
  const acts = await sql.all<{ text: string }>(
    `select e.text from fact f join entry e on e.seq = f.seq where f.subject = ? and f.kind = 'deviation.act'`,
    [deviation],
  )
  const said = new Set(acts.flatMap((r) => Object.keys((JSON.parse(r.text) as { body: Fact<'deviation.act'> }).body)))
  const missing = ['product', 'cause', 'prevention'].filter((f) => !said.has(f))
  if (missing.length > 0)
    fault(
      'body.deviation',
      `names ${deviation}, of which nobody has said: ${missing.join(', ')}; allowed: to close it when what was done with the product, the cause and the prevention are recorded (deviation.act)`,
    )
}

export async function doubtHolds(a: Admission<'doubt.settle'>): Promise<void> {
  const { sql, draft, fault } = a
  const { batch, instrument, check } = draft.body
  await mustBeKnown(a, 'body.batch', 'batch', batch)
  await mustBeKnown(a, 'body.instrument', 'instrument', instrument)
  const found = await sql.all(`select 1 from fact where seq = ? and kind = 'instrument.check' and subject = ?`, [
    check,
    instrument,
  ])
  if (found.length === 0)
    fault(
      'body.check',
      `is ${check}, which is not a standing check of ${instrument}; allowed: the entry of such a check`,
    )
}

/** Where the kitchen wants a second person, nobody releases what they made. */
export async function secondPerson(a: Admission<'batch.decide'>): Promise<void> {
  const { sql, draft, fault } = a
  if (draft.body.decision !== 'release') return
  const [last] = await sql.all<{ text: string }>(
    `select e.text from fact f join entry e on e.seq = f.seq where f.kind = 'kitchen.set' order by f.root desc limit 1`,
  )
  const kitchen = last && (JSON.parse(last.text) as { body: Fact<'kitchen.set'> }).body
  if (!kitchen?.secondPerson) return
  const [made] = await sql.all<{ kind: string; seq: number }>(
    `select f.kind, f.seq from fact f join entry e on e.seq = f.seq where f.subject = ? and e.author = ?
     and f.kind in ('batch.weigh', 'batch.measure', 'batch.curve') order by f.root limit 1`,
    [draft.body.batch, draft.by],
  )
  if (made)
    fault(
      'by',
      `is ${draft.by}, who worked on batch ${draft.body.batch} (${made.kind}, entry ${made.seq}); allowed: a second person, as this kitchen wants it`,
    )
}

/** Whether a deviation has been opened and not closed. */
export const openStill = async (a: Admission<'deviation.act'>): Promise<void> => {
  if (!(await mustBeKnown(a, 'body.deviation', 'deviation', a.draft.body.deviation)) || a.old) return
  if (await bodyOf(a.sql, 'deviation.close', a.draft.body.deviation))
    a.fault('body.deviation', `names ${a.draft.body.deviation}, which is closed; allowed: to open another`)
}
