// Tells stories without end and says on its standard output what was acknowledged: `seq hash` a line, `file sha256` for a file, `told n`
// for a whole story. Ended from outside.
import { writeSync } from 'node:fs'
import { openLedger, type Draft, type Entry } from '@forcemeat/ledger'
import { sha256 } from '@forcemeat/ledger/canonical'
import { setting, tell } from './every-kind.ts'

const [folder, first] = process.argv.slice(2)
const ledger = await openLedger({ folder: folder! })
const listener = {
  append: async (drafts: readonly Draft[]): Promise<readonly Entry[]> => {
    const entries = await ledger.append(drafts)
    writeSync(1, entries.map((e) => `${e.seq} ${e.hash}\n`).join(''))
    return entries
  },
  putFile: async (data: Uint8Array): Promise<void> => {
    await ledger.putFile(data)
    writeSync(1, `file ${sha256(data)}\n`)
  },
}
await listener.append(setting)

let next = Number(first)
/** Each teller waits for its entry before it sends the next, so several stand in one commit, as several tablets do. */
const teller = async (): Promise<never> => {
  for (;;) {
    const n = next
    next += 1
    await tell(n, listener)
    writeSync(1, `told ${n}\n`)
  }
}
await Promise.all([teller(), teller(), teller(), teller()])
