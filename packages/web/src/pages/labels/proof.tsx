import { useEffect, useMemo } from 'preact/hooks'
import type { KitchenView } from '../../state/views.ts'
import { instant } from '../../ui/figures.ts'
import { Findings, VerdictMark } from '../../ui/verdict.tsx'
import { personName } from '../record/about.ts'
import { Approve } from './approve.tsx'
import type { ProofView } from './label-views.ts'

type Props = { proof: ProofView; asked: object; place: string; kitchen: KitchenView }

/** Ask for the proof as PDF and hand it to the reader. */
async function openPdf(asked: object, name: string): Promise<void> {
  const answer = await fetch('/api/labels/pdf', { method: 'POST', body: JSON.stringify(asked) })
  if (!answer.ok) return
  const url = URL.createObjectURL(await answer.blob())
  const link = Object.assign(document.createElement('a'), { href: url, download: name })
  link.click()
  URL.revokeObjectURL(url)
}

/** The label in real size, what stops it, what changed, and its approval. */
export function ProofShown({ proof, asked, place, kitchen }: Props) {
  const picture = useMemo(() => URL.createObjectURL(new Blob([proof.svg], { type: 'image/svg+xml' })), [proof.svg])
  useEffect(() => () => URL.revokeObjectURL(picture), [picture])
  const spoken = proof.content.fields.map((f) => `${f.field}: ${f.text}`).join('. ')
  const paper = (ending: string, sheet: string) =>
    `/paper/label/${encodeURIComponent(proof.label)}.${ending}?place=${place}${proof.batch ? `&batch=${encodeURIComponent(proof.batch)}` : ''}${sheet}`
  return (
    <>
      <h2 class="first">Proof, in real size</h2>
      <div class="label-proof" tabIndex={0} role="region" aria-label="Proof">
        <img src={picture} alt={`Label, ${spoken}`} />
      </div>
      <p class="hint">
        {proof.drawn.widthMm} × {proof.drawn.heightMm} mm. A screen may show it larger or smaller; paper shows it as it
        is.
      </p>
      <p class="actions">
        {proof.stands ? (
          <>
            <a class="button" href={paper('pdf', '')} target="_blank" rel="noreferrer">
              PDF, one
            </a>
            <a class="button" href={paper('pdf', '&sheet=A4')} target="_blank" rel="noreferrer">
              PDF, a sheet A4
            </a>
            <a class="button" href={paper('pdf', '&sheet=Letter')} target="_blank" rel="noreferrer">
              PDF, a sheet Letter
            </a>
            <a class="button" href={paper('svg', '')} download={`${proof.label}-${place}.svg`}>
              SVG
            </a>
          </>
        ) : (
          <button type="button" onClick={() => void openPdf(asked, `proof-${proof.label}-${place}.pdf`)}>
            Proof as PDF
          </button>
        )}
      </p>
      {proof.approved && (
        <p>
          Approved last {instant(proof.approved.at)} by {personName(kitchen, proof.approved.by)},{' '}
          <a href={`/record/${proof.approved.seq}`}>entry {proof.approved.seq}</a>: {proof.approved.reasons.join('; ')}
        </p>
      )}
      {proof.stands && (
        <p>
          <VerdictMark verdict="pass" label="This is the label as approved" />
        </p>
      )}
      {proof.content.changes.length > 0 && (
        <>
          <h3>What has changed since the label approved last</h3>
          <dl class="facts">
            {proof.content.changes.map((c) => (
              <div key={c.field}>
                <dt>{c.field}</dt>
                <dd>
                  <del>{c.before ?? 'nothing'}</del> <ins>{c.now ?? 'nothing'}</ins>
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
      {!proof.stands && <Approve proof={proof} asked={asked} />}
      <h3>Findings</h3>
      <Findings findings={proof.findings} />
      {proof.content.notes.length > 0 && (
        <ul>
          {proof.content.notes.map((n) => (
            <li key={n}>{n}</li>
          ))}
        </ul>
      )}
    </>
  )
}
