import { computed, effect, signal } from '@preact/signals'

const kept = (key: string): string => {
  try {
    return localStorage.getItem(key) ?? ''
  } catch {
    return ''
  }
}

/** Code of the person at this screen; every entry carries it. */
export const who = signal(kept('who'))

/** Units shown on this screen where they differ from the kitchen's. */
export const units = signal<'metric' | 'us' | ''>(kept('units') as 'metric' | 'us' | '')

/** Units of the kitchen, as its record has them. */
export const kitchenUnits = signal<'metric' | 'us'>('metric')

/** The system of units in which this screen shows and reads figures. */
export const system = computed<'metric' | 'us'>(() => units.value || kitchenUnits.value)

effect(() => {
  try {
    localStorage.setItem('who', who.value)
    localStorage.setItem('units', units.value)
  } catch {
    // Private windows may refuse storage; the choice then lasts as long as the page.
  }
})
