import { useResource } from '../state/resource.ts'
import { forAnother, letGo, unsent, type Kept } from '../state/unsent.ts'
import type { KitchenView } from '../state/views.ts'
import { factName } from './words.ts'

const time = (at: string): string => new Date(at).toLocaleTimeString()
const factsOf = (k: Kept) => k.drafts as readonly { kind: string; by?: string; body: Record<string, unknown> }[]

/** What this screen keeps until the server answers, and what the server would not take. */
export function Unsent() {
  const kept = unsent.value.filter((k) => k.refused === undefined)
  const waiting = kept.filter((k) => !forAnother(k))
  const others = kept.filter(forAnother)
  const refused = unsent.value.filter((k) => k.refused !== undefined)
  return (
    <>
      {waiting.length > 0 && (
        <div class="banner banner-stop">
          <span role="status">
            {waiting.length === 1 ? 'One entry waits' : `${waiting.length} entries wait`} on this screen to be sent, in
            order. Do not clear the browser.
          </span>
          <details>
            <summary>What waits</summary>
            <ol>
              {waiting.flatMap((k) =>
                factsOf(k).map((f, i) => (
                  <li key={`${k.key} ${i}`}>
                    {time(k.at)}, {factName(f.kind)}: {wordsOf(f.body)}
                  </li>
                )),
              )}
            </ol>
          </details>
        </div>
      )}
      {others.length > 0 && <ForOthers kept={others} />}
      {refused.map((k) => (
        <p key={k.key} class="banner banner-stop" role="alert">
          An entry made at {time(k.at)} was refused when it was sent: {k.refused}. It holds:{' '}
          <code class="code">{JSON.stringify(k.drafts)}</code>{' '}
          <button type="button" onClick={() => letGo(k.key)}>
            Seen; let it go
          </button>
        </p>
      ))}
    </>
  )
}

/** What waits for somebody who is not signed in here, by their name. */
function ForOthers({ kept }: { kept: readonly Kept[] }) {
  const people = useResource<KitchenView>('/api/kitchen').value.value?.people ?? []
  const by = [...Map.groupBy(kept, (k) => factsOf(k)[0]?.by ?? '')]
  return (
    <>
      {by.map(([code, own]) => {
        const name = people.find((p) => p.person === code)?.name ?? code
        return (
          <p key={code} class="banner banner-stop" role="status">
            {own.length === 1
              ? `One entry made on this screen waits for ${name} to sign in.`
              : `${own.length} entries made on this screen wait for ${name} to sign in.`}{' '}
            Nothing is sent under another name; do not clear the browser.
          </p>
        )
      })}
    </>
  )
}

/** The plain values of a fact in a line. */
const wordsOf = (body: Readonly<Record<string, unknown>>): string =>
  Object.values(body)
    .filter((v) => typeof v === 'string' || typeof v === 'number')
    .map(String)
    .join(', ')
