import { computed, effect, signal } from '@preact/signals'
import { get, post } from '../api.ts'
import { who } from './who.ts'

/** Who the server says is signed in; `open` where nobody has to. */
export type Session = {
  readonly mode: 'open' | 'kitchen' | 'people'
  readonly person?: string
  readonly role?: 'owner' | 'maker' | 'checker' | 'reader'
  readonly by?: 'passphrase' | 'pin'
  readonly kinds?: readonly string[]
  readonly may?: { readonly decide: boolean; readonly manage: boolean }
  readonly withPin?: readonly string[]
}

export const session = signal<Session>({ mode: 'open' })

/** True where this screen signs as whoever is signed in, and nobody else can be chosen. */
export const signedIn = computed(() => session.value.mode === 'people' && session.value.person !== undefined)

/** Whether the person here may add entries of a kind; the server decides in any case. */
export const mayAdd = (kind: string): boolean =>
  session.value.mode !== 'people' || session.value.kinds?.includes(kind) === true
export const mayManage = computed(() => session.value.mode !== 'people' || session.value.may?.manage === true)

/** Ask the server again who is here; false without an answer: the last one stands then, for the server refuses what it must. */
export async function sessionAnswers(): Promise<boolean> {
  try {
    session.value = await get<Session>('/api/session')
    return true
  } catch {
    return false
  }
}

export async function readSession(): Promise<void> {
  await sessionAnswers()
}

effect(() => {
  if (session.value.mode === 'people' && session.value.person) who.value = session.value.person
})

/** What is to be done before somebody else takes this screen over; state that keeps something of theirs adds to it. */
export const beforeHandover: (() => Promise<void>)[] = []

/** Hand this tablet to another person by their PIN. @throws Refused */
export async function switchTo(person: string, pin: string): Promise<void> {
  for (const work of beforeHandover) await work()
  await post('/api/switch', { person, pin })
  await readSession()
}

export async function signOut(): Promise<void> {
  for (const work of beforeHandover) await work()
  await post('/api/sign-out', {})
  location.assign('/sign-in')
}
