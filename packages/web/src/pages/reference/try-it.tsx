import type { Fault } from '@forcemeat/craft/calculation'
import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { post, Refused } from '../../api.ts'
import { Field } from '../../ui/field.tsx'
import { Faults } from '../../ui/notes.tsx'
import { Output } from './output.tsx'
import { PlainFields } from './plain-fields.tsx'
import { fieldsOf, inputOf, nameOf, textsOf, type Texts } from './plain-form.ts'
import type { Schema } from './schema-table.tsx'

type Out = { output?: Record<string, unknown>; error?: Refused; busy: boolean }
const json = (value: unknown): string => JSON.stringify(value, null, 2)

/** An input typed field by field, or as JSON; the two say the same. */
function useInput(schema: Schema, example: unknown) {
  return useMemo(() => {
    const fields = fieldsOf(schema)
    const [texts, text, asJson] = [signal<Texts>(textsOf(fields, example)), signal(json(example)), signal(false)]
    const faults = signal<readonly Fault[]>([])
    /** The input as typed; undefined where it cannot be read, which is then said. */
    const read = (): unknown => {
      faults.value = []
      if (!asJson.value) {
        const { input, faults: found } = inputOf(fields, texts.value)
        faults.value = found
        return found.length > 0 ? undefined : input
      }
      try {
        return JSON.parse(text.value)
      } catch (error) {
        faults.value = [{ path: '(json)', message: `is not JSON: ${(error as Error).message}` }]
        return undefined
      }
    }
    const fill = (input: unknown): void => {
      texts.value = textsOf(fields, input)
      text.value = json(input)
      faults.value = []
    }
    const turn = (): void => {
      const input = read()
      if (input === undefined) return
      fill(input)
      asJson.value = !asJson.value
    }
    return { fields, texts, text, asJson, faults, read, fill, turn }
  }, [])
}

/** The fields of a calculation with the example in them, and what it says to what is typed. */
export function TryIt({ name, schema, example }: { name: string; schema: Schema; example: unknown }) {
  const typed = useInput(schema, example)
  const out = useMemo(() => signal<Out>({ busy: false }), [])
  const run = async (): Promise<void> => {
    const input = typed.read()
    if (input === undefined) return
    out.value = { ...out.value, busy: true }
    try {
      const output = await post<Record<string, unknown>>(`/api/calc/${encodeURIComponent(name)}`, input)
      out.value = { output, busy: false }
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      typed.faults.value = error.faults
      out.value = { error, busy: false }
    }
  }
  const { output, error, busy } = out.value
  const names = typed.fields.map(nameOf)
  // What belongs to a field that is shown stands at it, and not again above the output.
  const atField = (f: Fault): boolean =>
    !typed.asJson.value && names.some((n) => f.path === n || f.path.startsWith(`${n}.`) || f.path.startsWith(`${n}[`))
  return (
    <div class="two">
      <form
        noValidate
        aria-label="Try it"
        onSubmit={(e) => {
          e.preventDefault()
          void run()
        }}
      >
        {typed.asJson.value ? (
          <Field label="Input as JSON" fault={typed.faults.value.find((f) => f.path === '(json)')?.message}>
            {({ id, describedBy, invalid }) => (
              <textarea
                id={id}
                class="code"
                rows={14}
                spellcheck={false}
                {...(describedBy ? { 'aria-describedby': describedBy } : {})}
                aria-invalid={invalid}
                value={typed.text.value}
                onInput={(e) => (typed.text.value = e.currentTarget.value)}
              />
            )}
          </Field>
        ) : (
          <PlainFields
            fields={typed.fields}
            texts={typed.texts.value}
            faults={typed.faults.value}
            set={(field, text) => {
              typed.texts.value = { ...typed.texts.value, [field]: text }
              typed.faults.value = typed.faults.value.filter((f) => !f.path.startsWith(field))
            }}
          />
        )}
        <p class="actions">
          <button type="submit" class="main" disabled={busy}>
            Work it out
          </button>
          <button type="button" class="plain" onClick={() => typed.fill(example)}>
            Back to the example
          </button>
          <button type="button" class="plain" onClick={typed.turn}>
            {typed.asJson.value ? 'Type it in fields' : 'Type it as JSON'}
          </button>
        </p>
      </form>
      <div aria-live="polite">
        {error && error.faults.some((f) => !atField(f)) && <Faults error={error} />}
        {error && error.faults.every(atField) && <p class="fault">Something above cannot be taken: see its field.</p>}
        {output ? <Output output={output} /> : !error && <p class="quiet">What comes out is shown here.</p>}
      </div>
    </div>
  )
}
