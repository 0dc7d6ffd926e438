import { RecordError } from './record-error.ts'

/** Oldest Node whose native interface the SQLite driver can load; an older one is killed by it without a word. */
const oldest = 22

/** @throws RecordError `wrong-node` before the driver is touched, on a Node too old for it. */
export function requireNode(version: string = process.versions.node): void {
  const major = Number(version.split('.')[0])
  if (major >= oldest) return
  throw new RecordError(
    'wrong-node',
    `This is Node ${version}; the record needs Node ${oldest} or newer. Start it with "npm start" or "npx forcemeat", which use the Node this project pins.`,
  )
}
