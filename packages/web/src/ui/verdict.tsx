import { Citation } from './citation.tsx'
import type { Finding, Verdict } from '@forcemeat/craft/finding'
import { inBothDegrees } from './figures.ts'
import { besideSentence } from './finding-figures.ts'
import { withNames } from './material-field.tsx'

const word: Readonly<Record<Verdict, string>> = { pass: 'Meets', fail: 'Fails', 'cannot-tell': 'Cannot tell' }

const shape: Readonly<Record<Verdict, string>> = {
  pass: 'M3 9.5 7 13 14 4',
  fail: 'M4 4 13 13M13 4 4 13',
  'cannot-tell': 'M8.5 3 14.5 13.5H2.5Z',
}

/** A verdict as shape and word; colour only repeats what they say. */
export function VerdictMark({ verdict, label }: { verdict: Verdict; label?: string }) {
  return (
    <span class={`verdict verdict-${verdict}`}>
      <svg viewBox="0 0 17 17" width="17" height="17" aria-hidden="true">
        <path
          d={shape[verdict]}
          fill="none"
          stroke="currentColor"
          stroke-width="2.4"
          stroke-linecap="round"
          stroke-linejoin="round"
        />
      </svg>
      {label ?? word[verdict]}
    </span>
  )
}

/** One finding: verdict, rule in one click, measured against limit with margin, why, and what would settle it. */
export function FindingRow({ finding }: { finding: Finding }) {
  const beside = besideSentence(finding)
  return (
    <li class="finding">
      <div class="finding-head">
        <VerdictMark verdict={finding.verdict} />
        <a href={`/rules/${encodeURIComponent(finding.rule)}`}>{finding.title}</a>
        <span class="where">{finding.jurisdiction}</span>
        {finding.weight === 'advice' && <span class="where">advice</span>}
      </div>
      <p>
        {inBothDegrees(withNames(finding.because))}
        {beside !== '' && <> · {beside}</>}
      </p>
      {finding.settle && (
        <p class="settle">
          <strong>Would settle it:</strong> {inBothDegrees(finding.settle)}
        </p>
      )}
      <p class="cite">
        <Citation source={finding.source} jurisdiction={finding.jurisdiction} />
        {finding.inForce.from && <> · in force from {finding.inForce.from}</>}
        {finding.inForce.until && <> until {finding.inForce.until}</>}
      </p>
    </li>
  )
}

/** What stops a batch first, then what cannot be told, limits before advice. */
const rank = (f: Finding): number => (f.verdict === 'fail' ? 0 : 1) + (f.weight === 'advice' ? 2 : 0)

const keyOf = (f: Finding, i: number): string => `${f.rule} ${f.jurisdiction} ${i}`

/** Findings, the ones that stop a batch first; those that meet their rule are folded away where there are many. */
export function Findings({ findings }: { findings: readonly Finding[] }) {
  if (findings.length === 0) return <p class="quiet">No rule has anything to say yet.</p>
  const open = findings.filter((f) => f.verdict !== 'pass').toSorted((a, b) => rank(a) - rank(b))
  const met = findings.filter((f) => f.verdict === 'pass')
  const few = met.length <= 3
  return (
    <>
      <ul class="findings">
        {[...open, ...(few ? met : [])].map((f, i) => (
          <FindingRow key={keyOf(f, i)} finding={f} />
        ))}
      </ul>
      {!few && (
        <details>
          <summary>{met.length} rules are met</summary>
          <ul class="findings">
            {met.map((f, i) => (
              <FindingRow key={keyOf(f, i)} finding={f} />
            ))}
          </ul>
        </details>
      )}
    </>
  )
}
