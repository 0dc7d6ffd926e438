// The durability trials in their short form; `npm run trials` runs them at length.
import { describe, expect, it } from 'vitest'
import { allTrials } from '../../../scripts/ledger/trials/all.ts'
import { setting, tell } from '../../../scripts/ledger/trials/every-kind.ts'
import { facts } from '../src/index.ts'
import { open } from './bench-of-one.ts'

it('every kind of entry comes up in the stories the trials tell', async () => {
  const ledger = await open()
  const told = new Set<string>()
  const listener = {
    append: async (drafts: Parameters<typeof ledger.append>[0]) => {
      for (const d of drafts) told.add(d.kind)
      return ledger.append(drafts)
    },
    putFile: ledger.putFile,
  }
  await listener.append(setting)
  await tell(1, listener)
  const { entries } = await ledger.head()
  expect(Object.keys(facts).filter((kind) => !told.has(kind))).toEqual([])
  // Told again, as by a teller who was stopped: nothing is recorded twice.
  await tell(1, listener)
  expect((await ledger.head()).entries).toBe(entries)
})

describe('nothing acknowledged is lost, and every damage is named', () => {
  // Killed writers are tried at length in durability.test.ts.
  it.each(allTrials.filter((t) => !t.name.includes('killed')))(
    '$name',
    async ({ run }) => {
      expect((await run(true)).faults).toEqual([])
    },
    240_000,
  )
})
