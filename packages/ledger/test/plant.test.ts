import { describe, expect, it } from 'vitest'
import { load } from '../../../scripts/ledger/load.ts'
import { plant, zero } from '../../../scripts/ledger/plant.ts'
import { openLedger } from '../src/index.ts'
import { folder } from './bench-of-one.ts'

const lots = 1500

describe('the made-up plant the record is measured on', () => {
  it('is the same for the same seed, and has about five movements for each lot', () => {
    const [one, two] = [zero(), zero()]
    const first = JSON.stringify([...plant(lots, 3, one)])
    expect(first).toBe(JSON.stringify([...plant(lots, 3, two)]))
    expect(first).not.toBe(JSON.stringify([...plant(lots, 4)]))
    expect(one.lots).toBeGreaterThanOrEqual(lots)
    expect(one.movements / one.lots).toBeGreaterThan(4.5)
    expect(one.movements / one.lots).toBeLessThan(5.6)
  })

  it('is admitted entry by entry, and loaded in bulk gives the same chain and the same derived tables', async () => {
    const drafts = [...plant(lots, 3)]
    let i = 0
    const one = await openLedger({ folder: folder(), now: () => drafts[i++]!.at })
    i = 0
    for (let from = 0; from < drafts.length; from += 2000)
      await one.append(drafts.slice(from, from + 2000).map((d) => d.draft))
    const where = folder()
    expect((await load(where, drafts)).entries).toBe(drafts.length)
    const two = await openLedger({ folder: where })
    expect(await two.head()).toEqual(await one.head())
    expect(await two.verify({ views: true })).toMatchObject({ ok: true, entries: drafts.length })
    expect(await one.verify({ views: true })).toMatchObject({ ok: true })
    await one.close()
    await two.close()
  })
})
