import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { KitchenView } from '../../state/views.ts'
import { instant } from '../../ui/figures.ts'
import { Findings, VerdictMark } from '../../ui/verdict.tsx'
import { personName } from '../record/about.ts'
import { Approve } from './approve.tsx'
import type { ProofView } from './label-views.ts'
import { OwnLoss } from './own-loss.tsx'
import { PaperLinks } from './paper-links.tsx'
import { RealSize } from './real-size.tsx'

type Props = { proof: ProofView; asked: object; place: string; kitchen: KitchenView }

/** Ask for the proof as PDF and hand it to the reader; what was wrong where there is none. */
async function openPdf(asked: object, name: string): Promise<string> {
  try {
    const answer = await fetch('/api/labels/pdf', { method: 'POST', body: JSON.stringify(asked) })
    if (!answer.ok) return `The PDF could not be made: the server answers ${answer.status}.`
    const url = URL.createObjectURL(await answer.blob())
    const link = Object.assign(document.createElement('a'), { href: url, download: name })
    link.click()
    URL.revokeObjectURL(url)
    return ''
  } catch {
    return 'The server does not answer; try again when it is back.'
  }
}

/** The label in real size, what stops it, what changed, and its approval. */
export function ProofShown({ proof, asked, place, kitchen }: Props) {
  const trouble = useMemo(() => signal(''), [])
  const spoken = proof.content.fields.map((f) => `${f.field}: ${f.text}`).join('. ')
  return (
    <>
      <h2 class="first">Proof, in real size</h2>
      <RealSize svg={proof.svg} widthMm={proof.drawn.widthMm} heightMm={proof.drawn.heightMm} spoken={spoken} />
      {proof.stands ? (
        <PaperLinks
          label={proof.label}
          place={place}
          batch={proof.batch}
          frozen={proof.content.fields.some((f) => f.field === 'day of freezing')}
        />
      ) : (
        <p class="actions">
          <button
            type="button"
            onClick={() =>
              void openPdf(asked, `proof-${proof.label}-${place}.pdf`).then((said) => {
                trouble.value = said
              })
            }
          >
            Proof as PDF
          </button>
          {trouble.value !== '' && <span role="alert">{trouble.value}</span>}
        </p>
      )}
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
      {proof.content.nutritionOwn && <OwnLoss tables={proof.content.nutritionOwn} />}
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
