import type { Finding } from '@forcemeat/craft/finding'
import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { Faults } from '../../ui/notes.tsx'
import { Findings } from '../../ui/verdict.tsx'

type Asked = Readonly<Record<string, unknown>>
type Answer = { readonly findings: readonly Finding[] }

/** Typed quickly, only what stands still for this long is asked about, ms. */
const pause = 250

/** What the published freezing schedules make of a treatment as it is typed. Nothing where nothing can be asked yet. */
export function FreezingFinding({ asked }: { asked: Asked | undefined }) {
  const found = useMemo(() => signal<readonly Finding[] | undefined>(undefined), [])
  const fault = useMemo(() => signal<Refused | undefined>(undefined), [])
  const key = asked === undefined ? '' : JSON.stringify(asked)
  useEffect(() => {
    found.value = undefined
    fault.value = undefined
    if (key === '') return
    let stale = false
    const timer = setTimeout(() => {
      post<Answer>('/api/calc/pork.freezing', JSON.parse(key)).then(
        (a) => {
          if (!stale) found.value = a.findings
        },
        (error: unknown) => {
          if (!stale && error instanceof Refused) fault.value = error
        },
      )
    }, pause)
    return () => {
      stale = true
      clearTimeout(timer)
    }
  }, [key])
  return (
    <section aria-label="By the freezing schedules" aria-live="polite">
      <h4>By the freezing schedules</h4>
      <Faults error={fault.value} />
      {found.value ? (
        <Findings findings={found.value} />
      ) : (
        <p class="quiet">
          {key === '' ? 'Nothing to hold against a schedule yet: fill in the fields above.' : 'Asking…'}
        </p>
      )}
    </section>
  )
}
