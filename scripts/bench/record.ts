// The record: durable entries a second; a long chain walked, rebuilt and traced.
import { chainSpeed, durableEntriesPerSecond } from '../ledger/speed.ts'
import { report, summary } from './measure.ts'

const CHAIN = 1_000_000

export async function run(): Promise<void> {
  const rates: number[] = []
  for (let round = 0; round < 3; round++) rates.push(await durableEntriesPerSecond())
  report({ measure: 'durable entries, 32 senders at once', unit: '1/s', limit: 2000, atLeast: true, ...summary(rates) })
  const chain = await chainSpeed(CHAIN)
  const once = (x: number) => summary([x])
  report({ measure: `chain of ${chain.entries} entries verified`, unit: 's', limit: 10, ...once(chain.verifySeconds) })
  report({
    measure: `views rebuilt from ${chain.entries} entries`,
    unit: 's',
    limit: 60,
    ...once(chain.rebuildSeconds),
  })
  report({ measure: 'a lot traced forward in it', unit: 'ms', limit: 100, ...once(chain.traceLotMs) })
  report({ measure: 'a pack traced back in it', unit: 'ms', limit: 100, ...once(chain.tracePackMs) })
  report({ measure: 'a recall of a lot in it', unit: 'ms', limit: 2000, ...once(chain.recallMs) })
  report({ measure: 'most memory the program held', unit: 'MiB', limit: 1024, ...once(chain.peakMemoryMb) })
}
