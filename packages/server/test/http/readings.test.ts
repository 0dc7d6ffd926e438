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

it('takes no freezing from before its meat was there: of rework, of a part, or dated so', async () => {
  const treatOf = (lot: string, from: string, more: object = {}) => treat({ lot, from, ...more })
  await house.ledger.append([
    { kind: 'lot.split', by, body: { from: 'PK', lot: 'PK-1', kg: 1, on: '2026-11-20' } },
    {
      kind: 'lot.rework',
      by,
      body: { batch: 'B-1', lot: 'RW', material: 'pork-shoulder-trim', kg: 1, on: await day(), note: 'weighed later' },
    },
  ])
  expect(await refused(treatOf('PK-1', '2026-10-02T08:00:00Z'))).toMatch(/^body\.from .*before the lot/)
  await taken(treatOf('PK-1', '2026-11-02T08:00:00Z'))
  expect(await refused(treatOf('RW', '2026-11-02T08:00:00Z'))).toMatch(/^body\.from .*before the lot/)
  expect(await refused(treat({ on: '2026-10-20' }))).toMatch(/^body\.on is 2026-10-20, before the lot/)
})

it('asks about a column called like the air of a room where the centre is meant; a note answers', async () => {
  const file = (await house.ledger.putFile(new TextEncoder().encode('time,Room °C\n'))).sha256
  const centre = (more: object = {}) => ({
    kind: 'lot.treat',
    by,
    body: { lot: 'PK', way: 'frozen-centre', on: '2026-11-24', file, column: 'Room °C', ...more },
  })
  expect(await refused(centre())).toMatch(/^body\.column is "Room °C", called like the air.*a note/)
  await taken(centre({ note: 'the probe of the room logger was in the thickest block' }))
  await taken(centre({ column: 'Core °C' }))
})

it('takes no ratio or residue that cannot be (common practice, no source)', async () => {
  for (const [what, value] of [
    ['moisture-protein', 0],
    ['moisture-protein', 0.001],
    ['moisture-protein', -1],
    ['moisture-protein', 11],
    ['nitrite', -5],
    ['nitrate', -0.1],
  ] as const)
    expect(await refused(await measure(what, value, { step: 'dry' })), `${what} ${value}`).toMatch(/^body\.value is /)
  await taken(await measure('moisture-protein', 1.6, { step: 'dry' }))
  await taken(await measure('nitrite', 0, { step: 'dry' }))
})

it('takes no recipe sold under a name the rulebook does not know', async () => {
  const save = (recipe: string, standards: string[]) => ({
    kind: 'recipe.save',
    by,
    body: {
      recipe,
      version: 1,
      body: {
        name: 'Stick',
        kind: 'dried',
        smoked: false,
        readyToEat: true,
        meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
        additions: [],
        standards,
      },
    },
  })
  expect(await refused(save('R-1', ['us.peperoni', 'zz.nonsense']))).toMatch(
    /^body\.body\.standards\[0\] is "us\.peperoni".*us\.pepperoni.*\nbody\.body\.standards\[1\] is "zz\.nonsense"/,
  )
  await taken(save('R-1', ['us.pepperoni', 'us.319.180.a']))
})
