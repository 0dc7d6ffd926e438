// Appends without end and says on its standard output what was acknowledged: `seq hash key` a line. Ended from outside.
import { writeSync } from 'node:fs'
import { openLedger } from '@forcemeat/ledger'
import { beginning } from './generate.ts'

const [folder, first] = process.argv.slice(2)
const ledger = await openLedger({ folder: folder! })
if ((await ledger.head()).entries === 0) await ledger.append(beginning.map((d, i) => ({ ...d, key: `begin-${i}` })))

let next = Number(first)
/** Each writer waits for its entry before it sends the next, so several stand in one commit, as several tablets do. */
const writer = async (): Promise<never> => {
  for (;;) {
    const n = next
    next += 1
    const [entry] = await ledger.append([
      {
        kind: 'lot.receive',
        by: 'ada',
        key: `lot-${n}`,
        body: {
          lot: `L${n}`,
          material: 'pork-shoulder',
          supplier: `Farm ${n % 7}`,
          kg: 1 + (n % 50),
          on: '2026-03-01',
        },
      },
    ])
    writeSync(1, `${entry!.seq} ${entry!.hash} ${n}\n`)
  }
}
await Promise.all([writer(), writer(), writer(), writer()])
