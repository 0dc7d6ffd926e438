import type { Finding } from '@forcemeat/craft/finding'
import type { BatchRecord } from '@forcemeat/ledger'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { stopsRelease } from './judged.ts'
import { signedHash } from './sign.ts'

/** Why a batch that is made, released or packed may not be what it was taken for. */
export type BatchDoubt = {
  readonly verdict: BatchJudgement['verdict']
  readonly because: readonly string[]
  /** The findings that would stop its release today. */
  readonly findings: readonly Finding[]
}

const stopped = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`)

/** What a finding says, with what would settle it. */
export const spoken = (f: Finding): string =>
  f.verdict === 'fail'
    ? `${f.title}: fails. ${stopped(f.because)}`
    : `${f.title}: cannot be told. ${stopped(f.because)}${f.settle ? ` Would settle it: ${stopped(f.settle)}` : ''}`

/** Whether what was signed last still stands as it was signed; undefined where nothing was signed. */
export function signedStillHolds(record: BatchRecord, findings: readonly Finding[]): boolean | undefined {
  const last = record.decisions.at(-1)
  return last === undefined ? undefined : last.signed === signedHash(record, findings)
}

/**
 * The doubt a batch stands in by its facts and the rules now. Released or packed, it passes and is as it was signed, or it is in doubt;
 * made, only a limit that fails counts, for what is still missing it waits for anyhow; held or earlier, nothing goes out.
 */
export function doubtIn(record: BatchRecord, judgement: BatchJudgement): BatchDoubt | undefined {
  const { findings, verdict } = judgement
  const out = record.state === 'released' || record.state === 'packed'
  const changed = out && signedStillHolds(record, findings) === false
  const stops = out ? stopsRelease(judgement) : stopsRelease(judgement).filter((f) => f.verdict === 'fail')
  if (!(out || record.state === 'made') || (stops.length === 0 && !changed)) return undefined
  return {
    verdict,
    because: [
      ...stops.map(spoken),
      ...(changed ? ['Facts or rules have changed since the release was signed: look again, and decide again.'] : []),
    ],
    findings: stops,
  }
}
