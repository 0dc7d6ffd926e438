import { signal } from '@preact/signals'
import { readQuantity } from '../../state/reader.ts'

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
const usual: WeekSettings = { days: '7', buyFrom: '', smallest: '5 kg', largest: '100 kg', closed: [0] }

/** A size kept without its unit was kept in kg. */
const inKg = (kept: string | undefined, usually: string): string =>
  kept === undefined ? usually : /^[\d.,]+$/.test(kept.trim()) ? `${kept.trim()} kg` : kept

function stored(): WeekSettings {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? '{}') as Partial<WeekSettings>
    // A day by which goods could be here is soon in the past: it is asked anew.
    return {
      ...usual,
      ...kept,
      smallest: inKg(kept.smallest, usual.smallest),
      largest: inKg(kept.largest, usual.largest),
      buyFrom: '',
    }
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

/** A batch size as typed, kg. */
export function batchKg(typed: string): number | undefined {
  const read = readQuantity(typed, 'mass')
  return read.ok && read.value > 0 ? Number(read.value.toPrecision(6)) : undefined
}

/** The settings as a query; what is no weight is left out, so that the usual one holds. */
export function weekQuery({ days, buyFrom, smallest, largest, closed }: WeekSettings): URLSearchParams {
  const query = new URLSearchParams({ days, closed: closed.toSorted((a, b) => a - b).join(',') })
  if (buyFrom) query.set('buyFrom', buyFrom)
  for (const [name, typed] of [
    ['smallest', smallest],
    ['largest', largest],
  ] as const) {
    const kg = batchKg(typed)
    if (kg !== undefined) query.set(name, String(kg))
  }
  return query
}
