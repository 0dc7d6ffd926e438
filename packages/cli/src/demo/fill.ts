import { readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Draft, Ledger } from '@forcemeat/ledger'
import { decide, type Decision } from '@forcemeat/server/judge/decide'

/** The invented kitchen: drafts in order; a curve names its file beside the list, a decision leaves its signature to be made. */
const listFile = fileURLToPath(new URL('../../../../examples/kitchen.json', import.meta.url))

type Listed =
  | Draft
  | { readonly kind: 'batch.decide'; readonly body: Omit<Decision, 'by' | 'key'>; readonly by: string }

async function withFile(ledger: Ledger, draft: Listed, folder: string): Promise<Listed> {
  if (draft.kind !== 'batch.curve' || !draft.body.file.startsWith('file:')) return draft
  const stored = await ledger.putFile(await readFile(join(folder, draft.body.file.slice('file:'.length))))
  return { ...draft, body: { ...draft.body, file: stored.sha256 } }
}

/** Record the invented kitchen in an empty record. Decisions are judged and signed as a person's would be. */
export async function fillWithDemo(
  ledger: Ledger,
  progress?: (done: number, total: number) => void,
): Promise<{ entries: number }> {
  const { entries: listed } = JSON.parse(await readFile(listFile, 'utf8')) as { entries: Listed[] }
  let waiting: Draft[] = []
  const record = async () => {
    if (waiting.length > 0) await ledger.append(waiting)
    waiting = []
  }
  for (const [i, draft] of listed.entries()) {
    progress?.(i, listed.length)
    const whole = await withFile(ledger, draft, dirname(listFile))
    if (whole.kind === 'batch.decide') {
      await record()
      await decide(ledger, { ...whole.body, by: whole.by })
    } else waiting.push(whole)
  }
  await record()
  return { entries: (await ledger.head()).entries }
}
