import { createHash } from 'node:crypto'
import { mkdir, open, readdir, readFile, rename, truncate } from 'node:fs/promises'
import { join } from 'node:path'
import { refuse } from '../http/refusal.ts'
import { mostInFeed, originOf, place, type FeedReading, type Quantity, type SentReading } from './reading.ts'

/** Readings of a batch that cooks, chills, sours or dries, as they came in. */
export type Feed = {
  readonly batch: string
  readonly opened: string
  /** Instant of minute 0, ms since 1970. */
  readonly origin: number
  readonly readings: FeedReading[]
}

type Held = Feed & { readonly byKey: Map<string, number>; readonly channels: Map<string, Quantity>; bytes: number }
type Head = { feed: 1; batch: string; opened: string; origin: number }

const keyOf = (t: number, channel: string): string => `${t} ${channel}`

function take(held: Held, readings: readonly FeedReading[]): void {
  for (const r of readings) {
    held.readings.push(r)
    held.byKey.set(keyOf(r.t, r.channel), r.value)
    held.channels.set(r.channel, r.of)
  }
}

/** A reading in its line: instant, channel and figure; a humidity has its sign behind it, and a temperature nothing, as ever. */
type Row = [t: number, channel: string, value: number] | [t: number, channel: string, value: number, unit: '%']

const rowOf = ({ t, channel, of, value }: FeedReading): Row =>
  of === 'tempC' ? [t, channel, value] : [t, channel, value, '%']

/** @throws Error for a unit of a later program: what it means is not guessed */
function readingOf([t, channel, value, unit]: Row): FeedReading {
  if (unit !== undefined && unit !== '%')
    throw new Error(
      `a reading of ${channel} is in ${JSON.stringify(unit)}, which this program does not know; open the feed with the program that wrote it`,
    )
  return { t, channel, of: unit === undefined ? 'tempC' : 'rhPct', value }
}

/** What of a closing's key stands in the name of the file that was put away. */
const markOf = (key: string): string => `.${createHash('sha256').update(key).digest('hex')}`

/** Feed out of its file. A line that a power cut left half written was never acknowledged; it is dropped. */
function fromFile(bytes: Buffer): Held | undefined {
  const whole = bytes.lastIndexOf(10) + 1
  const lines = bytes.subarray(0, whole).toString('utf8').split('\n').slice(0, -1)
  if (lines.length === 0) return undefined
  const { batch, opened, origin } = JSON.parse(lines[0]!) as Head
  const held: Held = { batch, opened, origin, readings: [], byKey: new Map(), channels: new Map(), bytes: whole }
  for (const line of lines.slice(1)) take(held, (JSON.parse(line) as Row[]).map(readingOf))
  return held
}

/** The open feeds of a record, each a file of its own that only grows: one line a call, on the disk before the call is answered. */
export function openFeeds(folder: string) {
  const held = new Map<string, Held | undefined>()
  const listeners = new Set<(feed: Feed, added: number) => void>()
  const turns = new Map<string, Promise<unknown>>()
  const fileOf = (batch: string): string => join(folder, `${batch}.jsonl`)
  const closed = join(folder, 'closed')

  /** One piece of work on a batch's feed after another. */
  function inTurn<T>(batch: string, work: () => Promise<T>): Promise<T> {
    const next = (turns.get(batch) ?? Promise.resolve()).then(work, work)
    const settled = next.catch(() => undefined).finally(() => turns.get(batch) === settled && turns.delete(batch))
    turns.set(batch, settled)
    return next
  }

  async function load(batch: string): Promise<Held | undefined> {
    if (held.has(batch)) return held.get(batch)
    const bytes = await readFile(fileOf(batch)).catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return undefined
      throw error
    })
    const found = bytes && fromFile(bytes)
    if (found && found.bytes < bytes.byteLength) await truncate(fileOf(batch), found.bytes)
    held.set(batch, found)
    return found
  }

  /** The feed of a batch that was closed under a key. */
  async function closedUnder(batch: string, key: string): Promise<Feed | undefined> {
    const names = await readdir(closed).catch(() => [] as string[])
    for (const name of names.filter((n) => n.startsWith(`${batch}.`) && n.endsWith(`${markOf(key)}.jsonl`))) {
      const feed = fromFile(await readFile(join(closed, name)))
      if (feed?.batch === batch) return feed
    }
    return undefined
  }

  /** Append whole lines; where the disk takes only part of them, the file is put back as it was. */
  async function append(batch: string, at: number, text: string): Promise<number> {
    await mkdir(folder, { recursive: true })
    const file = await open(fileOf(batch), 'a')
    try {
      const line = Buffer.from(text)
      try {
        await file.writeFile(line)
        await file.datasync()
      } catch (error) {
        await file.truncate(at).catch(() => undefined)
        throw (error as NodeJS.ErrnoException).code === 'ENOSPC'
          ? refuse(507, 'the disk is full; the readings were not kept')
          : error
      }
      return at + line.byteLength
    } finally {
      await file.close()
    }
  }

  return {
    feed: (batch: string): Promise<Feed | undefined> => inTurn(batch, () => load(batch)),

    /** Batches whose feed is open. */
    batches: async (): Promise<string[]> => {
      const names = await readdir(folder).catch(() => [] as string[])
      return names
        .filter((n) => n.endsWith('.jsonl'))
        .map((n) => n.slice(0, -'.jsonl'.length))
        .toSorted()
    },

    /** Keep readings; opens the feed with the first. Answers how many were new. @throws InvalidInput, Refusal */
    add: (batch: string, readings: readonly SentReading[], now: Date): Promise<{ feed: Feed; added: number }> =>
      inTurn(batch, async () => {
        const there = await load(batch)
        const head: Head = there
          ? { feed: 1, batch, opened: there.opened, origin: there.origin }
          : { feed: 1, batch, opened: now.toISOString(), origin: originOf(readings, now.getTime()) }
        const fresh = place(
          readings,
          {
            origin: head.origin,
            at: (t, channel) => there?.byKey.get(keyOf(t, channel)),
            channels: there?.channels ?? new Map(),
          },
          now.getTime(),
        )
        const count = (there?.readings.length ?? 0) + fresh.length
        if (count > mostInFeed)
          throw refuse(
            413,
            `would bring the feed to ${count} readings; allowed: up to ${mostInFeed}; close the feed and open another`,
            '(body)',
          )
        if (there && fresh.length === 0) return { feed: there, added: 0 }
        const line = `${JSON.stringify(fresh.map(rowOf))}\n`
        const bytes = await append(batch, there?.bytes ?? 0, there ? line : `${JSON.stringify(head)}\n${line}`)
        const feed: Held = there ?? {
          batch,
          opened: head.opened,
          origin: head.origin,
          readings: [],
          byKey: new Map(),
          channels: new Map(),
          bytes: 0,
        }
        feed.bytes = bytes
        take(feed, fresh)
        held.set(batch, feed)
        for (const tell of listeners) tell(feed, fresh.length)
        return { feed, added: fresh.length }
      }),

    /**
     * Do the closing work of a feed while nothing is added, then put its file away under the instant it was opened and the key of the
     * closing. Under a key that closed one before, the work is given that one.
     */
    close: <T>(batch: string, key: string | undefined, work: (feed: Feed) => Promise<T>): Promise<T> =>
      inTurn(batch, async () => {
        const before = key === undefined ? undefined : await closedUnder(batch, key)
        if (before) return work(before)
        const feed = await load(batch)
        if (!feed)
          throw refuse(
            404,
            `there is no open feed of batch ${JSON.stringify(batch)}; the first reading posted opens one`,
          )
        const done = await work(feed)
        await mkdir(closed, { recursive: true })
        const name = `${batch}.${feed.opened.replaceAll(/[:.]/g, '')}${key === undefined ? '' : markOf(key)}.jsonl`
        await rename(fileOf(batch), join(closed, name))
        held.set(batch, undefined)
        for (const tell of listeners) tell(feed, 0)
        return done
      }),

    /** Called after readings were kept, and with 0 when a feed was closed. Returns how to stop. */
    onReadings: (listener: (feed: Feed, added: number) => void): (() => void) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}
export type Feeds = ReturnType<typeof openFeeds>
