import { copyFile, open, type FileHandle } from 'node:fs/promises'
import { RecordError } from '../record-error.ts'

/** Layout of the write-ahead log: sqlite.org, "WAL-mode File Format", sections 2 and 4. */
const [headerBytes, frameHeaderBytes] = [32, 24]

type Sum = readonly [number, number]

/** The log's running checksum over pairs of 32-bit words. */
function checksum(bytes: Buffer, from: Sum, bigEndian: boolean): Sum {
  let [a, b] = from
  for (let at = 0; at < bytes.length; at += 8) {
    a = (a + (bigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at)) + b) >>> 0
    b = (b + (bigEndian ? bytes.readUInt32BE(at + 4) : bytes.readUInt32LE(at + 4)) + a) >>> 0
  }
  return [a, b]
}

const sumAt = (bytes: Buffer, at: number): Sum => [bytes.readUInt32BE(at), bytes.readUInt32BE(at + 4)]
const same = (a: Sum, b: Sum): boolean => a[0] === b[0] && a[1] === b[1]

export type LogState = {
  /** Frames that hold, from the first on. */
  readonly frames: number
  /** Transactions of this round of the log that end after the first frame that does not hold. */
  readonly lost: number
  /** The first bytes of the log do not hold, so that none of it would be read. */
  readonly header: boolean
}

async function read(log: FileHandle, size: number): Promise<LogState> {
  const header = Buffer.alloc(headerBytes)
  await log.read(header, 0, headerBytes, 0)
  const magic = header.readUInt32BE(0)
  const bigEndian = magic === 0x377f0683
  let sum = checksum(header.subarray(0, 24), [0, 0], bigEndian)
  if ((magic !== 0x377f0682 && !bigEndian) || !same(sum, sumAt(header, 24)))
    return { frames: 0, lost: size > headerBytes ? 1 : 0, header: false }
  const salts = sumAt(header, 16)
  const frameBytes = frameHeaderBytes + header.readUInt32BE(8)
  const frame = Buffer.alloc(frameBytes)
  let [frames, lost, holds] = [0, 0, true]
  for (let at = headerBytes; at + frameBytes <= size; at += frameBytes) {
    await log.read(frame, 0, frameBytes, at)
    const ofThisRound = same(sumAt(frame, 8), salts)
    if (holds && ofThisRound) {
      const next = checksum(frame.subarray(24), checksum(frame.subarray(0, 8), sum, bigEndian), bigEndian)
      holds = same(next, sumAt(frame, 16))
      sum = next
    } else holds = false
    if (holds) frames += 1
    else if (ofThisRound && frame.readUInt32BE(4) !== 0) lost += 1
  }
  return { frames, lost, header: true }
}

/** How much of a database's write-ahead log holds. Reads only. */
export async function logState(file: string): Promise<LogState | undefined> {
  let log: FileHandle
  try {
    log = await open(`${file}-wal`, 'r')
  } catch {
    return undefined
  }
  try {
    const { size } = await log.stat()
    return size < headerBytes ? undefined : await read(log, size)
  } finally {
    await log.close()
  }
}

/** As `logState`; another program may be writing while it is read, so what does not hold is looked at again and must stay as it is. */
async function settledState(file: string): Promise<LogState | undefined> {
  let state = await logState(file)
  for (let again = 0; state && state.lost > 0 && again < 3; again += 1) {
    await new Promise((resolve) => setTimeout(resolve, 25))
    const next = await logState(file)
    if (next?.frames !== state.frames || next.lost !== state.lost) again = -1
    state = next
  }
  return state
}

/**
 * Look at the log before the database does: it drops the first frame that does not hold and all after it, and says nothing. Entries of two
 * transactions or more lost that way were on the disk and acknowledged, so the record is refused. The last one alone may be a write that
 * the power was cut from under, never acknowledged: the log is kept aside, the program says so, and goes on. @throws RecordError
 */
export async function refuseBrokenLog(file: string, at: string): Promise<void> {
  const state = await settledState(file)
  if (!state || state.lost === 0) return
  const where = `${file}-wal`
  if (!state.header || state.lost > 1)
    throw new RecordError(
      'damaged',
      `${where}: the log of the last writes is damaged ${state.header ? `after its frame ${state.frames}; ${state.lost} writes after it cannot be read` : 'in its first bytes; none of it can be read'}. Nothing was repaired; restore a backup, or look at the files with somebody who knows them.`,
    )
  const aside = `${where}.unfinished-${at.replaceAll(':', '')}`
  await copyFile(where, aside)
  process.emitWarning(
    `${where}: its last write is not whole, as after a power cut. The record goes on from the write before it; the log is kept as ${aside}. Compare the last entries with what was recorded last.`,
    'RecordWarning',
  )
}
