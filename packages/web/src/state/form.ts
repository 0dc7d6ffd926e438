import { signal, type Signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { Fault } from '@forcemeat/craft/calculation'
import { post, Refused } from '../api.ts'
import { recordVersion } from './live.ts'
import { keepFocus } from './focus.ts'
import { readerOf, type Reader } from './reader.ts'
import { keep as keepUnsent, mustWait } from './unsent.ts'
import { who } from './who.ts'

export type Values = Readonly<Record<string, string>>

/** A fact as a page hands it in; who and the key are added when it is sent. */
export type FactDraft = { kind: string; body: unknown; corrects?: number; why?: string; by?: string }

export type Recorded = { seq: number; kind: string; at: string; hash: string }

export type Form = {
  readonly id: string
  readonly values: Signal<Values>
  readonly faults: Signal<readonly Fault[]>
  readonly sending: Signal<boolean>
  readonly done: Signal<string>
  /** Key under which the next sending is recorded once, however often it is sent. */
  readonly key: Signal<string>
  readonly set: (name: string, value: string) => void
  /** Set all texts at once. */
  readonly replace: (values: Values) => void
  readonly clear: (to?: Values) => void
}

const stored = (id: string): { values: Values; key: string } | undefined => {
  try {
    const text = sessionStorage.getItem(`form:${id}`)
    return text ? (JSON.parse(text) as { values: Values; key: string }) : undefined
  } catch {
    return undefined
  }
}

function keep(form: Pick<Form, 'id' | 'values' | 'key'>): void {
  try {
    sessionStorage.setItem(`form:${form.id}`, JSON.stringify({ values: form.values.value, key: form.key.value }))
  } catch {
    // Without storage what was typed lasts as long as the page.
  }
}

/** A form's texts, kept over reloads and lost connections until they are recorded. */
export function useForm(id: string, initial: Values): Form {
  return useMemo(() => {
    const was = stored(id)
    const form: Form = {
      id,
      values: signal<Values>({ ...initial, ...was?.values }),
      faults: signal<readonly Fault[]>([]),
      sending: signal(false),
      done: signal(''),
      key: signal(was?.key ?? crypto.randomUUID()),
      set: (name, value) => {
        form.values.value = { ...form.values.value, [name]: value }
        form.done.value = ''
        form.faults.value = form.faults.value.filter((f) => f.path !== name)
        keep(form)
      },
      replace: (values) => {
        form.values.value = values
        form.done.value = ''
        form.faults.value = []
        keep(form)
      },
      clear: (to = initial) => {
        form.values.value = to
        form.faults.value = []
        form.key.value = crypto.randomUUID()
        try {
          sessionStorage.removeItem(`form:${id}`)
        } catch {
          // Nothing was kept.
        }
      },
    }
    return form
  }, [id])
}

/** A server path such as `[0].body.kg` as the name of the form's field. */
export const fieldOf = (path: string): string =>
  path.replace(/^(entries|drafts)?\.?\[?\d+\]?\./, '').replace(/^body\.?/, '')

type Submit = {
  /** Build the facts from what was typed; faults found on the way stop the sending. */
  read: (reader: Reader, values: Values) => FactDraft | readonly FactDraft[] | undefined
  done?: string | ((entries: readonly Recorded[]) => string)
  after?: (entries: readonly Recorded[]) => void
  /** Texts the form starts again with. */
  clear?: Values | false
  /** Fields of the form by the record's name for them, where the two differ. */
  fieldFor?: Readonly<Record<string, string>>
}

/** Record facts under a key. @throws Refused */
export async function record(drafts: readonly FactDraft[], key: string): Promise<readonly Recorded[]> {
  if (!who.value && drafts.some((d) => !d.by))
    throw new Refused(400, [
      { path: 'by', message: 'nobody is named; allowed: choose who is working here, at the top of the page' },
    ])
  const keyed = drafts.map((d, i) => ({ by: who.value, ...d, key: drafts.length > 1 ? `${key}.${i}` : key }))
  // Behind entries that wait, so that they are recorded in the order they were made.
  if (mustWait()) return waits(key, keyed)
  try {
    const { entries } = await post<{ entries: Recorded[] }>('/api/entries', keyed.length === 1 ? keyed[0] : keyed)
    recordVersion.value += 1
    return entries
  } catch (error) {
    if (!(error instanceof Refused) || error.status !== 0) throw error
    return waits(key, keyed)
  }
}

/** Kept on this screen until the server answers. @throws Refused where the browser keeps nothing */
function waits(key: string, drafts: readonly object[]): readonly Recorded[] {
  try {
    keepUnsent(key, drafts)
  } catch {
    throw new Refused(0, [
      { path: '', message: 'the server does not answer; what you typed is still here, try again when it is back' },
    ])
  }
  return []
}

/** Read, send, and say what happened; nothing typed is lost unless it was recorded. */
export async function submit(
  form: Form,
  { read, done = 'Recorded.', after, clear, fieldFor = {} }: Submit,
): Promise<void> {
  if (form.sending.value) return
  const reader = readerOf(form.values.value)
  const built = read(reader, form.values.value)
  form.done.value = ''
  form.faults.value = reader.faults
  if (reader.faults.length > 0 || built === undefined) return focusFirstFault()
  const back = keepFocus()
  form.sending.value = true
  try {
    const entries = await record(Array.isArray(built) ? built : [built as FactDraft], form.key.value)
    if (clear === false) form.key.value = crypto.randomUUID()
    else form.clear(clear)
    if (entries.length === 0) {
      form.done.value = 'Kept on this screen; it is sent by itself when the server answers.'
      back()
      return
    }
    form.done.value = typeof done === 'string' ? done : done(entries)
    after?.(entries)
    back()
  } catch (error) {
    if (!(error instanceof Refused)) throw error
    const faults = error.faults.map(({ path, message }) => ({
      path: fieldFor[fieldOf(path)] ?? fieldOf(path),
      message,
    }))
    // Two drafts sent together may share a fault: it is said once.
    form.faults.value = [...new Map(faults.map((f) => [`${f.path} ${f.message}`, f])).values()]
    focusFirstFault()
  } finally {
    form.sending.value = false
  }
}

/** Show faults found before sending. */
export function refuse(form: Form, faults: readonly Fault[]): void {
  form.faults.value = faults
  focusFirstFault()
}

function focusFirstFault(): void {
  requestAnimationFrame(() => {
    const at = document.querySelector<HTMLElement>('[aria-invalid="true"], .faults')
    at?.focus()
    at?.scrollIntoView({ block: 'nearest' })
  })
}
