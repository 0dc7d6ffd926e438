import type { BatchRecord } from '@forcemeat/ledger'

/** Days after which pieces are to be weighed again; common practice, no source. */
const WEIGH_EVERY_DAYS = 7
/** Hours after which a batch that ferments wants another pH; common practice, no source. */
const PH_EVERY_HOURS = 24
const HOUR_MS = 3_600_000

export type Reading = { readonly value: number; readonly taken: string }

export type SlowState = {
  readonly fermenting: boolean
  readonly startMs: number
  readonly nowMs: number
  readonly ph: Reading | undefined
  readonly aw: Reading | undefined
  /** Whether any marked piece was weighed at all. */
  readonly weighed: boolean
  readonly loss: { readonly pct: number; readonly on: string } | undefined
  readonly hung: boolean
}

/** What a batch that ferments or dries waits for, in the trade's words. Says nothing of whether it is safe. */
export function waitsOf({ recipeBody: { ferment, dry }, state }: BatchRecord, s: SlowState): string[] {
  const list = s.hung || state === 'released' ? [] : ['a room: by the record it hangs nowhere']
  if (s.fermenting) {
    const since = (s.nowMs - (s.ph ? Date.parse(s.ph.taken) : s.startMs)) / HOUR_MS
    const target = `pH ${ferment!.targetPh} or below`
    return [...list, since >= PH_EVERY_HOURS ? `pH reading due (${target})` : target]
  }
  if (!dry) return list
  const reached = s.loss !== undefined && s.loss.pct >= dry.lossPct
  if (!s.weighed) list.push('the first weighing of marked pieces')
  else if (!reached) {
    const last = s.loss ? Date.parse(`${s.loss.on}T12:00:00Z`) : s.startMs
    if ((s.nowMs - last) / HOUR_MS / 24 >= WEIGH_EVERY_DAYS) list.push('weighing of the marked pieces due')
  }
  const wet = dry.targetAw !== undefined && (s.aw === undefined || s.aw.value > dry.targetAw)
  if (!reached) list.push(`${dry.lossPct} % weight loss`)
  if (wet) list.push(`a water activity of ${dry.targetAw} or below`)
  if (reached && !wet) list.push('taking out: its loss is reached')
  return list
}
