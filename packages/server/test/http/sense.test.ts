import { afterAll, beforeAll, expect, it } from 'vitest'
import { judged } from '../../src/judge/judged.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
let house: House
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T09:00:00Z') })
  await house.ledger.append([
    ...smallKitchen,
    {
      kind: 'instrument.add',
      by,
      body: { instrument: 'S-6', type: 'scale', name: 'Small', readabilityG: 1, capacityG: 6000, checkEveryDays: 30 },
    },
  ])
})
afterAll(() => house.close())

const refused = async (...drafts: object[]): Promise<string> => {
  const before = (await house.ledger.head()).entries
  const { status, body } = await house.ask('POST', '/api/entries', drafts.length === 1 ? drafts[0] : drafts)
  expect(status, JSON.stringify(body)).toBe(400)
  expect((await house.ledger.head()).entries).toBe(before)
  return (body['faults'] as { path: string; message: string }[]).map((f) => `${f.path} ${f.message}`).join('\n')
}
const taken = async (draft: object, expected = 201): Promise<void> => {
  const { status, body } = await house.ask('POST', '/api/entries', draft)
  expect(status, JSON.stringify(body)).toBe(expected)
}
const weigh = (kg: number, instrument: string) => ({
  kind: 'batch.weigh',
  by,
  body: { batch: 'B-1', line: 'salt', kg, instrument },
})
const pack = (code: string, totalKg: number, more: object = {}) => ({
  kind: 'batch.pack',
  by,
  body: { batch: 'B-1', pack: code, count: 10, totalKg, on: '2026-11-25', ...more },
})
const receive = (lot: string, more: object = {}) => ({
  kind: 'lot.receive',
  by,
  body: { lot, material: 'salt', kg: 5, on: '2026-11-25', ...more },
})

it('takes no weight that its scale cannot carry', async () => {
  expect(await refused(weigh(6.001, 'S-6'))).toMatch(
    /^body\.kg is 6\.001 kg, more than S-6 carries; allowed: at most 6 kg/,
  )
  await taken(weigh(0.36, 'S-6'))
})

it('takes no more packed than went in, beyond 5 %, in one entry or in several, without a note', async () => {
  // Planned 20.408 kg; 5 % more is 21.4284 kg.
  expect(await refused(pack('P-1', 21.43))).toMatch(/^body\.totalKg brings .* 21\.43 kg, and 20\.408 kg went in/)
  expect(await refused(pack('P-1', 11), pack('P-2', 11))).toMatch(/^\[1\]\.body\.totalKg/)
  await taken({ ...pack('P-1', 15), key: 'k1' })
  // Sent again, as after a lost line: the same entry, not another pack.
  await taken({ ...pack('P-1', 15), key: 'k1' }, 200)
  expect(await refused(pack('P-2', 7))).toMatch(/22 kg/)
  await taken(pack('P-2', 6.4))
  const [first] = (await house.ledger.batch('B-1'))!.packs
  await taken({ ...pack('P-1', 14.9), corrects: first!.seq, why: 'weighed again' })
  await taken(pack('P-3', 7, { note: 'with sauce' }))
})

it('takes no more out of a batch than went in, packs and rework together, without a note', async () => {
  const plan = smallKitchen.find((d) => d.kind === 'batch.plan')!
  const of = { batch: 'B-5' }
  await taken({ ...plan, body: { ...plan.body, ...of } })
  const lines = (plan.body as { lines: { line: string; targetKg: number }[] }).lines
  for (const { line, targetKg } of lines) await taken({ kind: 'batch.weigh', by, body: { ...of, line, kg: targetKg } })
  const back = (lot: string, kg: number, note?: string) => ({
    kind: 'lot.rework',
    by,
    body: { lot, ...of, material: 'pork-shoulder-trim', kg, on: '2026-11-25', ...(note ? { note } : {}) },
  })
  await taken(pack('P-51', 12, of))
  expect(await refused(back('RW-5', 12))).toMatch(/^body\.kg is 12 kg, and batch B-5 has 8\.408 kg .* not packed/)
  expect(await refused(back('RW-5', 5), pack('P-52', 5, of))).toMatch(/^\[1\]\.body\.totalKg/)
  await taken(back('RW-5', 8))
  expect(await refused(pack('P-52', 2, of))).toMatch(/packed or taken out as rework of B-5 to 22 kg, and 20\.408 kg/)
  await taken(back('RW-6', 1, 'with the sauce'))
  await taken(pack('P-52', 2, { ...of, note: 'with the sauce' }))
})

it('takes no material that the table does not have', async () => {
  expect(await refused(receive('L-1', { material: 'porc-sholder' }))).toMatch(/^body\.material is "porc-sholder".*GET/)
  const plan = smallKitchen.find((d) => d.kind === 'batch.plan')!
  const lines = [{ line: 'a', material: 'zzz', targetKg: 1 }]
  expect(await refused({ ...plan, body: { ...plan.body, batch: 'B-2', lines } })).toMatch(/^body\.lines\[0\]\.material/)
})

it('takes no date before its beginning, and none ahead of tomorrow but for plans', async () => {
  expect(await refused(receive('L-2', { useBy: '2026-11-24' }))).toMatch(
    /^body\.useBy is 2026-11-24, before 2026-11-25/,
  )
  expect(await refused(receive('L-2', { on: '2026-11-27' }))).toMatch(/^body\.on is 2026-11-27.*2026-11-26/)
  expect(await refused(pack('P-9', 0.1, { useBy: '2026-11-01' }))).toMatch(/^body\.useBy/)
  await taken(receive('L-2', { on: '2026-11-26', useBy: '2026-12-24' }))
  const plan = smallKitchen.find((d) => d.kind === 'batch.plan')!
  await taken({ ...plan, body: { ...plan.body, batch: 'B-3', on: '2026-12-20' } })
  const early = { kind: 'batch.weigh', by, body: { batch: 'B-3', line: 'salt', kg: 0.36 } }
  expect(await refused(early)).toMatch(/^body\.batch is planned for 2026-12-20/)
})

it('leaves what has no readable shape to the record', async () => {
  expect(await refused({ kind: 'lot.receive', by, body: { lot: 'L-3' } })).toMatch(/body\.material is missing/)
})

it('takes no check that proves nothing without a note, and none that cannot be one of its instrument', async () => {
  await taken({
    kind: 'kitchen.set',
    by,
    body: { name: 'Tern Hollow', jurisdictions: ['GB'], units: 'metric', altitudeM: 210, demo: true },
  })
  const add = (instrument: string, type: string, more: object) =>
    taken({ kind: 'instrument.add', by, body: { instrument, type, name: type, checkEveryDays: 30, ...more } })
  await add('TH-9', 'thermometer', { toleranceC: 0.5 })
  await add('SC-60', 'scale', { toleranceG: 20, capacityG: 60_000 })
  const check = (instrument: string, method: string, reference: number, reading: number, more: object = {}) => ({
    kind: 'instrument.check',
    by,
    body: { instrument, method, reference, reading, unit: '°C', tolerance: 0.5, on: '2026-11-20', ...more },
  })
  const g = { unit: 'g', tolerance: 20 }
  expect(await refused(check('TH-9', 'ice-point', 0, 6, { tolerance: 20 }))).toMatch(
    /^body\.tolerance .* 0\.5 °C at most/,
  )
  expect(await refused(check('TH-9', 'ice-point', 5, 5))).toMatch(/^body\.reference .* an ice point is 0 °C/)
  expect(await refused(check('TH-9', 'boiling-point', 90, 90))).toMatch(/boils at 99\.3 °C at 210 m/)
  expect(await refused(check('SC-60', 'test-load', 1, 1, g))).toMatch(/less than 2 % of the 60000 g/)
  const note = { note: 'the ice machine stood still' }
  expect(await refused(check('SC-60', 'ice-point', 0, 0, note))).toMatch(/^body\.method .* by test load, comparison/)
  expect(await refused(check('TH-9', 'ice-point', 0, 0, { ...g, ...note }))).toMatch(/^body\.unit/)
  await taken(check('TH-9', 'ice-point', 5, 5, note))
  const stands = async (id: string) => (await house.ledger.instrument(id, '2026-11-25'))!
  expect(await stands('TH-9')).toMatchObject({
    standing: 'never-checked',
    provesNothing: {
      on: '2026-11-20',
      because: expect.stringMatching(/^a check that proves nothing: an ice/) as string,
    },
  })
  await taken(check('TH-9', 'boiling-point', 99.3, 99.1))
  expect((await stands('TH-9')).standing).toBe('in-date')
  await taken(check('TH-9', 'ice-point', 0, 6, { tolerance: 20, ...note }))
  expect(await stands('TH-9')).toMatchObject({
    standing: 'out-of-tolerance',
    lastCheck: { error: 6, allowed: 0.5, withinTolerance: false },
  })
  await taken(check('SC-60', 'test-load', 20_000, 20_010, g))
  expect((await stands('SC-60')).standing).toBe('in-date')
})

it('rework of a batch with mustard is not taken into one without, whatever list was typed with it', async () => {
  const plan = smallKitchen.find((d) => d.kind === 'batch.plan')!
  const line = (n: string, material: string, lot?: string) => ({
    line: n,
    material,
    targetKg: 1,
    ...(lot === undefined ? {} : { lot }),
  })
  const planned = (batch: string, lines: object[]) =>
    taken({ ...plan, body: { ...plan.body, on: '2026-11-25', batch, lines } })
  const weighed = (batch: string, n: string) => taken({ kind: 'batch.weigh', by, body: { batch, line: n, kg: 1 } })
  await planned('M-1', [line('a', 'pork-shoulder-trim'), line('b', 'mustard-seed')])
  for (const n of ['a', 'b']) await weighed('M-1', n)
  await taken({
    kind: 'lot.rework',
    by,
    body: { lot: 'RW-M', batch: 'M-1', material: 'pork-shoulder-trim', kg: 1, on: '2026-11-25', allergens: [] },
  })
  await planned('M-2', [line('a', 'pork-shoulder-trim', 'RW-M')])
  await weighed('M-2', 'a')
  const record = (await house.ledger.batch('M-2'))!
  const found = (await judged(house.ledger, record)).findings.find((f) => f.rule === 'record.rework-allergens')
  expect(found).toMatchObject({
    verdict: 'fail',
    because: expect.stringMatching(
      /mustard by RW-M \(out of M-1\), from mustard-seed in M-1.*RW-M leaves out/,
    ) as string,
  })
})
