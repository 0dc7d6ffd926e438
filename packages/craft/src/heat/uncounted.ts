import type { WorkingStep } from '../finding.ts'
import type { Track } from './track.ts'

const tidy = (minutes: number): number => Number(minutes.toFixed(2))

/** Where the longest stretches lie that show no core. */
const SHOWN = 3

const places = (track: Track): string =>
  track.holes
    .toSorted((a, b) => b.toMinute - b.fromMinute - (a.toMinute - a.fromMinute))
    .slice(0, SHOWN)
    .map((h) => `${tidy(h.fromMinute)} to ${tidy(h.toMinute)}`)
    .join(', ')

/** How much of a log shows no core, for its working; told also where it is none. */
export const uncountedStep = (track: Track): WorkingStep => ({
  step: 'Minutes not counted',
  expression:
    track.unseenMinutes > 0
      ? `no reading, a probe out, or a step of over ${tidy(track.joinedMinutes)} min at another pace than the steps beside it; from minute ${places(track)}`
      : `every step is joined; the usual pace allows ${tidy(track.joinedMinutes)} min`,
  value: tidy(track.unseenMinutes),
  unit: 'min',
})

/** The same as a sentence behind a caution; nothing where every step is joined. */
export const uncountedNote = (track: Track): string =>
  track.unseenMinutes > 0
    ? ` ${tidy(track.unseenMinutes)} min of the log are not counted: nobody saw the core from minute ${places(track)}.`
    : ''
