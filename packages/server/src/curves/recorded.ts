import type { Answers } from '@forcemeat/craft/log/format'
import { readLog, type LogRead } from '@forcemeat/craft/log/read'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { CurveChannel } from '@forcemeat/rulebook/batch/facts'
import { answersOf } from './answers.ts'
import { offsetTrouble, startClash, startOf } from './starts.ts'

/** Largest file that is read whole, bytes: a reading a second for more than two weeks. */
export const largestRead = 32_000_000

export type RecordedCurve = BatchRecord['curves'][number]

/** Files read lately, by what is in them and how they were read: pages that show one batch again do not read it again. */
const lately = new Map<string, LogRead>()
const mostKept = 8
/** A file with more rows is not kept: reading it is quick beside what it would hold of the memory. */
const mostRowsKept = 50_000

function readOnce(sha256: string, bytes: Uint8Array, answers: Answers): LogRead {
  const key = `${sha256} ${JSON.stringify(answers)}`
  const held = lately.get(key)
  if (held) {
    lately.delete(key)
    lately.set(key, held)
    return held
  }
  const read = readLog(bytes, answers)
  if (read.rows <= mostRowsKept) lately.set(key, read)
  while (lately.size > mostKept) lately.delete(lately.keys().next().value!)
  return read
}

/** The reader asks which column is the core until one is; where only air was logged, the air stands in for it. */
function answersFor(curve: Pick<RecordedCurve, 'reading' | 'channels'>): Answers {
  const answers = answersOf(curve)
  if (curve.channels.some((c) => c.role === 'core')) return answers
  const air = curve.channels.filter((c) => c.role === 'house').map((c) => [c.column, 'core'] as const)
  return { ...answers, roles: { ...answers.roles, ...Object.fromEntries(air) } }
}

/** A recorded curve's file as it is read by the answers kept with it; undefined where the record lacks the file, or it is too large. */
export async function readRecorded(ledger: Ledger, curve: RecordedCurve): Promise<LogRead | undefined> {
  const bytes = await ledger.getFile(curve.file)
  return bytes && bytes.byteLength <= largestRead ? readOnce(curve.file, bytes, answersFor(curve)) : undefined
}

/** A file of the record as a log of one channel, by its bytes and nothing else. */
export async function readFileOf(ledger: Ledger, sha256: string, answers: Answers): Promise<LogRead | undefined> {
  const bytes = await ledger.getFile(sha256)
  return bytes && bytes.byteLength <= largestRead ? readOnce(sha256, bytes, answers) : undefined
}

export function troubleOf(curve: Pick<RecordedCurve, 'fileName'>, read: LogRead | undefined): string | undefined {
  if (!read)
    return `${curve.fileName} is not in the record, or larger than ${largestRead / 1e6} MB: cut it to the cook and chill`
  if (read.questions.length > 0) return `${curve.fileName}: ${read.questions.map((q) => q.text).join(' ')}`
  if (read.format === undefined) return `${curve.fileName} cannot be read as a log: ${read.notes.join(' ')}`
  return undefined
}

/** The core channels of a batch's curves as read from their files, offsets added; what stands in the way of one is said with it. */
export async function channelsOf(ledger: Ledger, record: Pick<BatchRecord, 'curves'>): Promise<CurveChannel[]> {
  const all: CurveChannel[] = []
  for (const curve of record.curves) {
    const read = await readRecorded(ledger, curve)
    const trouble = troubleOf(curve, read)
    const starts = startOf(curve, read)
    for (const channel of curve.channels) {
      const { column, role, offsetC = 0 } = channel
      if (role !== 'core') continue
      const found = read?.channels.find((c) => c.name === column)
      const missing =
        trouble ??
        (found ? undefined : `${curve.fileName} has no column ${JSON.stringify(column)}`) ??
        startClash(curve, read) ??
        (await offsetTrouble(ledger, channel))
      all.push({
        seq: curve.seq,
        column,
        log: (found?.series ?? []).map((p) => ({
          minute: p.minute,
          coreC: p.tempC === null ? null : p.tempC + offsetC,
        })),
        ...(starts === undefined ? {} : { starts }),
        ...(missing === undefined ? {} : { trouble: missing }),
      })
    }
  }
  return all
}
