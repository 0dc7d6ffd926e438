import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import { readLog } from '@forcemeat/craft/log/read'
import type { Draft, Entry, Ledger } from '@forcemeat/ledger'
import { filesOf } from './log-file.ts'
import type { Feed } from './store.ts'

export type Closing = {
  readonly by: string
  readonly purpose: 'cook-and-chill' | 'cook' | 'chill' | 'ferment' | 'dry'
  readonly channels: readonly {
    readonly channel: string
    readonly role: string
    readonly instrument?: string | undefined
  }[]
  readonly note?: string | undefined
}

/** Who says what each channel is; one left unsaid stays in the file and is not used. */
function checkChannels(feed: Feed, { channels, purpose }: Closing): void {
  const there = new Set(feed.readings.map((r) => r.channel))
  const faults: Fault[] = channels.flatMap((c, i) =>
    there.has(c.channel)
      ? []
      : [
          {
            path: `channels[${i}].channel`,
            message: `is ${JSON.stringify(c.channel)}, which the feed does not hold; allowed: ${[...there].join(', ')}`,
          },
        ],
  )
  // A chamber that sours or dries is logged by its air.
  const role = purpose === 'ferment' || purpose === 'dry' ? 'house' : 'core'
  if (!channels.some((c) => c.role === role))
    faults.push({ path: 'channels', message: `names no ${role}; allowed: at least one channel of role ${role}` })
  if (faults.length > 0) throw new InvalidInput(faults)
}

type Closed = {
  readonly entries: Entry[]
  readonly files: { readonly sha256: string; readonly name: string }[]
  /** Whether it was in the record before. */
  readonly again: boolean
}

/**
 * A feed into the record: logger files kept byte for byte, and a curve entry for each, all recorded together. Sent twice, it is recorded
 * once, and answered with what was recorded. @throws InvalidInput
 */
export async function closeFeed(ledger: Ledger, feed: Feed, closing: Closing): Promise<Closed> {
  const keyOf = (i: number): string => `feed ${feed.batch} ${feed.opened} ${i + 1}`
  checkChannels(feed, closing)
  const said = new Map(closing.channels.map((c) => [c.channel, c]))
  const all = filesOf(feed)
  const used = all.filter((f) =>
    f.channels.some((c) => said.get(c)?.role !== undefined && said.get(c)?.role !== 'ignore'),
  )
  const files: { sha256: string; name: string }[] = []
  const drafts: Draft[] = []
  for (const [i, file] of used.entries()) {
    const bytes = new TextEncoder().encode(file.text)
    const channels = file.channels.map((column) => {
      const { role = 'ignore', instrument } = said.get(column) ?? {}
      return { column, role: role as 'core', ...(instrument && role !== 'ignore' ? { instrument } : {}) }
    })
    mustReadBack(feed, file.text, file.channels)
    const { sha256 } = await ledger.putFile(bytes)
    const name = `${feed.batch}-feed-${feed.opened.slice(0, 16).replace(':', '')}${used.length > 1 ? `-${i + 1}` : ''}.csv`
    files.push({ sha256, name })
    drafts.push({
      kind: 'batch.curve',
      by: closing.by,
      key: keyOf(i),
      body: {
        batch: feed.batch,
        purpose: closing.purpose,
        file: sha256,
        fileName: name,
        reading: { delimiter: ';', decimal: '.', unit: 'C', dateOrder: 'YMD' },
        channels,
        ...(closing.note === undefined ? {} : { note: closing.note }),
      },
    })
  }
  const before = await recordedBefore(ledger, drafts, keyOf)
  return { entries: before ?? (await ledger.append(drafts)), files, again: before !== undefined }
}

/** What a feed was recorded as, where it was. @throws InvalidInput where it was closed as something else */
async function recordedBefore(
  ledger: Ledger,
  drafts: readonly Draft[],
  keyOf: (i: number) => string,
): Promise<Entry[] | undefined> {
  const first = await ledger.entryOfKey(keyOf(0))
  if (!first) return undefined
  const before = (await ledger.sentBefore(drafts)).filter((e) => e !== undefined)
  const more = await ledger.entryOfKey(keyOf(drafts.length))
  if (before.length === drafts.length && !more) return before
  throw new InvalidInput([
    {
      path: 'key',
      message: `closed this feed before as entry ${first.seq}, with other roles, instruments, purpose, note or person; allowed: the same again, or a correction of that entry`,
    },
  ])
}

/** The record gets no file that says other than what was sent. */
function mustReadBack(feed: Feed, text: string, channels: readonly string[]): void {
  const read = readLog(new TextEncoder().encode(text), {
    delimiter: ';',
    decimal: '.',
    unit: 'C',
    dateOrder: 'ymd',
    roles: Object.fromEntries(channels.map((c) => [c, 'core'])),
  })
  for (const channel of channels) {
    const sent = feed.readings.filter((r) => r.channel === channel).toSorted((a, b) => a.t - b.t)
    const found = read.channels.find((c) => c.name === channel)?.series ?? []
    const same = found.length === sent.length && sent.every((r, i) => found[i]!.tempC === r.tempC)
    if (!same)
      throw new InvalidInput([
        {
          path: 'channels',
          message: `${JSON.stringify(channel)} does not read back from its file as it was sent (${found.length} of ${sent.length} readings); nothing was recorded`,
        },
      ])
  }
}
