import { InvalidInput } from '@forcemeat/craft/calculation'

/** Most a workbook may unpack to, bytes: a recipe takes a few kilobytes. */
const MOST = 20_000_000
const END = 0x06054b50
const ENTRY = 0x02014b50
/** Length of an end record without its comment, and the longest comment. */
const END_LENGTH = 22
const COMMENT = 65_535

const refuse = (message: string): never => {
  throw new InvalidInput([{ path: '(file)', message }])
}

/** Refuse what is no archive, or one that unpacks to more than a workbook of a recipe ever holds, before anything is unpacked. */
export function checkSize(bytes: Uint8Array): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let end = bytes.length - END_LENGTH
  const first = Math.max(0, end - COMMENT)
  while (end >= first && view.getUint32(end, true) !== END) end -= 1
  if (end < first || bytes.length < END_LENGTH) refuse('is no workbook; allowed: a file in XLSX')
  let at = view.getUint32(end + 16, true)
  let total = 0
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== ENTRY)
      refuse('is a broken archive; allowed: a file in XLSX')
    total += view.getUint32(at + 24, true)
    if (total > MOST) refuse(`unpacks to more than ${MOST / 1e6} MB; allowed: a workbook of one recipe`)
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true)
  }
}
