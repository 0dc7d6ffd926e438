import { signal } from '@preact/signals'

/** Counts up whenever the record has grown; pages read again when it changes. */
export const recordVersion = signal(0)

/** Whether the live line to the server is up. */
export const connected = signal(true)

/** The last word of readings of a batch that cooks: how many its feed holds now. */
export const feedNews = signal<{ readonly batch: string; readonly count: number } | undefined>(undefined)

/** The line as it stands: one per page that is looked at. */
let source: EventSource | undefined
let pending: ReturnType<typeof setTimeout> | undefined

function openLine(): void {
  source?.close()
  const line = new EventSource('/api/live')
  source = line
  line.addEventListener('open', () => {
    // What happened while the line was down is caught up by one refresh.
    if (!connected.value) recordVersion.value += 1
    connected.value = true
  })
  line.addEventListener('error', () => {
    connected.value = false
    // Most breaks the browser mends by itself; one it gave up on is opened anew.
    if (line.readyState === EventSource.CLOSED && source === line) setTimeout(() => source === line && openLine(), 3000)
  })
  line.addEventListener('feed', (event: MessageEvent<string>) => {
    feedNews.value = JSON.parse(event.data) as { batch: string; count: number }
  })
  line.addEventListener('entry', () => {
    pending ??= setTimeout(() => {
      pending = undefined
      recordVersion.value += 1
    }, 60)
  })
}

/**
 * Listen for new entries; several in a burst make one refresh. A page nobody looks at gives its line back: a browser opens only six to one
 * server, and with as many pages open nothing else would get through.
 */
export function listen(): void {
  if (!document.hidden) openLine()
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) {
      source?.close()
      source = undefined
    } else if (!source) {
      openLine()
      recordVersion.value += 1
    }
  })
}
