import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { go } from '../../router.ts'
import { TextField } from '../../ui/field.tsx'

/** Where a trace begins: the code of a lot, or of a pack. */
export function TraceStart() {
  return (
    <>
      <p>
        <a href="/record">All entries</a>
      </p>
      <h1>Trace</h1>
      <div class="two even">
        <Start what="lot" label="Code of the lot" action="Trace this lot forward" />
        <Start what="pack" label="Code of the pack" action="Trace this pack back" />
      </div>
    </>
  )
}

function Start({ what, label, action }: { what: 'lot' | 'pack'; label: string; action: string }) {
  const code = useMemo(() => signal(''), [])
  const fault = useMemo(() => signal<string | undefined>(undefined), [])
  return (
    <form
      noValidate
      aria-label={action}
      onSubmit={(e) => {
        e.preventDefault()
        if (code.value.trim() === '') fault.value = `is empty; allowed: the code of a ${what}`
        else go(`/record/trace/${what}/${encodeURIComponent(code.value.trim())}`)
      }}
    >
      <TextField label={label} value={code.value} onInput={(v) => (code.value = v)} fault={fault.value} />
      <button type="submit" class="main">
        {action}
      </button>
    </form>
  )
}
