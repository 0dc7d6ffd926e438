import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import { readLog } from '@forcemeat/craft/log/read'
import { isoInstant, list, minutes, quantity, text } from '@forcemeat/craft/schema'
import { z } from 'zod'

/** Most readings one call takes, and most one feed holds: a reading a second of four probes for half a day. */
export const mostAtOnce = 5_000
export const mostInFeed = 200_000
export const mostChannels = 16
/** Longest a feed may last, ms, and how far ahead of this machine's clock a sender's may be. */
const longestMs = 14 * 86_400_000
const aheadMs = 5 * 60_000

/** A reading as the feed keeps it: `t` in ms after the feed's minute 0. */
export type FeedReading = { readonly t: number; readonly channel: string; readonly tempC: number }

const channelName = () =>
  text(60).regex(/^[\p{L}\p{N}][\p{L}\p{N} ._()-]*$/u, {
    error:
      'is not a name of a channel; allowed: letters, digits, spaces, dots, dashes and brackets, a letter or digit first',
  })

/** What a log can be read back with: loggers mark a broken probe by figures beyond it. */
const sent = z
  .strictObject({
    minute: minutes().optional(),
    at: isoInstant().optional(),
    channel: channelName(),
    tempC: quantity('°C', { min: -90, max: 400 }),
  })
  .superRefine((r, ctx) => {
    if ((r.minute === undefined) === (r.at === undefined))
      ctx.addIssue({
        code: 'custom',
        path: ['minute'],
        message: `${r.minute === undefined ? 'is missing, and so is at' : 'is given together with at'}; allowed: one of minute (from the feed's start) and at (an instant in UTC)`,
      })
  })
const sentList = list(sent, { min: 1, max: mostAtOnce })
export type SentReading = z.infer<typeof sent>

/** Readings out of what a sender posted; paths of faults begin with the reading's place. @throws InvalidInput */
export const parseReadings = (given: unknown): SentReading[] => parseOrThrow(sentList, given)

const readable = new Map<string, boolean>()

/** Whether a reader of logs takes a column of this name for a temperature, so that a closed feed can be read back. */
export function isReadableName(channel: string): boolean {
  let known = readable.get(channel)
  if (known === undefined) {
    const rows = [0, 1, 2].map((m) => `2026-01-01T00:0${m}:00Z;${20 + m}.5`)
    const read = readLog(new TextEncoder().encode(`Time;${channel}\n;°C\n${rows.join('\n')}\n`), {
      delimiter: ';',
      decimal: '.',
      roles: { [channel]: 'core' },
    })
    known = read.questions.length === 0 && read.channels.length === 1 && read.channels[0]!.name === channel
    if (readable.size < 1000) readable.set(channel, known)
  }
  return known
}

/** Instant of minute 0: that of the first reading with `at`; where a sender counts minutes, the minute of the latest is now. */
export function originOf(readings: readonly SentReading[], nowMs: number): number {
  const stamped = readings.flatMap((r) => (r.at === undefined ? [] : [Date.parse(r.at)]))
  if (stamped.length > 0) return stamped.reduce((a, b) => Math.min(a, b))
  const latest = readings.reduce((m, r) => Math.max(m, r.minute ?? 0), 0)
  return nowMs - Math.round(latest * 60_000)
}

/** Kept to a tenth of a thousandth of a degree, so that a conversion's float noise does not fill the file. */
const kept = (c: number): number => Number(c.toFixed(4))

/**
 * Readings ready to keep. One the feed has already, to the figure, is left out, so that a sender may send again what it is not sure of.
 * @throws InvalidInput for a reading before the start, ahead of the clock, of a name no reader takes, or against one that is there
 */
export function place(
  readings: readonly SentReading[],
  have: {
    readonly origin: number
    readonly at: (t: number, channel: string) => number | undefined
    readonly channels: ReadonlySet<string>
  },
  nowMs: number,
): FeedReading[] {
  const faults: Fault[] = []
  const fresh = new Map<string, FeedReading>()
  const channels = new Set(have.channels)
  for (const [i, r] of readings.entries()) {
    const fault = (field: string, message: string) => faults.push({ path: `[${i}].${field}`, message })
    const field = r.at === undefined ? 'minute' : 'at'
    const t = r.at === undefined ? Math.round(r.minute! * 60_000) : Date.parse(r.at) - have.origin
    const tempC = kept(r.tempC)
    if (t < 0)
      fault(
        field,
        `is ${r.at}, before the feed's minute 0 (${new Date(have.origin).toISOString()}); allowed: from then on`,
      )
    else if (t > longestMs)
      fault(field, `is more than ${longestMs / 86_400_000} days after the feed's start; allowed: within them`)
    else if (r.at !== undefined && have.origin + t > nowMs + aheadMs)
      fault(
        field,
        `is ${r.at}, ahead of this machine's clock (${new Date(nowMs).toISOString()}); allowed: at most ${aheadMs / 60_000} minutes ahead`,
      )
    else if (!channels.has(r.channel) && !isReadableName(r.channel))
      fault(
        'channel',
        `is ${JSON.stringify(r.channel)}, which a reader of logs takes for something other than a temperature; allowed: another name, such as "core 1" or "house"`,
      )
    else if (!channels.has(r.channel) && channels.size >= mostChannels)
      fault('channel', `is ${JSON.stringify(r.channel)}, one channel too many; allowed: ${mostChannels} channels`)
    else {
      channels.add(r.channel)
      const key = `${t} ${r.channel}`
      const there = fresh.get(key)?.tempC ?? have.at(t, r.channel)
      if (there === undefined) fresh.set(key, { t, channel: r.channel, tempC })
      else if (there !== tempC)
        fault(
          'tempC',
          `is ${tempC}, but ${r.channel} has ${there} °C at that instant already; allowed: the same figure again, or another instant`,
        )
    }
    if (faults.length >= 20) break
  }
  if (faults.length > 0) throw new InvalidInput(faults)
  return [...fresh.values()]
}
