import type { Ledger } from '@forcemeat/ledger'
import { Refusal } from '../http/refusal.ts'
import type { Doubts } from './doubts.ts'

type Given = { readonly kind?: unknown; readonly body?: { readonly pack?: unknown; readonly note?: unknown } | null }

/**
 * Nothing is sent out of a batch that stands in doubt by what is known now, unless a note says why.
 * @throws Refusal 409 with the findings
 */
export async function guardShipping(ledger: Ledger, doubts: Doubts, drafts: readonly unknown[]): Promise<void> {
  for (const [i, given] of drafts.entries()) {
    const { kind, body } = (given ?? {}) as Given
    if (kind !== 'pack.ship' || typeof body?.pack !== 'string' || body.note !== undefined) continue
    const pack = await ledger.pack(body.pack)
    const doubt = pack && (await doubts.doubtOf(pack.batch))
    if (!doubt) continue
    const path = drafts.length === 1 ? 'body.pack' : `[${i}].body.pack`
    throw new Refusal(
      409,
      doubt.because.map((because) => ({
        path,
        message: `is of batch ${pack.batch}, which stands in doubt. ${because} Allowed: when that is settled, or with a note that says why it goes out all the same`,
      })),
      { findings: doubt.findings },
    )
  }
}
