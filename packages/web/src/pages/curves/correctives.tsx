import type { Finding } from '@forcemeat/craft/finding'
import { correctivesFor } from '@forcemeat/rulebook/corrective/choices'
import { Citation } from '../../ui/citation.tsx'
import { Caution } from '../../ui/notes.tsx'

/** What is open after findings that fail, with who says so. */
export function Correctives({ findings }: { findings: readonly Finding[] }) {
  const choices = correctivesFor(findings)
  if (choices.length === 0) return null
  return (
    <section>
      <h2>What is open now</h2>
      <Caution>
        Hold the batch. These are published and common choices; a qualified person takes one and signs for it.
      </Caution>
      <ul class="entries">
        {choices.map((c) => (
          <li key={c.id}>
            <strong>
              <a href={`/rules/${encodeURIComponent(c.id)}`}>{c.title}</a>
            </strong>
            <p>{c.text}</p>
            <p class="cite">
              <Citation source={c.source} />
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}
