import type { Track } from '@forcemeat/craft/heat/track'
import { coolingOptions } from '../../data/cooling/options.ts'

/** One stage of a cooling option as the log went through it, for a drawing. */
export type CoolingSpan = {
  readonly rule: string
  readonly title: string
  readonly shown: string
  readonly fromC: number
  readonly toC: number
  readonly fromMinute: number
  /** Where the log never got through, its end. */
  readonly toMinute: number
  readonly finished: boolean
  readonly maxMinutes: number
}

/** Where in the log each stage of an option lies; stages that were never entered are left out. */
export function coolingSpans(track: Track, rule: string): CoolingSpan[] {
  const option = coolingOptions.find((o) => o.id === rule)
  return (option?.windows ?? []).flatMap((w) => {
    const fromMinute = track.at(w.fromC).firstDownMinute
    if (fromMinute === undefined) return []
    const ended = track.downBefore(w.toC, option!.finalC)
    const { fromC, toC, shown, maxMinutes } = w
    return [
      {
        rule,
        title: option!.title,
        shown,
        fromC,
        toC,
        fromMinute,
        toMinute: ended ?? track.endMinute,
        finished: ended !== undefined,
        maxMinutes,
      },
    ]
  })
}
