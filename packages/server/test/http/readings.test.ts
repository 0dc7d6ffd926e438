import { afterAll, beforeAll, expect, it } from 'vitest'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
let house: House
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T09:00:00Z') })
  await house.ledger.append([
    ...smallKitchen,
    { kind: 'lot.receive', by, body: { lot: 'PK', material: 'pork-back-fat', kg: 5, on: '2026-11-01' } },
    { kind: 'room.add', by, body: { room: 'F1', name: 'Ferment', purpose: 'ferment', tempC: 22 } },
  ])
})
afterAll(() => house.close())

const refused = async (draft: object): Promise<string> => {
  const before = (await house.ledger.head()).entries
  const { status, body } = await house.ask('POST', '/api/entries', draft)
  expect(status, JSON.stringify(body)).toBe(400)
  expect((await house.ledger.head()).entries).toBe(before)
  return (body['faults'] as { path: string; message: string }[]).map((f) => `${f.path} ${f.message}`).join('\n')
}
const taken = async (draft: object): Promise<void> => {
  const { status, body } = await house.ask('POST', '/api/entries', draft)
  expect(status, JSON.stringify(body)).toBe(201)
}
const day = async () => (await house.ledger.batch('B-1'))!.on
const measure = async (what: string, value: number, more: object = {}) => ({
  kind: 'batch.measure',
  by,
  body: { batch: 'B-1', step: 'ferment', what, value, taken: `${await day()}T08:00:00Z`, ...more },
})
const treat = (more: object = {}) => ({
  kind: 'lot.treat',
  by,
  body: {
    lot: 'PK',
    way: 'frozen-room',
    on: '2026-11-24',
    thicknessMm: 140,
    roomC: -26,
    from: '2026-11-02T08:00:00Z',
    until: '2026-11-24T08:00:00Z',
    ...more,
  },
})

it('takes no reading that cannot be (common practice, no source)', async () => {
  for (const [what, value] of [
    ['ph', 2.99],
    ['ph', 51],
    ['aw', 0.09],
    ['aw', 1.01],
    ['temperature', 400],
    ['humidity', 101],
  ] as const)
    expect(await refused(await measure(what, value))).toMatch(/^body\.value is .*allowed: /)
  expect(await refused(await measure('weight', 0, { piece: 'P1', unit: 'g' }))).toMatch(/^body\.value .*more than 0/)
  await taken(await measure('ph', 5.2))
  await taken(await measure('temperature', 400, { unit: '°F' }).then((d) => ({ ...d, body: { ...d.body, value: 72 } })))
})

it('takes no reading and no hanging before the batch was there, or still to come', async () => {
  expect(await refused(await measure('ph', 5.2, { taken: '2026-06-01T08:00:00Z' }))).toMatch(/^body\.taken .*before/)
  expect(await refused(await measure('ph', 5.2, { taken: '2026-11-25T11:00:00Z' }))).toMatch(/^body\.taken .*to come/)
  const hang = (at: string) => ({ kind: 'batch.place', by, body: { batch: 'B-1', room: 'F1', at } })
  expect(await refused(hang('2026-06-01T08:00:00Z'))).toMatch(/^body\.at .*before/)
  expect(await refused(hang('2026-11-25T11:00:00Z'))).toMatch(/^body\.at .*to come/)
})

it('takes no freezing too warm, too thin, too thick, still to come, or from before the lot was there', async () => {
  expect(await refused(treat({ thicknessMm: 4 }))).toMatch(/^body\.thicknessMm .*5 to 700 mm/)
  expect(await refused(treat({ thicknessMm: 701 }))).toMatch(/^body\.thicknessMm/)
  expect(await refused(treat({ roomC: 4 }))).toMatch(/^body\.roomC .*-5 °C or colder/)
  expect(await refused(treat({ until: '2026-12-24T08:00:00Z' }))).toMatch(/^body\.until .*to come/)
  expect(await refused(treat({ from: '2026-10-02T08:00:00Z' }))).toMatch(/^body\.from .*before the lot/)
  expect(await refused(treat({ until: '2026-11-01T08:00:00Z' }))).toMatch(/^body\.until .*before it began/)
  await taken(treat())
})

it('takes no temperature of arrival that cannot be, and a warm one of meat only with a note that says why', async () => {
  const receive = (lot: string, arrivalC: number, more: object = {}) => ({
    kind: 'lot.receive',
    by,
    body: { lot, material: 'pork-shoulder-trim', kg: 5, on: '2026-11-24', arrivalC, ...more },
  })
  expect(await refused(receive('L-A', 400))).toMatch(/^body\.arrivalC is 400 °C; allowed: -60 to 60 °C/)
  // 38 °F typed without its unit.
  expect(await refused(receive('L-A', 38))).toMatch(/^body\.arrivalC is 38 °C.*°F.*a note that says why/)
  await taken(receive('L-A', 38, { note: 'hot-boned, straight from the slaughter floor' }))
  await taken(receive('L-B', 4))
  await taken(receive('L-C', 28, { material: 'salt' }))
})

it('asks for a word on a block of meat thinner than such blocks are, over HTTP as on the page', async () => {
  expect(await refused(treat({ thicknessMm: 14 }))).toMatch(
    /^body\.thicknessMm is 14 mm.*centimetres.*thicknessConfirmed/,
  )
  expect(await refused(treat({ thicknessMm: 14, thicknessConfirmed: false }))).toMatch(/^body\.thicknessConfirmed/)
  expect(await refused(treat({ thicknessMm: 140, thicknessConfirmed: true }))).toMatch(
    /^body\.thicknessConfirmed.*only below 25 mm/,
  )
  await taken(treat({ thicknessMm: 14, thicknessConfirmed: true }))
  await taken(treat({ thicknessMm: 25 }))
})
