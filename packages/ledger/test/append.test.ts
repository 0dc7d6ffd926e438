import { InvalidInput } from '@forcemeat/craft/calculation'
import { describe, expect, it } from 'vitest'
import { canonical, genesis, sha256, type Draft, type Entry } from '../src/index.ts'
import { draft, folder, open, ready } from './bench-of-one.ts'

/** The faults a list of drafts is refused for. */
async function faultsOf(work: Promise<unknown>): Promise<string[]> {
  try {
    await work
  } catch (error) {
    if (error instanceof InvalidInput) return error.faults.map((f) => `${f.path}: ${f.message}`)
    throw error
  }
  throw new Error('was accepted')
}

describe('an entry', () => {
  it('names the hash of the one before it, the first sixty-four noughts, and its own hash covers the rest of it', async () => {
    const ledger = await open()
    const entries = await ledger.append(ready)
    let prev = genesis
    for (const [i, { hash, ...rest }] of entries.entries()) {
      expect(rest).toMatchObject({ seq: i + 1, prev })
      expect(hash).toBe(sha256(canonical(rest)))
      prev = hash
    }
    expect(await ledger.head()).toEqual({ entries: 5, head: prev, at: '2026-03-02T08:00:00.000Z' })
  })

  it('is kept across closing and opening', async () => {
    const where = folder()
    const first = await open(where)
    await first.append(ready)
    const head = await first.head()
    await first.close()
    expect(await (await open(where)).head()).toEqual(head)
    await expect(first.append(ready)).rejects.toMatchObject({ problem: 'closed' })
  })

  it('never goes back in time when the clock is set back, and says what the clock said', async () => {
    const clock = [
      '2026-03-02T08:00:00.000Z',
      '2026-03-02T09:00:00.000Z',
      '2026-03-01T09:00:00.000Z',
      '2026-03-02T10:00:00.000Z',
    ]
    let i = -1
    const ledger = await open(folder(), () => clock[Math.max(0, Math.min(i, 3))]!)
    const entries: Entry[] = []
    for (const d of [draft.kitchen, draft.person, draft.scale, draft.lot()]) {
      i += 1
      entries.push(...(await ledger.append([d])))
    }
    expect(entries.map((e) => e.at.slice(5, 13))).toEqual(['03-02T08', '03-02T09', '03-02T09', '03-02T10'])
    expect(entries.map((e) => e.clock)).toEqual([undefined, undefined, clock[2], undefined])
    expect((await ledger.verify()).ok).toBe(true)
  })
})

describe('a key', () => {
  it('is recorded once however often it is sent, alone, together or at the same moment', async () => {
    const ledger = await open()
    await ledger.append(ready)
    const sent: Draft = { ...draft.lot('PORK-2'), key: 'tablet-1' }
    const [[first], [second]] = await Promise.all([ledger.append([sent]), ledger.append([sent])])
    const [third, other] = await ledger.append([sent, { ...draft.lot('PORK-3'), key: 'tablet-2' }])
    expect(second).toEqual(first)
    expect(third).toEqual(first)
    expect(other!.seq).toBe(first!.seq + 1)
  })

  it('with other content is refused, naming the entry that has it', async () => {
    const ledger = await open()
    await ledger.append(ready)
    await ledger.append([{ ...draft.lot('PORK-2'), key: 'k' }])
    expect(await faultsOf(ledger.append([{ ...draft.lot('PORK-2', 51), key: 'k' }]))).toEqual([
      'key: was used for entry 6 with other content; allowed: a key of its own for each entry',
    ])
  })
})

describe('drafts sent together', () => {
  it('are recorded all or none, and a fault of one caller leaves the others alone', async () => {
    const ledger = await open()
    await ledger.append(ready)
    const results = await Promise.allSettled([
      ledger.append([draft.lot('A-1'), draft.lot('A-1')]),
      ledger.append([draft.lot('A-2')]),
      ledger.append([draft.lot('A-3'), draft.plan('B-9', 'A-3')]),
    ])
    expect(results.map((r) => r.status)).toEqual(['rejected', 'fulfilled', 'fulfilled'])
    expect((await ledger.lots()).map((l) => l.lot)).toEqual(['A-3', 'A-2', 'PORK-1'])
    expect(await ledger.verify()).toMatchObject({ ok: true, entries: 8 })
  })

  it('are refused with the place of every fault of shape', async () => {
    const ledger = await open()
    const wrong = [
      { kind: 'lot.receive', by: 'ada', body: { lot: 'has space', material: 'x', kg: -1, on: 'today', colour: 'red' } },
      { kind: 'lot.burn', by: 'ada', body: {} },
    ] as unknown as Draft[]
    const faults = await faultsOf(ledger.append(wrong))
    expect(faults.map((f) => f.split(':')[0])).toEqual(
      expect.arrayContaining(['[0].body.lot', '[0].body.kg', '[0].body.on', '[0].body.colour', '[1].kind']),
    )
    expect(faults.find((f) => f.startsWith('[0].body.kg'))).toMatch(
      /^\[0\].body.kg: is -1; allowed: a number in kg, more than 0/,
    )
  })
})

const refusals: readonly [title: string, drafts: readonly Draft[], fault: string][] = [
  [
    'an author nobody recorded',
    [{ ...draft.lot('X'), by: 'eve' }],
    'by: names person "eve", which the record does not have',
  ],
  ['a code given before', [draft.lot()], 'body.lot: names lot "PORK-1", which the record has already'],
  ['a person recorded before', [draft.person], 'body.person: names person "ada", which the record has already'],
  [
    'a version that is not the next',
    [draft.recipe(3)],
    'body.version: is 3; allowed: 2, the next version of recipe BREAKFAST',
  ],
  [
    'a plan of a lot unknown',
    [draft.plan('B', 'NONE')],
    'body.lines[0].lot: names lot "NONE", which the record does not have',
  ],
  [
    'a weighing of a batch unknown',
    [draft.weigh('NONE')],
    'body.batch: names batch "NONE", which the record does not have',
  ],
  [
    'a check of an instrument unknown',
    [{ ...draft.check('2026-03-01', 1), body: { ...draft.check('2026-03-01', 1).body, instrument: 'S9' } } as Draft],
    'body.instrument: names instrument "S9"',
  ],
  [
    'a count that takes more than there is',
    [draft.adjust('PORK-1', -50.001)],
    'body.kg: takes 50.001 kg from lot PORK-1, which holds 50 kg',
  ],
  ['a withdrawal that gives no reason', [{ kind: 'entry.withdraw', by: 'ada', body: { entry: 4 } }], 'why: is missing'],
  ['a withdrawal of nothing', [draft.withdraw(99)], 'body.entry: names entry 99, which the record does not have'],
  ['a correction without why', [{ ...draft.lot(), corrects: 4 }], 'why: is missing'],
  [
    'a correction of another kind',
    [{ ...draft.recipe(), corrects: 4, why: 'typo' }],
    'corrects: names entry 4, of kind lot.receive',
  ],
  [
    'a correction of another thing',
    [{ ...draft.lot('PORK-9'), corrects: 4, why: 'typo' }],
    'corrects: names entry 4, about lot PORK-1',
  ],
  [
    'a curve whose file is not there',
    [
      {
        kind: 'batch.curve',
        by: 'ada',
        body: {
          batch: 'NONE',
          purpose: 'cook',
          file: 'b'.repeat(64),
          fileName: 'a.csv',
          reading: {},
          channels: [{ column: 'T1', role: 'core' }],
        },
      },
    ],
    'body.file: is not a file of the record',
  ],
]

const afterBatch: typeof refusals = [
  [
    'a weighing of a line that is not on the sheet',
    [draft.weigh('B-1', 'ice')],
    'body.line: is "ice", which the sheet of batch B-1 does not have; allowed: one of meat, salt',
  ],
  [
    'a weighing out of more than the lot holds',
    [draft.weigh('B-1', 'meat', 31)],
    'body.kg: takes 31 kg from lot PORK-1, which holds 30 kg',
  ],
  ['a shipment of a batch nobody released', [draft.ship()], 'body.pack: is of batch B-1, which nobody has released'],
  [
    'a shipment of more than there are',
    [draft.decide(), draft.ship('P-1', 41)],
    '[1].body.count: is 41, and 40 of pack P-1 are here',
  ],
  [
    'a shipment of a batch on hold',
    [draft.decide(), draft.decide('B-1', 'hold'), draft.ship()],
    '[2].body.pack: is of batch B-1, which is on hold',
  ],
  [
    'a withdrawal of a lot that was used',
    [draft.withdraw(4)],
    'body.entry: names entry 4 (lot.receive PORK-1), on which entries 6, 7 lean',
  ],
  [
    'a withdrawal of a recipe that a batch follows',
    [draft.withdraw(5)],
    'body.entry: names entry 5 (recipe.save BREAKFAST), on which entries 6 lean',
  ],
  ['a withdrawal of a person who wrote', [draft.withdraw(2)], 'body.entry: names entry 2 (person.add ada)'],
  [
    'a receipt corrected below what was used',
    [{ ...draft.lot('PORK-1', 10), corrects: 4, why: 'wrong scale' }],
    'body.kg: takes 40 kg from lot PORK-1, which holds 30 kg',
  ],
]

describe('the record refuses', () => {
  it.each(refusals)('%s', async (_, drafts, fault) => {
    const ledger = await open()
    await ledger.append(ready)
    expect((await faultsOf(ledger.append(drafts))).join('\n')).toContain(fault)
    expect(await ledger.head()).toMatchObject({ entries: 5 })
  })

  it.each(afterBatch)('%s', async (_, drafts, fault) => {
    const ledger = await open()
    await ledger.append([...ready, draft.plan(), draft.weigh(), draft.pack()])
    expect((await faultsOf(ledger.append(drafts))).join('\n')).toContain(fault)
    expect(await ledger.head()).toMatchObject({ entries: 8 })
  })
})

describe('a balance below nothing', () => {
  it('is recorded where a note says why, and stands on the list of the day', async () => {
    const ledger = await open()
    await ledger.append(ready)
    await ledger.append([draft.adjust('PORK-1', -51, 'the label was wrong')])
    expect(await ledger.lot('PORK-1')).toMatchObject({ balanceKg: -1 })
    expect((await ledger.today()).lotsBelowZero.map((l) => l.lot)).toEqual(['PORK-1'])
  })
})

describe('corrections and withdrawals', () => {
  it('change what the views show and keep what was written', async () => {
    const ledger = await open()
    await ledger.append([...ready, draft.plan(), draft.weigh('B-1', 'meat', 20)])
    await ledger.append([{ ...draft.weigh('B-1', 'meat', 19.5), corrects: 7, why: 'read the wrong line' }])
    expect(await ledger.lot('PORK-1')).toMatchObject({
      balanceKg: 30.5,
      movements: [{ seq: 4 }, { seq: 8, root: 7, kg: -19.5 }],
    })
    expect((await ledger.entry(7))!).toMatchObject({ standing: 'corrected', supersededBy: 8, body: { kg: 20 } })
    expect(await faultsOf(ledger.append([{ ...draft.weigh(), corrects: 7, why: 'again' }]))).toEqual([
      'corrects: names entry 7, which was corrected by entry 8; allowed: the entry that stands now',
    ])
    await ledger.append([draft.withdraw(8)])
    expect(await ledger.batch('B-1')).toMatchObject({ state: 'planned', weighings: [] })
    expect(await ledger.lot('PORK-1')).toMatchObject({ balanceKg: 50 })
    await ledger.append([draft.withdraw(6), draft.plan('B-1')])
    expect(await ledger.batch('B-1')).toMatchObject({ state: 'planned', seq: 11 })
  })

  it('make a batch that was released wait again when its release is withdrawn', async () => {
    const ledger = await open()
    await ledger.append([
      ...ready,
      draft.plan(),
      draft.weigh(),
      draft.weigh('B-1', 'salt', 0.36),
      draft.decide('B-1', 'hold'),
      draft.decide(),
    ])
    expect(await ledger.batch('B-1')).toMatchObject({ state: 'released' })
    await ledger.append([draft.withdraw(10)])
    expect(await ledger.batch('B-1')).toMatchObject({ state: 'held', decision: 'hold' })
    expect((await ledger.today()).holds.map((b) => b.batch)).toEqual(['B-1'])
  })
})
