import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused } from '../api.ts'
import { session, signOut, switchTo } from '../state/session.ts'
import { unsent } from '../state/unsent.ts'
import type { KitchenView } from '../state/views.ts'
import { who } from '../state/who.ts'
import { TextField } from './field.tsx'

/** Who is working here: chosen from a list, or, where people sign in as themselves, handed over by PIN. */
export function AtScreen({ kitchen }: { kitchen: KitchenView }) {
  if (session.value.mode === 'people') return <SignedIn kitchen={kitchen} />
  return (
    <label>
      <span>Working here</span>
      <select value={who.value} onInput={(e) => (who.value = e.currentTarget.value)}>
        <option value="">nobody yet</option>
        {kitchen.people
          .filter((p) => !p.left)
          .map((p) => (
            <option key={p.person} value={p.person}>
              {p.name} ({p.role})
            </option>
          ))}
      </select>
    </label>
  )
}

function SignedIn({ kitchen }: { kitchen: KitchenView }) {
  const open = useMemo(() => signal(false), [])
  const { person, role, by } = session.value
  const name = kitchen.people.find((p) => p.person === person)?.name ?? person
  return (
    <div class="signed-in">
      <button type="button" aria-expanded={open.value} onClick={() => (open.value = !open.value)}>
        <span class="visually-hidden">Working here: </span>
        {name} ({role}
        {by === 'pin' && ', by PIN'})
      </button>
      {open.value && <HandOver kitchen={kitchen} done={() => (open.value = false)} />}
    </div>
  )
}

/** Two taps: a name, then the PIN. */
function HandOver({ kitchen, done }: { kitchen: KitchenView; done: () => void }) {
  const chosen = useMemo(() => signal(''), [])
  const pin = useMemo(() => signal(''), [])
  const fault = useMemo(() => signal(''), [])
  const { withPin = [] } = session.value
  const others = kitchen.people.filter((p) => withPin.includes(p.person) && p.left !== true)
  const send = async (): Promise<void> => {
    try {
      await switchTo(chosen.value, pin.value)
      done()
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      fault.value = error.faults.map((f) => f.message).join('; ')
      pin.value = ''
    }
  }
  return (
    <div class="hand-over" role="dialog" aria-label="Hand this tablet over">
      {unsent.value.length > 0 && (
        <p class="late">{unsent.value.length} entries of yours wait to be sent: hand over when they are.</p>
      )}
      {others.length === 0 && <p class="quiet">Nobody has a PIN yet. An owner sets one on the People page.</p>}
      {others.map((p) => (
        <button
          key={p.person}
          type="button"
          aria-pressed={chosen.value === p.person}
          disabled={unsent.value.length > 0}
          onClick={() => {
            chosen.value = p.person
            fault.value = ''
          }}
        >
          {p.name}
        </button>
      ))}
      {chosen.value && (
        <form
          noValidate
          aria-label="PIN"
          onSubmit={(e) => {
            e.preventDefault()
            void send()
          }}
        >
          <TextField
            label={`PIN of ${kitchen.people.find((p) => p.person === chosen.value)?.name ?? chosen.value}`}
            type="password"
            numeric
            value={pin.value}
            onInput={(v) => (pin.value = v)}
            fault={fault.value || undefined}
          />
          <button type="submit" class="main">
            Take over
          </button>
        </form>
      )}
      <p class="actions">
        <a class="button" href="/people">
          People
        </a>
        <button type="button" onClick={() => void signOut()}>
          Sign out
        </button>
      </p>
    </div>
  )
}
