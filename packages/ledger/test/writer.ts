// One of two programs that write to the same record; says what was acknowledged.
import { openLedger } from '../src/index.ts'

const [folder, name, count] = process.argv.slice(2)
const ledger = await openLedger({ folder: folder! })
for (let i = 0; i < Number(count); i += 1) {
  const [entry] = await ledger.append([
    { kind: 'lot.receive', by: 'ada', body: { lot: `${name}-${i}`, material: 'salt', kg: 1, on: '2026-03-01' } },
  ])
  console.log(`${entry!.seq} ${entry!.hash}`)
}
await ledger.close()
