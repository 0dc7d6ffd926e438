import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'

/** This screen's clock, moved on twice a minute, ms. */
export function useNow(): number {
  const now = useMemo(() => signal(Date.now()), [])
  useEffect(() => {
    const beat = setInterval(() => (now.value = Date.now()), 30_000)
    return () => clearInterval(beat)
  }, [])
  return now.value
}

/** Hours as a person says them: "5 h 20 min". */
export function spanOf(hours: number): string {
  const minutes = Math.max(0, Math.round(hours * 60))
  const [h, m] = [Math.floor(minutes / 60), minutes % 60]
  return h === 0 ? `${m} min` : m === 0 || h >= 48 ? `${h} h` : `${h} h ${m} min`
}

const weekday = new Intl.DateTimeFormat(undefined, { weekday: 'short', hour: '2-digit', minute: '2-digit' })
const date = new Intl.DateTimeFormat(undefined, { weekday: 'short', day: 'numeric', month: 'short' })
const dated = new Intl.DateTimeFormat(undefined, { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' })

/** A time of the week, in this screen's zone. */
export const timeOfWeek = (ms: number): string => weekday.format(ms)
/** A day with its weekday, in this screen's zone; with its year where that is another than this one. */
export const dayOfWeek = (ms: number): string =>
  (new Date(ms).getFullYear() === new Date().getFullYear() ? date : dated).format(ms)
