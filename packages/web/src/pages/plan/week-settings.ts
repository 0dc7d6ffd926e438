import { signal } from '@preact/signals'

/** How the days to come are planned on this screen. */
export type WeekSettings = {
  readonly days: string
  readonly buyFrom: string
  readonly smallest: string
  readonly largest: string
  /** Days of the week on which nothing is begun, 0 = Sunday. */
  readonly closed: readonly number[]
}

const place = 'plan-settings'
const usual: WeekSettings = { days: '7', buyFrom: '', smallest: '5', largest: '100', closed: [0] }

function stored(): WeekSettings {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? '{}') as Partial<WeekSettings>
    // A day by which goods could be here is soon in the past: it is asked anew.
    return { ...usual, ...kept, buyFrom: '' }
  } catch {
    return usual
  }
}

export const weekSettings = signal<WeekSettings>(stored())

export function setWeek(change: Partial<WeekSettings>): void {
  weekSettings.value = { ...weekSettings.value, ...change }
  try {
    localStorage.setItem(place, JSON.stringify(weekSettings.value))
  } catch {
    // Without storage it lasts as long as the page.
  }
}

/** The settings as a query; what is no whole number is left out, so that the usual one holds. */
export function weekQuery({ days, buyFrom, smallest, largest, closed }: WeekSettings): URLSearchParams {
  const query = new URLSearchParams({ days, closed: closed.toSorted((a, b) => a - b).join(',') })
  if (buyFrom) query.set('buyFrom', buyFrom)
  if (/^\d+$/.test(smallest.trim())) query.set('smallest', smallest.trim())
  if (/^\d+$/.test(largest.trim())) query.set('largest', largest.trim())
  return query
}
