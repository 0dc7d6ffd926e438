/** Requests one session may make in a minute: those that change something, and those that read. */
export const perMinute = { write: 600, read: 3000 } as const
const most = 5000

/** Counts requests by key in spans of a minute. Answers the seconds to wait, 0 where the request may be answered now. */
export function createPace(now: () => Date) {
  let span = 0
  let counts = new Map<string, number>()
  return (key: string, kind: keyof typeof perMinute): number => {
    const at = now().getTime()
    const minute = Math.floor(at / 60_000)
    if (minute !== span || counts.size > most) {
      span = minute
      counts = new Map()
    }
    const name = `${kind} ${key}`
    const count = (counts.get(name) ?? 0) + 1
    counts.set(name, count)
    return count > perMinute[kind] ? Math.max(1, Math.ceil(((minute + 1) * 60_000 - at) / 1000)) : 0
  }
}
