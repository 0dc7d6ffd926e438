import { letGo, unsent } from '../state/unsent.ts'

/** What this screen keeps until the server answers, and what the server would not take. */
export function Unsent() {
  const waiting = unsent.value.filter((k) => k.refused === undefined)
  const refused = unsent.value.filter((k) => k.refused !== undefined)
  return (
    <>
      {waiting.length > 0 && (
        <p class="banner banner-stop" role="status">
          {waiting.length === 1 ? 'One entry waits' : `${waiting.length} entries wait`} on this screen to be sent, in
          order. Do not clear the browser.
        </p>
      )}
      {refused.map((k) => (
        <p key={k.key} class="banner banner-stop" role="alert">
          An entry made at {new Date(k.at).toLocaleTimeString()} was refused when it was sent: {k.refused}. It holds:{' '}
          <code class="code">{JSON.stringify(k.drafts)}</code>{' '}
          <button type="button" onClick={() => letGo(k.key)}>
            Seen; let it go
          </button>
        </p>
      ))}
    </>
  )
}
