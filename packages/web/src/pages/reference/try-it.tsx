import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { Finding, WorkingStep } from '@forcemeat/craft/finding'
import { post, Refused } from '../../api.ts'
import { Field } from '../../ui/field.tsx'
import { Faults } from '../../ui/notes.tsx'
import { Findings } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'

type Out = { output?: Record<string, unknown>; error?: Refused; busy: boolean }

/** A field of JSON with the example in it, and what the calculation says to it. */
export function TryIt({ name, example }: { name: string; example: unknown }) {
  const text = useMemo(() => signal(JSON.stringify(example, null, 2)), [])
  const out = useMemo(() => signal<Out>({ busy: false }), [])
  const fault = useMemo(() => signal<string | undefined>(undefined), [])
  const run = async (): Promise<void> => {
    let input: unknown
    try {
      input = JSON.parse(text.value)
      fault.value = undefined
    } catch (error) {
      fault.value = `is not JSON: ${(error as Error).message}`
      return
    }
    out.value = { ...out.value, busy: true }
    try {
      out.value = {
        output: await post<Record<string, unknown>>(`/api/calc/${encodeURIComponent(name)}`, input),
        busy: false,
      }
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      out.value = { error, busy: false }
    }
  }
  const { output, error, busy } = out.value
  return (
    <div class="two">
      <div>
        <Field label="Input as JSON" fault={fault.value}>
          {({ id, describedBy, invalid }) => (
            <textarea
              id={id}
              class="code"
              rows={14}
              spellcheck={false}
              {...(describedBy ? { 'aria-describedby': describedBy } : {})}
              aria-invalid={invalid}
              value={text.value}
              onInput={(e) => (text.value = e.currentTarget.value)}
            />
          )}
        </Field>
        <p class="actions">
          <button type="button" class="main" disabled={busy} onClick={() => void run()}>
            Run
          </button>
          <button type="button" class="plain" onClick={() => (text.value = JSON.stringify(example, null, 2))}>
            Back to the example
          </button>
        </p>
      </div>
      <div aria-live="polite">
        <Faults error={error} />
        {output ? <Output output={output} /> : !error && <p class="quiet">Run it to see the output here.</p>}
      </div>
    </div>
  )
}

function Output({ output }: { output: Record<string, unknown> }) {
  const { working, findings, ...rest } = output
  return (
    <>
      <pre class="code" tabIndex={0} aria-label="Output">
        {JSON.stringify(rest, null, 2)}
      </pre>
      {Array.isArray(working) && <Working figure="Show the working" steps={working as WorkingStep[]} />}
      {Array.isArray(findings) && <Findings findings={findings as Finding[]} />}
    </>
  )
}
