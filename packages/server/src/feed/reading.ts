import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import { readLog } from '@forcemeat/craft/log/read'
import { OVER_SATURATED_PCT } from '@forcemeat/craft/log/reader'
import { isoInstant, list, minutes, quantity, text } from '@forcemeat/craft/schema'
import { z } from 'zod'

/** Most readings one call takes, and most one feed holds: a reading a second of four probes for half a day. */
export const mostAtOnce = 5_000
export const mostInFeed = 200_000
export const mostChannels = 16
/** Longest a feed may last, ms, and how far ahead of this machine's clock a sender's may be. */
const longestMs = 14 * 86_400_000
const aheadMs = 5 * 60_000

/** What a channel reads, by the name its figures travel under: °C, or % relative humidity. */
export type Quantity = 'tempC' | 'rhPct'
export const wordsOf = { tempC: 'temperatures', rhPct: 'relative humidity' } as const satisfies Record<Quantity, string>
export const unitOf = { tempC: '°C', rhPct: '%RH' } as const satisfies Record<Quantity, string>

/** A reading as the feed keeps it: `t` in ms after the feed's minute 0; °C or % by `of`. */
export type FeedReading = {
  readonly t: number
  readonly channel: string
  readonly of: Quantity
  readonly value: number
}

/** The channels of a feed in the order they came, with what each reads. */
export const channelsOf = (readings: readonly FeedReading[]): Map<string, Quantity> =>
  new Map(readings.map((r) => [r.channel, r.of]))

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
    tempC: quantity('°C', { min: -90, max: 400 }).optional(),
    // A sensor in saturated air reads a little over; the figure is kept as sent, and counts as 100.
    rhPct: quantity('% RH', { min: 0, max: OVER_SATURATED_PCT }).optional(),
  })
  .superRefine((r, ctx) => {
    if ((r.minute === undefined) === (r.at === undefined))
      ctx.addIssue({
        code: 'custom',
        path: ['minute'],
        message: `${r.minute === undefined ? 'is missing, and so is at' : 'is given together with at'}; allowed: one of minute (from the feed's start) and at (an instant in UTC)`,
      })
    if ((r.tempC === undefined) === (r.rhPct === undefined))
      ctx.addIssue({
        code: 'custom',
        path: [r.tempC === undefined ? 'tempC' : 'rhPct'],
        message: `${r.tempC === undefined ? 'is missing, and so is rhPct' : 'is given together with tempC'}; allowed: one of tempC (a temperature, °C) and rhPct (a relative humidity, %)`,
      })
  })
const sentList = list(sent, { min: 1, max: mostAtOnce })
export type SentReading = z.infer<typeof sent>

/** Readings out of what a sender posted; paths of faults begin with the reading's place. @throws InvalidInput */
export const parseReadings = (given: unknown): SentReading[] => parseOrThrow(sentList, given)

const readable = new Map<string, boolean>()

/**
 * Whether a reader of logs takes a column of this name for what it holds, so that a closed feed can be read back: a temperature as the core it
 * may be named, a humidity by its heading and unit alone.
 */
export function isReadableName(channel: string, of: Quantity): boolean {
  const key = `${of} ${channel}`
  let known = readable.get(key)
  if (known === undefined) {
    const rows = [0, 1, 2].map((m) => `2026-01-01T00:0${m}:00Z;${20 + m}.5`)
    const read = readLog(new TextEncoder().encode(`Time;${channel}\n;${unitOf[of]}\n${rows.join('\n')}\n`), {
      delimiter: ';',
      decimal: '.',
      ...(of === 'tempC' ? { roles: { [channel]: 'core' } } : {}),
    })
    const [found, other] = of === 'tempC' ? [read.channels, read.humidity] : [read.humidity, read.channels]
    known = read.questions.length === 0 && other.length === 0 && found.length === 1 && found[0]!.name === channel
    if (readable.size < 1000) readable.set(key, known)
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

/** Kept to a tenth of a thousandth, so that a conversion's float noise does not fill the file. */
const kept = (figure: number): number => Number(figure.toFixed(4))

const otherNames = {
  tempC: 'another name, such as "core 1" or "house"',
  rhPct: 'another name, such as "humidity" or "chamber humidity"',
} as const satisfies Record<Quantity, string>
const aReading = { tempC: 'a temperature', rhPct: 'a relative humidity' } as const satisfies Record<Quantity, string>

/**
 * Readings ready to keep. One the feed has already, to the figure, is left out, so that a sender may send again what it is not sure of.
 * @throws InvalidInput for a reading before the start, ahead of the clock, of a name no reader takes, of another quantity than its channel has,
 * or against one that is there
 */
export function place(
  readings: readonly SentReading[],
  have: {
    readonly origin: number
    readonly at: (t: number, channel: string) => number | undefined
    readonly channels: ReadonlyMap<string, Quantity>
  },
  nowMs: number,
): FeedReading[] {
  const faults: Fault[] = []
  const fresh = new Map<string, FeedReading>()
  const channels = new Map(have.channels)
  for (const [i, r] of readings.entries()) {
    const fault = (field: string, message: string) => faults.push({ path: `[${i}].${field}`, message })
    const field = r.at === undefined ? 'minute' : 'at'
    const t = r.at === undefined ? Math.round(r.minute! * 60_000) : Date.parse(r.at) - have.origin
    const of: Quantity = r.tempC === undefined ? 'rhPct' : 'tempC'
    const value = kept((r.tempC ?? r.rhPct)!)
    const reads = channels.get(r.channel)
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
    else if (reads !== undefined && reads !== of)
      fault(
        of,
        `is given, but the readings of ${r.channel} are ${wordsOf[reads]}; allowed: ${reads} on this channel, or another channel for ${wordsOf[of]}`,
      )
    else if (reads === undefined && !isReadableName(r.channel, of))
      fault(
        'channel',
        `is ${JSON.stringify(r.channel)}, which a reader of logs takes for something other than ${aReading[of]}; allowed: ${otherNames[of]}`,
      )
    else if (reads === undefined && channels.size >= mostChannels)
      fault('channel', `is ${JSON.stringify(r.channel)}, one channel too many; allowed: ${mostChannels} channels`)
    else {
      channels.set(r.channel, of)
      const key = `${t} ${r.channel}`
      const there = fresh.get(key)?.value ?? have.at(t, r.channel)
      if (there === undefined) fresh.set(key, { t, channel: r.channel, of, value })
      else if (there !== value)
        fault(
          of,
          `is ${value}, but ${r.channel} has ${there} ${of === 'tempC' ? '°C' : '%'} at that instant already; allowed: the same figure again, or another instant`,
        )
    }
    if (faults.length >= 20) break
  }
  if (faults.length > 0) throw new InvalidInput(faults)
  return [...fresh.values()]
}
