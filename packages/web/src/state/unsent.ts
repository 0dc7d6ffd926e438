import { signal } from '@preact/signals'
import { post, Refused } from '../api.ts'
import { recordVersion } from './live.ts'
import { beforeHandover, session, sessionAnswers } from './session.ts'

/** Entries this screen could not send: kept in the order they were made, under the keys they will be recorded by once. */
export type Kept = {
  readonly key: string
  readonly drafts: readonly object[]
  readonly at: string
  readonly refused?: string
}

const name = 'unsent'

const read = (): readonly Kept[] => {
  try {
    const text = localStorage.getItem(name)
    return text ? (JSON.parse(text) as Kept[]) : []
  } catch {
    return []
  }
}

export const unsent = signal<readonly Kept[]>(read())

/** Written before it counts as kept. @throws where the browser keeps nothing: the form then keeps what was typed */
function write(list: readonly Kept[]): void {
  localStorage.setItem(name, JSON.stringify(list))
  unsent.value = list
}

/** Whose entries these are. */
const byOf = (k: Kept): string | undefined => (k.drafts as readonly { by?: string }[])[0]?.by

/** Where everybody signs in, what one person made waits until that person is signed in again; nobody else sends it under their name. */
export const forAnother = (k: Kept): boolean =>
  session.value.mode === 'people' && session.value.person !== undefined && byOf(k) !== session.value.person

const waiting = (k: Kept): boolean => k.refused === undefined && !forAnother(k)

/** Whether entries must line up behind earlier ones. */
export const mustWait = (): boolean => unsent.value.some(waiting)

export const keep = (key: string, drafts: readonly object[]): void =>
  write([...read(), { key, drafts, at: new Date().toISOString() }])

/** Let go of one the server refused, once a person has seen why. */
export const letGo = (key: string): void => write(read().filter((k) => k.key !== key))

const keyed = (list: readonly Kept[], key: string, change: (k: Kept) => readonly Kept[]): readonly Kept[] =>
  list.flatMap((k) => (k.key === key ? change(k) : [k]))

let sending: Promise<void> | undefined

async function sendAll(): Promise<void> {
  for (;;) {
    const next = read().find(waiting)
    if (!next) return
    try {
      await post('/api/entries', next.drafts.length === 1 ? next.drafts[0] : next.drafts)
      write(keyed(read(), next.key, () => []))
      recordVersion.value += 1
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      // No answer, a busy server, a session that ended: it waits. Anything else would be refused again.
      if (error.status === 0 || error.status === 401 || error.status === 429 || error.status >= 500) return
      if (error.status === 403) {
        // Another tab may have handed this browser over: then it was sent under the wrong name, and waits for who made it.
        if (!(await sessionAnswers())) return
        if (forAnother(next)) continue
      }
      write(keyed(read(), next.key, (k) => [{ ...k, refused: error.message }]))
    }
  }
}

/**
 * Send what waits, oldest first, one after another; two pages of one browser take turns. A line that is still down leaves the rest; what
 * is refused stays, with why. Sent twice by chance, an entry is recorded once: its key is the same.
 */
export function sendUnsent(): Promise<void> {
  sending ??= (navigator.locks ? navigator.locks.request('unsent', sendAll) : sendAll()).finally(() => {
    sending = undefined
  })
  return sending
}

/** Try again whenever the network says it is back, and every few seconds while anything waits. */
export function watchUnsent(): void {
  // Under the name of who made them, while that person is still signed in.
  beforeHandover.push(sendUnsent)
  window.addEventListener('online', () => void sendUnsent())
  window.addEventListener('storage', (e) => {
    if (e.key === name) unsent.value = read()
  })
  setInterval(() => {
    if (mustWait()) void sendUnsent()
  }, 3000)
  // Who made what waits here may have signed in again in another tab.
  const lookAgain = (): void => {
    if (!document.hidden && unsent.value.some((k) => k.refused === undefined && forAnother(k)))
      void sessionAnswers().then(() => (mustWait() ? sendUnsent() : undefined))
  }
  window.addEventListener('focus', lookAgain)
  setInterval(lookAgain, 10_000)
  void sendUnsent()
}
