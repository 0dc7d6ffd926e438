import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import { readLog } from '@forcemeat/craft/log/read'
import type { Role } from '@forcemeat/craft/log/format'
import type { Draft, Entry, Ledger } from '@forcemeat/ledger'
import { filesOf } from './log-file.ts'
import { channelsOf, wordsOf, type Quantity } from './reading.ts'
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

const rolesOf = {
  tempC: ['core', 'house', 'surface', 'wet-bulb', 'ignore'],
  rhPct: ['humidity', 'ignore'],
} as const satisfies Record<Quantity, readonly string[]>

/** A log begins with two readings: a file of one has no course, and no reader takes it for a log. */
const LEAST_READINGS = 2

/** Who says what each channel is; one left unsaid stays in the file and is not used. */
function checkChannels(feed: Feed, { channels, purpose }: Closing): void {
  const there = channelsOf(feed.readings)
  const counts = Map.groupBy(feed.readings, (r) => r.channel)
  const faults: Fault[] = channels.flatMap((c, i): Fault[] => {
    const reads = there.get(c.channel)
    if (reads === undefined)
      return [
        {
          path: `channels[${i}].channel`,
          message: `is ${JSON.stringify(c.channel)}, which the feed does not hold; allowed: ${[...there.keys()].join(', ')}`,
        },
      ]
    if (!(rolesOf[reads] as readonly string[]).includes(c.role))
      return [
        {
          path: `channels[${i}].role`,
          message: `is ${c.role}, but the readings of ${c.channel} are ${wordsOf[reads]}; allowed: ${rolesOf[reads].join(', ')}`,
        },
      ]
    const count = counts.get(c.channel)!.length
    return c.role !== 'ignore' && count < LEAST_READINGS
      ? [
          {
            path: `channels[${i}].role`,
            message: `is ${c.role}, but ${c.channel} has ${count} reading, and a log begins with ${LEAST_READINGS}; allowed: another reading first, or ignore`,
          },
        ]
      : []
  })
  const wanted = decidingRole(purpose, there)
  if (!channels.some((c) => c.role === wanted))
    faults.push({ path: 'channels', message: `names no ${wanted}; allowed: at least one channel of role ${wanted}` })
  if (faults.length > 0) throw new InvalidInput(faults)
}

/** A chamber that sours or dries is logged by its air, and where a feed holds no temperature, by its humidity; a cook by its core. */
function decidingRole(purpose: Closing['purpose'], there: ReadonlyMap<string, Quantity>): string {
  if (purpose !== 'ferment' && purpose !== 'dry') return 'core'
  return [...there.values()].includes('tempC') ? 'house' : 'humidity'
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
  const reads = channelsOf(feed.readings)
  const role = (channel: string): Role => (reads.get(channel) === 'rhPct' ? 'humidity' : 'core')
  const read = readLog(new TextEncoder().encode(text), {
    delimiter: ';',
    decimal: '.',
    unit: 'C',
    dateOrder: 'ymd',
    roles: Object.fromEntries(channels.map((c) => [c, role(c)])),
  })
  const found = new Map<string, readonly (number | null)[]>([
    ...read.channels.map((c) => [c.name, c.series.map((p) => p.tempC)] as const),
    ...read.humidity.map((c) => [c.name, c.series.map((p) => p.rhPct)] as const),
  ])
  for (const channel of channels) {
    const sent = feed.readings
      .filter((r) => r.channel === channel)
      .toSorted((a, b) => a.t - b.t)
      // Air over saturation is in the file as it was read, and counts as saturated.
      .map((r) => (r.of === 'rhPct' ? Math.min(100, r.value) : r.value))
    const back = found.get(channel) ?? []
    if (back.length !== sent.length || sent.some((v, i) => back[i] !== v))
      throw new InvalidInput([
        {
          path: 'channels',
          message: `${JSON.stringify(channel)} does not read back from its file as it was sent (${back.length} of ${sent.length} readings); nothing was recorded`,
        },
      ])
  }
}
