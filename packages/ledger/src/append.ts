import { InvalidInput } from '@forcemeat/craft/calculation'
import { admit } from './admit/admit.ts'
import { genesis } from './canonical.ts'
import type { Sql, Store } from './dialect/store.ts'
import { at as place, parseDrafts } from './draft.ts'
import { insertEntry, readHead, seal, type Head, type Unsealed } from './entry.ts'
import type { Draft, Entry } from './facts.ts'
import { RecordError } from './record-error.ts'
import { entryOfKey, holds } from './sent.ts'
import { project, type PlanCache } from './views/project.ts'

/** Most callers whose entries share one commit. */
const mostTogether = 512

type Waiting = {
  readonly drafts: readonly Draft[]
  readonly resolve: (entries: Entry[]) => void
  readonly reject: (error: unknown) => void
}

/** The entry recorded under this key before, where there is one with the same content. @throws InvalidInput for other content */
async function earlier(sql: Sql, draft: Draft, path: string): Promise<Entry | undefined> {
  const entry = draft.key === undefined ? undefined : await entryOfKey(sql, draft.key)
  if (!entry || holds(entry, draft)) return entry
  throw new InvalidInput([
    { path, message: `was used for entry ${entry.seq} with other content; allowed: a key of its own for each entry` },
  ])
}

const follow = (head: Head | undefined, now: string, draft: Draft): Unsealed => {
  const back = head !== undefined && now < head.at
  const link = { seq: (head?.seq ?? 0) + 1, at: back ? head.at : now, prev: head?.hash ?? genesis }
  return back ? { ...draft, ...link, clock: now } : { ...draft, ...link }
}

export type Appender = {
  readonly append: (drafts: readonly Draft[]) => Promise<Entry[]>
  /** Settles when nothing waits to be written. */
  readonly idle: () => Promise<void>
}

/**
 * Records drafts. Callers that come while a commit is under way share the next one; each is answered only after its commit is on
 * the disk, and a fault of one never touches the others.
 */
export function makeAppender(
  store: Store,
  now: () => string,
  committed: (entries: readonly Entry[]) => void,
): Appender {
  const waiting: Waiting[] = []
  let running: Promise<void> | undefined

  const recordOne = async (sql: Sql, drafts: readonly Draft[], head: Head | undefined, plans: PlanCache) => {
    const [entries, fresh]: [Entry[], Entry[]] = [[], []]
    let last = head
    for (const [i, draft] of drafts.entries()) {
      const before = await earlier(sql, draft, place(i, drafts.length, 'key'))
      if (before) {
        entries.push(before)
        continue
      }
      const faults = await admit(sql, draft, plans)
      if (faults.length > 0)
        throw new InvalidInput(faults.map((f) => ({ ...f, path: place(i, drafts.length, f.path) })))
      const unsealed = follow(last, now(), draft)
      const { text, hash } = seal(unsealed)
      const entry: Entry = { ...unsealed, hash }
      await insertEntry(sql, entry, text)
      await project(sql, entry, { plans })
      last = entry
      entries.push(entry)
      fresh.push(entry)
    }
    return { entries, fresh, head: last }
  }

  const commit = async (group: readonly Waiting[]): Promise<void> => {
    const answers: (() => void)[] = []
    const fresh: Entry[] = []
    try {
      await store.transaction(async (sql) => {
        let head = await readHead(sql)
        const plans: PlanCache = new Map()
        for (const { drafts, resolve, reject } of group) {
          await sql.run('savepoint caller')
          try {
            const done = await recordOne(sql, drafts, head, plans)
            await sql.run('release savepoint caller')
            head = done.head
            fresh.push(...done.fresh)
            answers.push(() => resolve(done.entries))
          } catch (error) {
            // Disk and lock troubles are everybody's; anything else is this caller's alone.
            if (error instanceof RecordError) throw error
            await sql.run('rollback to savepoint caller')
            await sql.run('release savepoint caller')
            plans.clear()
            answers.push(() => reject(error))
          }
        }
      })
    } catch (error) {
      for (const { reject } of group) reject(error)
      return
    }
    for (const answer of answers) answer()
    if (fresh.length > 0) committed(fresh)
  }

  const drain = async (): Promise<void> => {
    while (waiting.length > 0) {
      // One turn of the event loop, so that requests that came together are written together.
      await new Promise<void>((resolve) => setImmediate(resolve))
      await commit(waiting.splice(0, mostTogether))
    }
    running = undefined
  }

  return {
    append: async (given) => {
      const drafts = parseDrafts(given)
      return new Promise<Entry[]>((resolve, reject) => {
        waiting.push({ drafts, resolve, reject })
        running ??= drain()
      })
    },
    idle: async () => {
      await running
    },
  }
}
