import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { LotView, Recorded } from '../../state/views.ts'
import { day, instant, length, temperature } from '../../ui/figures.ts'
import { Empty } from '../../ui/notes.tsx'
import { Treat } from './treat.tsx'
import { mayCarry, wayName } from './made-safe-words.ts'

/** A treatment as the record gives it. */
export type Treatment = Recorded & {
  readonly lot: string
  readonly way: string
  readonly on: string
  readonly thicknessMm?: number
  readonly thicknessConfirmed?: true
  readonly roomC?: number
  readonly from?: string
  readonly until?: string
  readonly fileName?: string
  readonly instrument?: string
  readonly document?: { readonly kind: string; readonly reference: string; readonly issuer?: string }
  readonly note?: string
}

/** How the meat of a lot was made safe for eating raw: what is recorded, and one more to record. */
export function MadeSafe({ lot: l }: { lot: LotView & { readonly treatments?: readonly Treatment[] } }) {
  const material = findMaterial(l.material)
  const treatments = l.treatments ?? []
  if (!mayCarry(material) && treatments.length === 0 && !(l.origin && 'batch' in l.origin)) return null
  return (
    <section aria-label="Made safe for eating raw">
      <h2>Made safe for eating raw</h2>
      {treatments.length === 0 ? (
        <Empty>
          Nothing is recorded. Until something is, this lot may only go into what is cooked through: a raw, fermented or
          dried product with it cannot be released.
        </Empty>
      ) : (
        <ul class="findings">
          {treatments.map((t) => (
            <li key={t.seq} class="finding">
              <strong>{wayName(t.way)}</strong>, {day(t.on)}
              {t.lot !== l.lot && (
                <>
                  , on the whole lot <a href={`/stock/${encodeURIComponent(t.lot)}`}>{t.lot}</a>
                </>
              )}
              <p>{told(t)}</p>
              <p class="cite">
                <a href={`/record/${t.seq}`}>entry {t.seq}</a> · <a href={`/record/${t.seq}/correct`}>correct it</a>
              </p>
            </li>
          ))}
        </ul>
      )}
      <details>
        <summary>Record how it was made safe</summary>
        <Treat lot={l} />
      </details>
    </section>
  )
}

const told = (t: Treatment): string =>
  [
    t.thicknessMm !== undefined && `${length(t.thicknessMm)} thick${t.thicknessConfirmed ? ', measured so' : ''}`,
    t.roomC !== undefined && `room at ${temperature(t.roomC)} or colder`,
    t.from && t.until && `${instant(t.from)} to ${instant(t.until)}`,
    t.fileName,
    t.instrument && `read on ${t.instrument}`,
    t.document && `${t.document.kind} ${t.document.reference}${t.document.issuer ? `, ${t.document.issuer}` : ''}`,
    t.note,
  ]
    .filter(Boolean)
    .join(', ') || 'nothing more is said of it'
