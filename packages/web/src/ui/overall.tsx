import type { Finding, Verdict } from '@forcemeat/craft/finding'
import { overallWords } from './overall-words.ts'
import { VerdictMark } from './verdict.tsx'

/** The one verdict over many findings, and what it leaves out: advice stops nothing, and is counted apart. */
export function Overall({ verdict, findings }: { verdict: Verdict; findings: readonly Finding[] }) {
  const { label, more } = overallWords(verdict, findings)
  return (
    <span class="overall">
      <VerdictMark verdict={verdict} label={label} />
      {more}
    </span>
  )
}
