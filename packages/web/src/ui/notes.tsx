import type { ComponentChildren } from 'preact'
import type { Refused } from '../api.ts'
import { notHereWords } from './not-here.ts'
import type { Resource } from '../state/resource.ts'

/** What the page says while there is nothing to show, with the one thing to do next. */
export function Empty({ children }: { children: ComponentChildren }) {
  return <div class="empty">{children}</div>
}

export function Loading({ what }: { what: string }) {
  return (
    <p class="loading" role="status">
      Reading {what}…
    </p>
  )
}

/** A refusal, every fault on its own line. */
export function Faults({ error }: { error: Refused | undefined }) {
  if (!error) return null
  const missing = error.faults.length === 1 ? notHereWords(error.status, error.faults[0]!) : undefined
  if (missing)
    return (
      <div class="empty" role="alert">
        <p>{missing.said}</p>
        <p>
          <a href={missing.page}>{missing.link}</a>
        </p>
      </div>
    )
  return (
    <div class="faults" role="alert">
      <ul>
        {error.faults.map((f) => (
          <li key={f.path + f.message}>
            {f.path && <strong>{f.path} </strong>}
            {f.message}
          </li>
        ))}
      </ul>
    </div>
  )
}

/** A caution where the hand is. */
export function Caution({ children }: { children: ComponentChildren }) {
  return (
    <p class="caution">
      <strong>Caution</strong> {children}
    </p>
  )
}

/** Show a resource: loading, error, or `children` with its value. */
export function Shown<T>({
  of,
  what,
  children,
}: {
  of: Resource<T>
  what: string
  children: (value: T) => ComponentChildren
}) {
  if (of.value !== undefined)
    return (
      <>
        <Faults error={of.error} />
        {children(of.value)}
      </>
    )
  if (of.error) return <Faults error={of.error} />
  return <Loading what={what} />
}
