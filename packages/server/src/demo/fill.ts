import { readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Draft, Ledger } from '@forcemeat/ledger'
import { decide, type Decision } from '../judge/decide.ts'

/** The invented kitchen: drafts in order; a curve names its file beside the list, a decision leaves its signature to be made. */
const listFile = fileURLToPath(new URL('../../../../examples/kitchen.json', import.meta.url))

type Listed =
  | Draft
  | { readonly kind: 'batch.decide'; readonly body: Omit<Decision, 'by' | 'key'>; readonly by: string }

const DAY_MS = 86_400_000

/** `@N` in the list stands for the day N days from the day it is loaded, so that the kitchen is always in the middle of its week. */
function onDays(value: unknown, today: number): unknown {
  if (typeof value === 'string') {
    const day = /^@(-?\d+)(T.*)?$/.exec(value)
    if (!day) return value
    return new Date(today + Number(day[1]) * DAY_MS).toISOString().slice(0, 10) + (day[2] ?? '')
  }
  if (Array.isArray(value)) return value.map((v) => onDays(v, today))
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, onDays(v, today)]))
}

/** A log whose rows begin with `@N` is dated like the list it belongs to; any other is taken byte for byte. */
function datedLog(bytes: Buffer, today: number): Buffer {
  const text = bytes.toString('utf8')
  if (!/^@-?\d+[ T]/m.test(text)) return bytes
  return Buffer.from(
    text.replaceAll(/^@(-?\d+)(?=[ T])/gm, (_, n: string) =>
      new Date(today + Number(n) * DAY_MS).toISOString().slice(0, 10),
    ),
  )
}

async function withFile(ledger: Ledger, draft: Listed, folder: string, today: number): Promise<Listed> {
  if (draft.kind !== 'batch.curve' || !draft.body.file.startsWith('file:')) return draft
  const bytes = await readFile(join(folder, draft.body.file.slice('file:'.length)))
  const stored = await ledger.putFile(datedLog(bytes, today))
  return { ...draft, body: { ...draft.body, file: stored.sha256 } }
}

/** Record the invented kitchen in an empty record. Decisions are judged and signed as a person's would be. */
export async function fillWithDemo(
  ledger: Ledger,
  progress?: (done: number, total: number) => void,
): Promise<{ entries: number }> {
  const today = Date.now()
  const read: unknown = JSON.parse(await readFile(listFile, 'utf8'))
  const { entries: listed } = onDays(read, today) as { entries: Listed[] }
  let waiting: Draft[] = []
  const record = async () => {
    if (waiting.length > 0) await ledger.append(waiting)
    waiting = []
  }
  for (const [i, draft] of listed.entries()) {
    progress?.(i, listed.length)
    const whole = await withFile(ledger, draft, dirname(listFile), today)
    if (whole.kind === 'batch.decide') {
      await record()
      await decide(ledger, { ...whole.body, by: whole.by })
    } else waiting.push(whole)
  }
  await record()
  return { entries: (await ledger.head()).entries }
}
