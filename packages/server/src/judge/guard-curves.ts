import type { Fault } from '@forcemeat/craft/calculation'
import { namesBatch } from '@forcemeat/rulebook/batch/shared-logs'
import { facts, type Draft, type Ledger } from '@forcemeat/ledger'
import { Refusal } from '../http/refusal.ts'

type Curve = Extract<Draft, { kind: 'batch.curve' }>
/** A curve that stands, or stands before it in the same call. */
type Before = { readonly batch: string; readonly file: string; readonly seq?: number }

const curveIn = (draft: unknown): Curve | undefined => {
  const { kind, body } = (draft ?? {}) as { kind?: unknown; body?: unknown }
  if (kind !== 'batch.curve') return undefined
  const read = facts['batch.curve'].safeParse(body)
  return read.success ? ({ ...(draft as object), body: read.data } as Curve) : undefined
}

/** Curves a draft comes after; a correction keeps the place of what it corrects. */
async function placeOf(ledger: Ledger, { body, corrects }: Curve): Promise<number> {
  if (corrects === undefined) return Infinity
  const record = await ledger.batch(body.batch)
  return record?.curves.find((c) => c.seq === corrects)?.root ?? Infinity
}

/**
 * A logger file that stands on another batch is asked about before its cook is taken for this one's: it is let in with a note that names the
 * other batch, for a smokehouse holds several. The air of a chamber is that of every batch in it, and is not asked about.
 * @throws Refusal 400 with a fault for each
 */
export async function guardCurves(ledger: Ledger, drafts: readonly unknown[]): Promise<void> {
  const faults: Fault[] = []
  const inCall: Before[] = []
  for (const [i, given] of drafts.entries()) {
    const draft = curveIn(given)
    if (!draft || draft.body.purpose === 'ferment' || draft.body.purpose === 'dry') continue
    const { batch, file, fileName, note } = draft.body
    const place = await placeOf(ledger, draft)
    const standing: Before[] = (await ledger.curvesOfFiles([file])).filter((c) => c.root < place)
    const others = [...standing, ...inCall].filter((c) => c.file === file && c.batch !== batch)
    inCall.push({ batch, file })
    const unnamed = [...new Map(others.map((c) => [c.batch, c])).values()].filter((c) => !namesBatch(note, c.batch))
    if (unnamed.length === 0) continue
    const said: string[] = []
    for (const c of unnamed) {
      const on = (await ledger.batch(c.batch))?.on
      said.push(`${c.batch}${on === undefined ? '' : ` of ${on}`}${c.seq === undefined ? '' : ` (entry ${c.seq})`}`)
    }
    const path = drafts.length === 1 ? 'body.note' : `[${i}].body.note`
    faults.push({
      path,
      message: `${note === undefined ? 'is missing' : 'does not say so'}: ${fileName} is the log of batch ${said.join(' and of ')} already; allowed: the log of ${batch} itself, or, where they were cooked together, a note that names ${unnamed.map((c) => c.batch).join(' and ')} and says so`,
    })
  }
  if (faults.length > 0) throw new Refusal(400, faults)
}
