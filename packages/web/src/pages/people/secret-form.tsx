import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { refuse, useForm } from '../../state/form.ts'
import { recordVersion } from '../../state/live.ts'
import { session } from '../../state/session.ts'
import { TextField } from '../../ui/field.tsx'
import { EntryForm, faultAt, FormChoice } from '../../ui/form.tsx'
import type { Secreted } from './people.tsx'

/** Set a passphrase or a PIN. What is typed is kept in no form's memory; it is only sent. */
export function SecretForm({ people, done }: { people: readonly Secreted[]; done: () => Promise<void> }) {
  const mine = session.value.person
  const onlyMine = session.value.mode === 'people' && session.value.role !== 'owner'
  const choices = onlyMine ? people.filter((p) => p.person === mine) : people
  const form = useForm('secret-of', { person: mine ?? choices[0]?.person ?? '', which: 'passphrase' })
  const typed = useMemo(() => signal(''), [])
  const again = useMemo(() => signal(''), [])
  const pin = form.values.value['which'] === 'pin'
  const send = async (): Promise<void> => {
    if (typed.value !== again.value)
      return refuse(form, [{ path: 'again', message: 'is not the same; allowed: the same twice' }])
    const field = pin ? 'pin' : 'passphrase'
    const person = encodeURIComponent(form.values.value['person'] ?? '')
    try {
      await post(`/api/people/${person}/${field}`, { [field]: typed.value })
      typed.value = ''
      again.value = ''
      form.faults.value = []
      form.done.value = pin ? 'The PIN is set.' : 'The passphrase is set.'
      await done()
      recordVersion.value += 1
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      refuse(
        form,
        error.faults.map((f) => ({ ...f, path: f.path === field ? 'secret' : f.path })),
      )
    }
  }
  return (
    <EntryForm
      form={form}
      fields={['person', 'which', 'secret', 'again']}
      label="Set a passphrase or a PIN"
      action={pin ? 'Set the PIN' : 'Set the passphrase'}
      quiet
      onSubmit={() => void send()}
    >
      <h2>Passphrase and PIN</h2>
      <FormChoice
        form={form}
        name="person"
        label="Of"
        options={choices.map((p) => ({ value: p.person, label: p.name }))}
      />
      <FormChoice
        form={form}
        name="which"
        label="Which"
        options={[
          { value: 'passphrase', label: 'passphrase, to sign in' },
          { value: 'pin', label: 'PIN, to take over a shared tablet' },
        ]}
      />
      <TextField
        label={pin ? 'New PIN' : 'New passphrase'}
        type="password"
        numeric={pin}
        value={typed.value}
        onInput={(v) => (typed.value = v)}
        fault={faultAt(form, 'secret')}
        hint={pin ? '4 to 8 digits. It only adds entries.' : 'At least 12 characters; several words are good.'}
      />
      <TextField
        label="The same again"
        type="password"
        numeric={pin}
        value={again.value}
        onInput={(v) => (again.value = v)}
        fault={faultAt(form, 'again')}
      />
    </EntryForm>
  )
}
