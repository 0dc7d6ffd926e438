import type { Store } from './dialect/store.ts'
import { fromText } from './entry.ts'
import type { Entry } from './facts.ts'

type Row = { seq: number; text: string; hash: string }
type Listener = (entries: readonly Entry[]) => void

/** Most entries handed on at once when another program wrote many. */
const most = 1000

/** Tells listeners of every commit once and in order: this program's at once, another program's within `everyMs`. */
export function watchEntries(store: Store, everyMs: number, from: number) {
  const listeners = new Set<Listener>()
  let told = from
  let timer: NodeJS.Timeout | undefined
  let turn: Promise<void> = Promise.resolve()

  const tell = (entries: readonly Entry[]) => {
    for (const listener of listeners) {
      try {
        listener(entries)
      } catch (error) {
        // A listener's fault is its own: the entries are recorded, and the others must hear of them.
        queueMicrotask(() => {
          throw error
        })
      }
    }
  }
  const catchUp = async (): Promise<void> => {
    for (;;) {
      const rows: Row[] = await store.sql.all<Row>(
        'select seq, text, hash from entry where seq > ? order by seq limit ?',
        [told, most],
      )
      if (rows.length === 0) return
      told = rows.at(-1)!.seq
      tell(rows.map((r) => fromText(r.text, r.hash)))
    }
  }
  const look = (): Promise<void> => (turn = turn.then(catchUp).catch(() => undefined))

  return {
    committed: (entries: readonly Entry[]): void => {
      if (entries[0]!.seq === told + 1 || listeners.size === 0) {
        told = entries.at(-1)!.seq
        tell(entries)
      } else void look()
    },
    onAppend: (listener: Listener): (() => void) => {
      listeners.add(listener)
      if (listeners.size === 1) {
        timer = setInterval(() => void look(), everyMs)
        timer.unref()
      }
      return () => {
        listeners.delete(listener)
        if (listeners.size === 0) clearInterval(timer)
      }
    },
    stop: async (): Promise<void> => {
      clearInterval(timer)
      listeners.clear()
      await turn
    },
  }
}
