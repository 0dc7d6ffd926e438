import { expect, it } from 'vitest'
import type { Draft } from '../src/index.ts'
import { draft, open, ready } from './bench-of-one.ts'

it('today lists a hundred batches on the way, and says how many more there are', async () => {
  const ledger = await open()
  const codes = Array.from({ length: 103 }, (_, i) => `B-${i}`)
  await ledger.append(ready)
  await ledger.append(codes.map((b): Draft => draft.plan(b, 'PORK-1')))
  const { batches, holds, more } = await ledger.today()
  expect([batches.length, holds.length, more]).toEqual([100, 0, { batches: 3, holds: 0 }])
})
