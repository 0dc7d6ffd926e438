import { effect, signal } from '@preact/signals'

const kept = (key: string): string => {
  try {
    return localStorage.getItem(key) ?? ''
  } catch {
    return ''
  }
}

/** Code of the person at this screen; every entry carries it. */
export const who = signal(kept('who'))

/** Units shown on this screen: as the kitchen's setting unless switched here. */
export const units = signal<'metric' | 'us' | ''>(kept('units') as 'metric' | 'us' | '')

effect(() => {
  try {
    localStorage.setItem('who', who.value)
    localStorage.setItem('units', units.value)
  } catch {
    // Private windows may refuse storage; the choice then lasts as long as the page.
  }
})
