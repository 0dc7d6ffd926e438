import type { Finding, WorkingStep } from '@forcemeat/craft/finding'
import { apart, measured } from '../../ui/figures.ts'
import { Findings } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'
import { fieldName } from '../../ui/words.ts'
import { isDifference, unitIn } from '../record/body-units.ts'
import { leavesOf, type Leaf } from '../record/leaves.ts'

/** More figures than this are a series, which is read as JSON. */
const MOST_ROWS = 60

const told = (path: string, value: Leaf): string => {
  if (typeof value === 'number') return (isDifference(path) ? apart : measured)(value, unitIn(path))
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : value
}

/** What a calculation answered: its figures in a table, every step of the working, and what the rules say. */
export function Output({ output }: { output: Record<string, unknown> }) {
  const { working, findings, ...rest } = output
  const leaves = leavesOf(rest)
  return (
    <>
      {leaves.length > 0 && leaves.length <= MOST_ROWS && (
        <div class="sheet" tabIndex={0} role="region" aria-label="What came out">
          <table>
            <caption class="visually-hidden">What came out</caption>
            <tbody>
              {leaves.map(([path, value]) => (
                <tr key={path}>
                  <th scope="row" class="names">
                    {fieldName(path)}
                  </th>
                  <td>{told(path, value)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {Array.isArray(working) && <Working figure="The working" steps={working as WorkingStep[]} open />}
      {Array.isArray(findings) && <Findings findings={findings as Finding[]} />}
      <details open={leaves.length > MOST_ROWS}>
        <summary>The output as JSON</summary>
        <pre class="code" tabIndex={0} aria-label="Output">
          {JSON.stringify(rest, null, 2)}
        </pre>
      </details>
    </>
  )
}
