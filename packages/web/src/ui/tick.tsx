import type { Form } from '../state/form.ts'

/** Yes or no, as a box to tick. */
export function Tick({ form, name, label }: { form: Form; name: string; label: string }) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={form.values.value[name] === 'yes'}
        onInput={(e) => form.set(name, e.currentTarget.checked ? 'yes' : '')}
      />
      {label}
    </label>
  )
}
