import { expect, it } from 'vitest'
import type { Draft, Ledger } from '../src/index.ts'
import { draft, open, ready } from './bench-of-one.ts'

const by = 'ada'
const room = (tempC: number, more: { corrects?: number; why?: string } = {}): Draft => ({
  kind: 'room.add',
  by,
  body: { room: 'K1', name: 'Cold room', purpose: 'cold', tempC },
  ...more,
})
const place = (batch: string, at: string, more: { corrects?: number; why?: string } = {}): Draft => ({
  kind: 'batch.place',
  by,
  body: { batch, room: 'K1', at },
  ...more,
})
const dried = {
  ...draft.recipe(),
  body: { recipe: 'BREAKFAST', version: 2, body: { ...(draft.recipe().body as { body: object }).body, kind: 'dried' } },
} as Draft
const plan = (batch: string): Draft => {
  const of = draft.plan(batch)
  return { ...of, body: { ...of.body, version: 2 } } as Draft
}
const setOf = async (ledger: Ledger, batch: string): Promise<(number | undefined)[]> =>
  ((await ledger.batch(batch))?.placements ?? []).map((p) => p.tempC)

it('a batch keeps the setting its room had when the batch was put there, whatever the room is set to later', async () => {
  const ledger = await open()
  await ledger.append([...ready, dried, plan('B-1'), plan('B-2')])
  const [first] = await ledger.append([room(12)])
  const [put] = await ledger.append([place('B-1', '2026-03-02T09:00:00Z')])
  await ledger.append([room(4, { corrects: first!.seq, why: 'set colder' }), place('B-2', '2026-03-02T09:00:00Z')])
  expect(await setOf(ledger, 'B-1')).toEqual([12])
  expect(await setOf(ledger, 'B-2')).toEqual([4])
  // Its hour put right, the batch still hung in the room as it was.
  await ledger.append([place('B-1', '2026-03-02T08:30:00Z', { corrects: put!.seq, why: 'half an hour off' })])
  expect(await setOf(ledger, 'B-1')).toEqual([12])
  expect((await ledger.rooms())[0]?.tempC).toBe(4)
})

it('a setting written wrong is put right for a batch by placing it anew', async () => {
  const ledger = await open()
  await ledger.append([...ready, dried, plan('B-1')])
  const [first] = await ledger.append([room(40)])
  const [put] = await ledger.append([place('B-1', '2026-03-02T09:00:00Z')])
  await ledger.append([
    room(4, { corrects: first!.seq, why: 'a nought too many' }),
    { kind: 'entry.withdraw', by, body: { entry: put!.seq, note: 'placed anew under the right setting' } },
    place('B-1', '2026-03-02T09:00:00Z'),
  ])
  expect(await setOf(ledger, 'B-1')).toEqual([4])
})
