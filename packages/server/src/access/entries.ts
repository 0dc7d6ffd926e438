import type { Ledger } from '@forcemeat/ledger'
import type { Fault } from '@forcemeat/craft/calculation'
import { Refusal } from '../http/refusal.ts'
import { kindsOf, mayCorrectOthers, mayTakeBack, type Identity } from './roles.ts'

type Given = { readonly kind?: unknown; readonly by?: unknown; readonly corrects?: unknown; readonly body?: unknown }

const at = (i: number, count: number, path: string): string => (count === 1 ? path : `[${i}].${path}`)

const targetOf = (d: Given): number | undefined => {
  const seq = d.kind === 'entry.withdraw' ? (d.body as { entry?: unknown } | null)?.entry : d.corrects
  return typeof seq === 'number' ? seq : undefined
}

/**
 * Drafts as the person who is signed in may record them: under their own name, of kinds their role may add; changing what another
 * recorded only where they check. Without an identity (nobody signs in as themselves) drafts pass as they are.
 * @throws Refusal 403 with a fault for each draft
 */
export async function asSigned(
  ledger: Ledger,
  identity: Identity | undefined,
  drafts: readonly unknown[],
): Promise<unknown[]> {
  if (!identity) return [...drafts]
  const kinds = new Set<unknown>(kindsOf(identity))
  const faults: Fault[] = []
  const signed = []
  for (const [i, given] of drafts.entries()) {
    // What is not an object is refused further in, with the fault it has.
    if (given === null || typeof given !== 'object' || Array.isArray(given)) {
      signed.push(given)
      continue
    }
    const draft = given as Given
    const place = (path: string) => at(i, drafts.length, path)
    if (draft.by !== undefined && draft.by !== identity.person)
      faults.push({
        path: place('by'),
        message: `is ${JSON.stringify(draft.by)}, and ${identity.person} is signed in; allowed: your own name`,
      })
    if (typeof draft.kind === 'string' && !kinds.has(draft.kind))
      faults.push({
        path: place('kind'),
        message: `is ${draft.kind}, which a ${identity.role}${identity.by === 'pin' ? ' signed in by PIN' : ''} may not add; allowed: ${[...kinds].join(', ') || 'none'}`,
      })
    const seq = targetOf(draft)
    const entry = seq === undefined ? undefined : await ledger.entry(seq)
    if (entry) {
      if (draft.kind === 'entry.withdraw' && !mayTakeBack(identity, entry.kind))
        faults.push({
          path: place('body.entry'),
          message: `names entry ${seq}, a ${entry.kind}, which a ${identity.role} may not take away; allowed: an owner`,
        })
      else if (entry.by !== identity.person && !mayCorrectOthers(identity))
        faults.push({
          path: place(draft.kind === 'entry.withdraw' ? 'body.entry' : 'corrects'),
          message: `names entry ${seq} of ${entry.by}; allowed: your own entries, or an owner or checker with their passphrase`,
        })
    }
    signed.push({ ...draft, by: identity.person })
  }
  if (faults.length > 0) throw new Refusal(403, faults)
  return signed
}

/** The person an entry is recorded under: who is signed in, or, where nobody is, who was named. @throws Refusal 403 for another's name */
export function signedBy(identity: Identity | undefined, named: string): string {
  if (identity && named !== identity.person)
    throw new Refusal(403, [
      {
        path: 'by',
        message: `is ${JSON.stringify(named)}, and ${identity.person} is signed in; allowed: your own name`,
      },
    ])
  return named
}
