import * as fc from 'fast-check'
import { InvalidInput } from '@forcemeat/craft/calculation'
import { describe, expect, it } from 'vitest'
import { openSqlite } from '../src/dialect/sqlite.ts'
import { sha256, type Draft, type Ledger } from '../src/index.ts'
import { subjectOf } from '../src/subjects.ts'
import { viewTables } from '../src/tables.ts'
import { draft, folder, open, ready } from './bench-of-one.ts'

/** Every row of every derived table, as text. */
async function dump(file: string): Promise<Record<string, string[]>> {
  const store = await openSqlite({ file, readOnly: true })
  try {
    const rows = async (name: string) =>
      (await store.sql.all(`select * from ${name}`)).map((r) => JSON.stringify(r)).sort()
    return Object.fromEntries(await Promise.all(viewTables.map(async (name) => [name, await rows(name)] as const)))
  } finally {
    await store.close()
  }
}

const lots = fc.constantFrom('PORK-1', 'PORK-2', 'PORK-3')
const batches = fc.constantFrom('B-1', 'B-2')
const packs = fc.constantFrom('P-1', 'P-2')
const lines = fc.constantFrom('meat', 'salt')
const kg = fc.integer({ min: 1, max: 60_000_000 }).map((mg) => mg / 1e6)
const fact: fc.Arbitrary<Draft> = fc.oneof(
  fc.tuple(lots, kg).map(([l, m]) => draft.lot(l, m)),
  fc.tuple(lots, kg).map(([l, m]) => draft.adjust(l, m - 30)),
  fc.tuple(batches, lots).map(([b, l]) => draft.plan(b, l)),
  fc.tuple(batches, lines, kg, fc.option(lots, { nil: undefined })).map(([b, line, m, l]): Draft => {
    const weighing = draft.weigh(b, line, m / 4)
    return { ...weighing, body: { ...weighing.body, ...(l === undefined ? {} : { lot: l }) } } as Draft
  }),
  fc.tuple(batches, fc.constantFrom('release' as const, 'hold' as const)).map(([b, d]) => draft.decide(b, d)),
  fc.tuple(batches, packs, fc.integer({ min: 1, max: 50 })).map(([b, p, n]) => draft.pack(b, p, n)),
  fc.tuple(packs, fc.integer({ min: 1, max: 30 })).map(([p, n]) => draft.ship(p, n)),
  fc.constant(draft.check('2026-03-01', 1000)),
)
type Step = { readonly draft: Draft; readonly corrects?: number; readonly withdraw?: number }
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 4, arbitrary: fact.map((d) => ({ draft: d })) },
  { weight: 2, arbitrary: fc.tuple(fact, fc.nat(40)).map(([d, n]) => ({ draft: d, corrects: n })) },
  { weight: 1, arbitrary: fc.tuple(fact, fc.nat(40)).map(([d, n]) => ({ draft: d, withdraw: n })) },
)

/** The fact aimed at an entry of its kind that stands, speaking of the same thing; none where there is no such entry. */
async function correction(ledger: Ledger, { kind, body }: Draft, nth: number): Promise<Draft | undefined> {
  const standing = (await ledger.entries({ kind })).filter((e) => e.standing === 'stands')
  const target = standing[nth % Math.max(1, standing.length)]
  if (!target) return undefined
  const thing = subjectOf(target)
  return {
    kind,
    body: { ...body, [thing.type]: thing.id },
    by: 'ada',
    corrects: target.seq,
    why: 'mistyped',
  } as unknown as Draft
}

/** Try each step; what the record refuses is no part of the history. Returns how many were taken. */
async function live(ledger: Ledger, steps: readonly Step[]): Promise<number> {
  let taken = 0
  for (const step of steps) {
    let sent: Draft | undefined = step.draft
    if (step.withdraw !== undefined) sent = draft.withdraw(6 + (step.withdraw % (await ledger.head()).entries))
    if (step.corrects !== undefined) sent = await correction(ledger, step.draft, step.corrects)
    try {
      if (sent) taken += (await ledger.append([sent])).length
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error
    }
  }
  return taken
}

describe('the derived tables', () => {
  it('are the same rebuilt from the entries as kept up entry by entry, whatever the history', async () => {
    let [taken, superseded] = [0, 0]
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 40, maxLength: 70 }), async (steps) => {
        const ledger = await open(folder())
        await ledger.append(ready)
        taken += await live(ledger, steps)
        const kept = await dump(ledger.file)
        superseded += kept['superseded']!.length
        await ledger.rebuildViews()
        expect(await dump(ledger.file)).toEqual(kept)
        expect((await ledger.verify()).ok).toBe(true)
        // Mass is conserved: what each lot holds is what its account adds up to.
        for (const { lot } of await ledger.lots()) {
          const found = (await ledger.lot(lot))!
          expect(found.balanceKg).toBe(found.movements.at(-1)!.balanceKg)
        }
        await ledger.close()
      }),
      { numRuns: 40, seed: 20260302 },
    )
    // The property means something only where histories hold corrections and withdrawals.
    expect(taken).toBeGreaterThan(500)
    expect(superseded).toBeGreaterThan(150)
  }, 60_000)
})

describe('reads', () => {
  it('give an instrument as it stood on the day asked for', async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.check('2026-02-01', 1000), draft.check('2026-03-01', 1002.1)])
    const on = async (day: string) => (await ledger.instruments(day))[0]!
    expect(await on('2026-01-31')).toMatchObject({ standing: 'never-checked' })
    expect(await on('2026-02-02')).toMatchObject({ standing: 'in-date', nextDue: '2026-03-03' })
    expect(await on('2026-02-28')).toMatchObject({ standing: 'due' })
    expect(await on('2026-03-01')).toMatchObject({
      standing: 'out-of-tolerance',
      lastCheck: { error: 2.1, withinTolerance: false },
    })
  })

  it('page through lots and entries without missing or repeating any', async () => {
    const ledger = await open()
    await ledger.append([...ready, ...Array.from({ length: 24 }, (_, i) => draft.lot(`L${i}`))])
    const seen: string[] = []
    for (
      let page = await ledger.lots({ limit: 7 });
      page.length > 0;
      page = await ledger.lots({ limit: 7, after: page.at(-1)!.lot })
    )
      seen.push(...page.map((l) => l.lot))
    expect(seen).toEqual([...Array.from({ length: 24 }, (_, i) => `L${23 - i}`), 'PORK-1'])
    expect((await ledger.entries({ order: 'desc', limit: 2 })).map((e) => e.seq)).toEqual([29, 28])
    expect((await ledger.entries({ order: 'desc', limit: 2, after: 28 })).map((e) => e.seq)).toEqual([27, 26])
  })

  it('find text as it is typed, with the signs of a pattern taken as themselves', async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.lot('PORK-2')])
    expect(await ledger.lots({ q: 'MEADOW' })).toHaveLength(2)
    expect(await ledger.lots({ q: '%' })).toHaveLength(0)
    expect(await ledger.entries({ q: "'; drop table entry; --" })).toHaveLength(0)
    expect((await ledger.entries({ q: 'Bench Scale' })).map((e) => e.seq)).toEqual([3])
    expect((await ledger.entries({ about: 'person:ada', limit: 3 })).map((e) => e.seq)).toEqual([1, 2, 3])
  })

  it('list what is used up only when asked to', async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.lot('PORK-2'), draft.adjust('PORK-1', -50)])
    expect((await ledger.lots({ withBalanceOnly: true })).map((l) => l.lot)).toEqual(['PORK-2'])
    expect(await ledger.lots()).toHaveLength(2)
  })

  it('answer nothing for what is not there', async () => {
    const ledger = await open()
    const asked = [
      ledger.kitchen(),
      ledger.lot('X'),
      ledger.batch('X'),
      ledger.recipe('X'),
      ledger.pack('X'),
      ledger.traceLot('X'),
      ledger.tracePack('X'),
      ledger.massBalance('X'),
      ledger.entry(1),
      ledger.getFile('00'),
    ]
    expect(await Promise.all(asked)).toEqual(asked.map(() => undefined))
    expect(await ledger.head()).toEqual({ entries: 0, head: null, at: null })
  })

  it('keep a file byte for byte under its hash, once', async () => {
    const ledger = await open()
    const data = Uint8Array.from({ length: 256 }, (_, i) => i)
    const stored = await ledger.putFile(data)
    expect(stored).toEqual({ sha256: sha256(data), bytes: 256 })
    await ledger.putFile(data)
    expect(await ledger.files()).toHaveLength(1)
    expect(Uint8Array.from((await ledger.getFile(stored.sha256))!)).toEqual(data)
    await expect(ledger.putFile(new Uint8Array())).rejects.toThrow(
      'file: has 0 bytes; allowed: a file of 1 to 67108864 bytes',
    )
  })
})
