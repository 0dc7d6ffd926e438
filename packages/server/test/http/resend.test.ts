// A sender whose line broke does not know whether its entry arrived. It sends the same again under the same key, and must get the entry
// as it was recorded, whatever has become known since.
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { euPack, labelKitchen } from '../label/label-kitchen.ts'
import { openHouse, type House } from '../support.ts'

const by = 'nell'
let house: House
let clock: Date
beforeEach(async () => {
  clock = new Date()
  house = await openHouse({ now: () => clock })
  await fillWithDemo(house.ledger)
}, 60_000)
afterEach(() => house.close())

const today = () => clock.toISOString().slice(0, 10)
type Answer = Awaited<ReturnType<House['ask']>>
const send = (body: unknown): Promise<Answer> => house.ask('POST', '/api/entries', body)
const recorded = (a: Answer) => (a.body['entries'] as { seq: number; hash: string }[]).map((e) => `${e.seq} ${e.hash}`)
const count = async () => (await house.ledger.head()).entries

const packed = (key: string, more: object = {}) => ({
  kind: 'batch.pack',
  by,
  key,
  body: { batch: 'RING-0117', pack: 'P-T', count: 10, totalKg: 1, on: today(), ...more },
})
const shipped = (key: string, note?: string) => ({
  kind: 'pack.ship',
  by,
  key,
  body: { pack: 'P-T', to: 'Mill Inn', count: 1, on: today(), ...(note ? { note } : {}) },
})

/** What a corrected weight of cure makes of a batch that is out. */
async function castDoubt(): Promise<void> {
  const { body } = await house.ask('GET', '/api/batches/RING-0117')
  const weighings = body['weighings'] as { seq: number; line: string; kg: number; lot?: string; instrument?: string }[]
  const { seq, line, kg, lot, instrument } = weighings.find((w) => w.kg < 0.2 && w.kg > 0.04)!
  const cure = { batch: 'RING-0117', line, kg: kg * 3, note: 'from the slip' }
  const corrected = await send({
    kind: 'batch.weigh',
    by,
    corrects: seq,
    why: 'the slip says another weight',
    body: { ...cure, ...(lot ? { lot } : {}), ...(instrument ? { instrument } : {}) },
  })
  expect(corrected.status, JSON.stringify(corrected.body)).toBe(201)
}

/** Sent again, and again in a list with one that is new: 200 with the entry that is there; nothing recorded twice. */
async function comesBack(draft: { key: string }, first: Answer): Promise<void> {
  expect(first.status, JSON.stringify(first.body)).toBe(201)
  const before = await count()
  const again = await send(draft)
  expect([again.status, recorded(again)], JSON.stringify(again.body)).toEqual([200, recorded(first)])
  expect(await count()).toBe(before)
  const fresh = {
    kind: 'lot.adjust',
    by,
    key: `${draft.key} more`,
    body: { lot: 'SH-1014', kg: 0.1, reason: 'other', on: today(), note: 'n' },
  }
  const both = await send([draft, fresh])
  expect([both.status, recorded(both)[0]], JSON.stringify(both.body)).toEqual([201, recorded(first)[0]])
  expect(await count()).toBe(before + 1)
}

describe('an entry sent again under its key after a broken line', () => {
  it('comes back as it was recorded, with 200', async () => {
    await comesBack(packed('k-pack'), await send(packed('k-pack')))
  })

  it('comes back though its batch has come into doubt since, which would stop a new shipment', async () => {
    await send(packed('k-pack'))
    const first = await send(shipped('k-1'))
    await castDoubt()
    expect((await send(shipped('k-2'))).status).toBe(409)
    await comesBack(shipped('k-1'), first)
  })

  it('comes back where it was refused first and then confirmed with a note under the same key', async () => {
    await send(packed('k-pack'))
    await castDoubt()
    const before = await count()
    expect((await send(shipped('k-1'))).status).toBe(409)
    expect(await count()).toBe(before)
    const confirmed = shipped('k-1', 'back to the maker, to be destroyed')
    await comesBack(confirmed, await send(confirmed))
    // The draft that was refused is another one: it is held against the record as any other.
    expect([400, 409]).toContain((await send(shipped('k-1'))).status)
  })

  it('comes back though the clock was set back since, so that its day is still to come', async () => {
    const draft = packed('k-pack')
    const first = await send(draft)
    clock = new Date(clock.getTime() - 20 * 86_400_000)
    expect((await send({ ...packed('k-2'), body: { ...draft.body, pack: 'P-U' } })).status).toBe(400)
    const again = await send(draft)
    expect([again.status, recorded(again)]).toEqual([200, recorded(first)])
  })

  it('comes back though it has been corrected or withdrawn since', async () => {
    const first = await send(packed('k-pack'))
    const seq = Number(recorded(first)[0]!.split(' ')[0])
    expect((await send({ kind: 'entry.withdraw', by, body: { entry: seq }, why: 'twice' })).status).toBe(201)
    const again = await send(packed('k-pack'))
    expect([again.status, recorded(again)]).toEqual([200, recorded(first)])
  })

  it('is refused where the key was used for something else', async () => {
    await send(packed('k-pack'))
    const other = await send(packed('k-pack', { count: 11 }))
    expect([other.status, JSON.stringify(other.body)]).toEqual([400, expect.stringMatching(/other content/)])
  })

  it('is recorded once where it is sent many times at once', async () => {
    const before = await count()
    const answers = await Promise.all(Array.from({ length: 8 }, () => send(packed('k-pack'))))
    expect(answers.every((a) => a.status === 201 || a.status === 200)).toBe(true)
    expect(new Set(answers.map((a) => recorded(a)[0])).size).toBe(1)
    expect(await count()).toBe(before + 1)
  })
})

describe('a decision sent again under its key', () => {
  const decide = (decision: string, key: string, reasons = ['looked at']) =>
    house.ask('POST', '/api/batches/RING-0117/decide', { decision, reasons, by, key })

  it('comes back with 200 though the batch would not be released now', async () => {
    const first = await decide('release', 'd-1')
    expect(first.status, JSON.stringify(first.body)).toBe(201)
    await castDoubt()
    const before = await count()
    expect((await decide('release', 'd-2')).status).toBe(409)
    const again = await decide('release', 'd-1')
    expect([again.status, recorded(again)], JSON.stringify(again.body)).toEqual([200, recorded(first)])
    expect(await count()).toBe(before)
  })

  it('comes back with the deviation a hold opened', async () => {
    await castDoubt()
    const first = await decide('hold', 'd-1')
    expect(first.status, JSON.stringify(first.body)).toBe(201)
    expect(recorded(first)).toHaveLength(2)
    await send(packed('k-pack', { note: 'for the bin' }))
    const again = await decide('hold', 'd-1')
    expect([again.status, recorded(again)], JSON.stringify(again.body)).toEqual([200, recorded(first)])
  })

  it('is refused where the key was used for another decision, batch or reason', async () => {
    await decide('hold', 'd-1')
    for (const answer of [await decide('release', 'd-1'), await decide('hold', 'd-1', ['another'])])
      expect([answer.status, JSON.stringify(answer.body)]).toEqual([400, expect.stringMatching(/other content/)])
  })
})

describe('an approval of a label sent again under its key', () => {
  beforeEach(async () => {
    await house.close()
    clock = new Date('2026-11-25T08:00:00Z')
    house = await openHouse({ now: () => clock })
    await house.ledger.append([...labelKitchen])
  })
  const approve = (key: string | undefined, more: object = {}) =>
    house.ask('POST', '/api/labels/approve', {
      label: 'LINK-EU',
      place: 'EU',
      batch: 'LINK-1',
      pack: euPack,
      reasons: ['proof read against the batch'],
      by: 'ana',
      ...(key === undefined ? {} : { key }),
      ...more,
    })

  it('comes back with 200 as it was signed, and is recorded once', async () => {
    const first = await approve('a-1')
    expect(first.status, JSON.stringify(first.body)).toBe(201)
    const before = await count()
    const again = await approve('a-1')
    expect([again.status, recorded(again)], JSON.stringify(again.body)).toEqual([200, recorded(first)])
    expect(await count()).toBe(before)
  })

  it('comes back though its batch is known since to hold another allergen, which stops a new approval', async () => {
    const first = await approve('a-1')
    const { body } = await house.ask('GET', '/api/batches/LINK-1')
    const { seq } = (body['weighings'] as { seq: number; line: string }[]).find((w) => w.line === 'spice')!
    const mustard = { batch: 'LINK-1', line: 'spice', lot: 'MU-1', kg: 0.03 }
    expect(
      (await send({ kind: 'batch.weigh', by: 'ana', corrects: seq, why: 'the other bag', body: mustard })).status,
    ).toBe(201)
    const before = await count()
    expect((await approve('a-2')).status).toBe(409)
    const again = await approve('a-1')
    expect([again.status, recorded(again)], JSON.stringify(again.body)).toEqual([200, recorded(first)])
    expect(await count()).toBe(before)
  })

  it('is refused where the key approved another pack, batch or reason', async () => {
    await approve('a-1')
    const before = await count()
    for (const other of [
      { pack: { ...euPack, netG: 500 } },
      { pack: { ...euPack, business: 'Brackwater Smokehouse' } },
      { batch: 'LINK-2' },
      { reasons: ['looked at'] },
      { label: 'LINK-GB' },
    ]) {
      const answer = await approve('a-1', other)
      expect([answer.status, JSON.stringify(answer.body)], JSON.stringify(other)).toEqual([
        400,
        expect.stringMatching(/other content/),
      ])
    }
    expect(await count()).toBe(before)
  })

  it('is recorded once where it is sent many times at once', async () => {
    const before = await count()
    const answers = await Promise.all(Array.from({ length: 4 }, () => approve('a-1')))
    expect(answers.every((a) => a.status === 201 || a.status === 200)).toBe(true)
    expect(new Set(answers.map((a) => recorded(a)[0])).size).toBe(1)
    expect(await count()).toBe(before + 1)
  })
})
