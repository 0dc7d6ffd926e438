import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import type { Fault } from '@forcemeat/craft/calculation'
import type { Form } from '../../state/form.ts'
import { readerOf } from '../../state/reader.ts'
import { CookRefused, cookLine } from '../../work/cook-client.ts'
import type { LiveRequest, LiveResult } from '../../work/cook-live.ts'
import type { FeedReading, FeedView } from './feed-state.ts'
import { fieldOfFault, tempText } from './cook-form.ts'
import { planRequest } from './plan-state.ts'

export type ProbeRole = 'core' | 'house' | 'humidity' | 'ignore'
export type Point = { readonly minute: number; readonly tempC: number }

/** What a channel is by its name, until a person says otherwise. */
export const guessRole = (channel: string): ProbeRole =>
  /house|chamber|air|oven|room|chiller|cooler|bath/i.test(channel) ? 'house' : 'core'

/** The temperatures of a channel in time order; none of one that reads humidity. */
export const pointsOf = (readings: readonly FeedReading[], channel: string): Point[] =>
  readings
    .flatMap(({ minute, tempC, channel: c }) => (c === channel && tempC !== undefined ? [{ minute, tempC }] : []))
    .toSorted((a, b) => a.minute - b.minute)

/** A core that has come down this far is being chilled; then the warmest probe decides, else the coldest. */
const TURNED_C = 3

/** The probe that decides now. */
export function decidingProbe(probes: readonly { channel: string; points: readonly Point[] }[]): string | undefined {
  const seen = probes.filter((p) => p.points.length > 0)
  if (seen.length === 0) return undefined
  const latest = (p: (typeof seen)[number]): number => p.points.at(-1)!.tempC
  const turned = seen.every((p) => p.points.reduce((m, r) => Math.max(m, r.tempC), -Infinity) - latest(p) > TURNED_C)
  return seen.toSorted((a, b) => (turned ? latest(b) - latest(a) : latest(a) - latest(b)))[0]!.channel
}

/** Fewest readings a fit can be made from. */
export const LEAST_READINGS = 4

/** Where the start is not typed, the core stood where it was first read. */
function withStart(
  values: Form['values']['value'],
  feed: FeedView,
  roles: Readonly<Record<string, ProbeRole>>,
): Form['values']['value'] {
  if ((values['piece.start'] ?? '').trim() !== '') return values
  const first = feed.channels
    .flatMap((c) => (roles[c] === 'core' ? pointsOf(feed.readings, c).slice(0, 1) : []))
    .toSorted((a, b) => a.minute - b.minute)[0]
  return first ? { ...values, 'piece.start': tempText(first.tempC) } : values
}

export type LiveShown = { readonly request: LiveRequest; readonly result: LiveResult; readonly probe: string }

/** The twin fitted to the readings as they come, off the page's thread. */
export function useLive(
  form: Form,
  feed: FeedView | undefined,
  roles: Readonly<Record<string, ProbeRole>>,
  toleranceC: number,
) {
  const state = useMemo(
    () => ({
      shown: signal<LiveShown | undefined>(undefined),
      busy: signal(false),
      faults: signal<readonly Fault[]>([]),
    }),
    [],
  )
  const line = useMemo(() => cookLine('live'), [])
  useEffect(() => line.stop, [])
  const values = form.values.value
  useEffect(() => {
    if (!feed?.open) return
    const r = readerOf(values)
    const start = r.number('live.start') ?? 0
    const hold = r.number('live.hold')
    const { faults, request: plan } = planRequest(withStart(values, feed, roles))
    state.faults.value = [...faults, ...r.faults]
    if (!plan || r.faults.length > 0) return
    const from = (channel: string): Point[] =>
      pointsOf(feed.readings, channel)
        .map((p) => ({ minute: p.minute - start, tempC: p.tempC }))
        .filter((p) => p.minute >= 0)
    const probes = feed.channels
      .filter((c) => roles[c] === 'core')
      .map((channel) => ({ channel, points: from(channel) }))
    const probe = decidingProbe(probes)
    const core = probes.find((p) => p.channel === probe)?.points ?? []
    if (probe === undefined || core.length < LEAST_READINGS) return
    const house = feed.channels.find((c) => roles[c] === 'house')
    const request: LiveRequest = {
      piece: plan.input,
      core,
      house: house === undefined ? [] : from(house),
      ...(plan.targetCoreC === undefined ? {} : { targetCoreC: plan.targetCoreC }),
      product: plan.product,
      toleranceC,
      holds: [
        ...new Set([0, 5, 10, 20, 30, 60, ...(hold !== undefined && hold > 0 && hold <= 1440 ? [hold] : [])]),
      ].toSorted((a, b) => a - b),
    }
    state.busy.value = true
    line.ask(request).then(
      (result) => {
        state.shown.value = { request, result, probe }
        state.busy.value = false
      },
      (error: unknown) => {
        state.busy.value = false
        if (error instanceof CookRefused)
          state.faults.value = error.faults.map((f) => ({ path: fieldOfFault(f.path), message: f.message }))
      },
    )
  }, [values, feed, roles, toleranceC])
  return state
}
