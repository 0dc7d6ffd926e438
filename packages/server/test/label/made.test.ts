// A label of a batch is held against what the record says of that batch, and against the limits of the place it is for.
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { judged } from '../../src/judge/judged.ts'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'

type Block = { id: string; what: string; settle: string; by: 'data' | 'person' }
type Seen = {
  blocks: Block[]
  content: { allergens: string[]; ingredients: { text: string; items: { text: string }[] } }
}
const reader =
  (house: () => House) =>
  async (batch: string, place: string, pack: object = {}) => {
    const { status, body } = await house().ask('POST', '/api/labels/proof', {
      label: 'MADE',
      place,
      batch,
      pack: { ...euPack, ...pack },
    })
    expect(status, JSON.stringify(body)).toBe(200)
    return body as unknown as Seen
  }
const block = (seen: Seen, id: string) => seen.blocks.find((b) => b.id.startsWith(id))

describe('a label of a batch in the demonstration kitchen', () => {
  let house: House
  beforeAll(async () => {
    house = await openHouse()
    await fillWithDemo(house.ledger)
  })
  afterAll(() => house.close())
  const proof = reader(() => house)
  const approve = (batch: string, place: string, pack: object = {}) =>
    house.ask('POST', '/api/labels/approve', {
      label: 'MADE',
      place,
      batch,
      pack: { ...euPack, ...pack },
      settled: [],
      reasons: ['proof read'],
      by: 'nell',
    })

  // Commission Regulation (EU) 2023/2108: 80 mg/kg as nitrite ion in heat-treated products, from 9 October 2025.
  it('is judged by the place it is for, not only by the places its batch was planned for', async () => {
    const eu = await proof('RING-0117', 'EU')
    expect(block(eu, 'limit:Nitrite added')).toMatchObject({ by: 'data', what: expect.stringContaining('97.9 mg/kg') })
    expect((await approve('RING-0117', 'EU')).status).toBe(409)
    const us = await proof('RING-0117', 'US')
    expect(us.blocks.filter((b) => b.id.startsWith('limit:'))).toEqual([])
    // The batch itself is judged where it is sold, as before.
    const { body } = await house.ask('GET', '/api/batches/RING-0117')
    expect(JSON.stringify(body)).not.toContain('eu.2108')
  })

  it('asks a person for a limit that is kept and known only second hand, and for what nobody has read', async () => {
    const eu = await proof('RING-0117', 'EU')
    expect(block(eu, 'eu.1333.nitrate.08.3.2')?.by).toBe('person')
    expect(block(eu, 'eu.2108.nitrite-residual')?.by).toBe('person')
  })

  it('is laid out of a plan and cannot be approved before it is weighed', async () => {
    const us = await proof('RING-0119', 'US')
    expect(block(us, 'record.weighed')).toMatchObject({ by: 'data', settle: 'weigh and record these lines' })
    const { status, body } = await approve('RING-0119', 'US')
    expect([status, JSON.stringify(body)]).toEqual([409, expect.stringContaining('not weighed yet')])
  })

  it('says what the batch lost beside what the recipe says, where they lie more than three points apart', async () => {
    const loss = block(await proof('RING-0117', 'US', { servingG: 55, fatLossPct: 0 }), 'loss:')
    expect(loss?.by).toBe('person')
    // 22.424 kg in, 17.9 kg packed.
    expect(loss?.what).toMatch(/22\.42\d? kg, packed 17\.9 kg: 20\.2 % less.*the 12 % of the recipe/)
    expect(loss?.what).toMatch(/By its own loss the nutrition table prints/)
  })

  it('is stopped where its packs weigh less than it prints: 17.9 kg in 56 packs are 319.6 g', async () => {
    expect(block(await proof('RING-0117', 'US', { netG: 500 }), 'pack-mean')).toMatchObject({
      id: 'pack-mean',
      by: 'data',
      what: expect.stringContaining('319.6 g'),
    })
    // 17.9 kg was read to 0.1 kg: it may be 17.95 kg, 320.5 g a pack.
    expect(block(await proof('RING-0117', 'US', { netG: 320 }), 'pack-mean')).toMatchObject({ by: 'person' })
    expect(block(await proof('RING-0117', 'US', { netG: 321 }), 'pack-mean')).toMatchObject({ by: 'data' })
    expect(block(await proof('RING-0117', 'US', { netG: 319 }), 'pack-mean')).toBeUndefined()
  })

  it.each(['STICK-0109', 'SLOW-1021'])('keeps %s without cold only as its own measures find it', async (batch) => {
    const found = (await judged(house.ledger, (await house.ledger.batch(batch))!)).dry?.class
    expect(found).toBe(batch === 'STICK-0109' ? 'shelf-stable' : 'cannot-tell')
    const ambient = { storage: 'ambient', stableUnrefrigerated: true, storageC: undefined }
    const stopped = block(await proof(batch, 'US', ambient), 'all.dates.ambient')
    expect(stopped?.by).toBe(found === 'shelf-stable' ? undefined : 'data')
  })

  it('of a cooked batch never stands without cold on somebody’s word', async () => {
    const seen = await proof('RING-0117', 'US', { storage: 'ambient', stableUnrefrigerated: true })
    expect(block(seen, 'all.dates.ambient')?.by).toBe('data')
  })
})

const by = 'ana'
const batch = (
  code: string,
  lines: readonly (readonly [string, string, string, number])[],
  weighed = true,
): Draft[] => [
  {
    kind: 'batch.plan',
    by,
    body: {
      batch: code,
      recipe: 'LINK',
      version: 1,
      on: '2026-11-24',
      meatKg: 10,
      jurisdictions: ['EU'],
      lines: lines.map(([line, material, lot, targetKg]) => ({ line, material, lot, targetKg })),
    },
  },
  ...(weighed
    ? lines.map(([line, , lot, kg]): Draft => ({ kind: 'batch.weigh', by, body: { batch: code, line, lot, kg } }))
    : []),
]
const rework = (lot: string, of: string, kg: number, allergens: readonly 'celery'[] = []): Draft => ({
  kind: 'lot.rework',
  by,
  body: { lot, batch: of, material: 'pork-shoulder-trim', kg, on: '2026-11-24', allergens: [...allergens] },
})
const link = (with_: string, kg = 1, more: readonly (readonly [string, string, string, number])[] = []) =>
  [
    ['meat', 'pork-shoulder-trim', 'PS-9', 9],
    ['salt', 'salt', 'SA-1', 0.18],
    ['rework', 'pork-shoulder-trim', with_, kg],
    ...more,
  ] as const

describe('a label of a batch with rework in it', () => {
  let house: House
  beforeAll(async () => {
    house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
    await house.ledger.append([
      ...labelKitchen,
      {
        kind: 'lot.receive',
        by,
        body: { lot: 'PS-9', material: 'pork-shoulder-trim', kg: 200, on: '2026-11-20', supplier: 'Fenwick Farm' },
      },
      // LINK-3 got mustard; the entry of its rework says that there is no allergen in it.
      rework('RW-3', 'LINK-3', 2),
      { kind: 'lot.split', by, body: { from: 'RW-3', lot: 'RW-3B', kg: 1, on: '2026-11-24' } },
      ...batch('MIX-1', link('RW-3B')),
      rework('RW-M', 'MIX-1', 1),
      ...batch('MIX-2', link('RW-M')),
      // Weighed in part.
      ...batch('PLAN-1', link('PS-9'), false),
      { kind: 'batch.weigh', by, body: { batch: 'PLAN-1', line: 'meat', lot: 'PS-9', kg: 9 } },
      rework('RW-P', 'PLAN-1', 1),
      ...batch('MIX-3', link('RW-P')),
      rework('RW-C', 'LINK-1', 1, ['celery']),
      ...batch('MIX-4', link('RW-C')),
    ])
  })
  afterAll(() => house.close())
  const proof = reader(() => house)

  it('names what the rework was made of, through a part split off it, whatever allergens were typed with it', async () => {
    const seen = await proof('MIX-1', 'EU')
    expect(seen.content.allergens).toContain('mustard')
    expect(seen.content.ingredients.text).toMatch(/mustard/i)
  })

  it('names it through rework of rework too', async () => {
    expect((await proof('MIX-2', 'EU')).content.allergens).toContain('mustard')
  })

  it('keeps the weights: the parts of the rework weigh what the rework weighs, and one share of each line', async () => {
    const { madeOf } = await import('../../src/paper/label-items.ts')
    const { items } = await madeOf(house.ledger, (await house.ledger.batch('MIX-2'))!)
    const sum = items.reduce((s, i) => s + i.kg, 0)
    expect(sum).toBeCloseTo(10.18, 9)
    // 1 of 10.18 kg of MIX-1, of whose 10.18 kg 1 kg is LINK-3, with 0.03 of 10.21 kg mustard.
    expect(items.find((i) => i.material === 'mustard-seed')?.kg).toBeCloseTo(((1 / 10.18) * 0.03) / 10.21, 12)
    expect(items.some((i) => i.lot?.startsWith('RW'))).toBe(false)
  })

  it('is stopped where nobody knows what the rework was made of', async () => {
    expect(block(await proof('MIX-3', 'EU'), 'rework:RW-P')).toMatchObject({
      by: 'data',
      what: expect.stringContaining('were not weighed'),
    })
  })

  it('is stopped where the rework was recorded with an allergen that stands nowhere on it', async () => {
    expect(block(await proof('MIX-4', 'EU'), 'rework-allergen:RW-C:celery')?.by).toBe('data')
    const said = { crossContact: [{ allergen: 'celery', because: 'same bench' }] }
    expect(block(await proof('MIX-4', 'EU', said), 'rework-allergen')).toBeUndefined()
  })

  it('is stopped where nobody can tell how much cure the rework brings, though its lines list the cure', async () => {
    const cured = (lot: string, cure: string) => [
      ['meat', 'pork-shoulder-trim', lot, 9] as const,
      ['cure', 'curing-salt-6.25-nitrite', cure, 0.0225] as const,
    ]
    await house.ledger.append([
      {
        kind: 'lot.receive',
        by,
        body: { lot: 'CU-1', material: 'curing-salt-6.25-nitrite', kg: 5, on: '2026-11-20', supplier: 'Mill B' },
      },
      {
        kind: 'instrument.add',
        by,
        body: {
          instrument: 'SC',
          name: 'cure scale',
          type: 'scale',
          readabilityG: 0.01,
          toleranceG: 0.01,
          checkEveryDays: 365,
        },
      },
      {
        kind: 'instrument.check',
        by,
        body: {
          instrument: 'SC',
          on: '2026-11-20',
          method: 'test-load',
          reference: 20,
          reading: 20,
          unit: 'g',
          tolerance: 0.01,
        },
      },
      ...batch('CURE-0', cured('PS-9', 'CU-1')),
      rework('RW-0', 'CURE-0', 2),
      ...batch('CURE-1', link('RW-0')),
    ])
    const seen = await proof('CURE-1', 'US')
    // No scale was named for the cure of CURE-0.
    expect(block(seen, 'record.rework-cure')).toMatchObject({
      by: 'data',
      what: expect.stringContaining('of batch CURE-0'),
    })
    const found = (await judged(house.ledger, (await house.ledger.batch('CURE-1'))!)).findings
    expect(found.find((f) => f.rule === 'us.424.21.nitrite.comminuted') ?? { verdict: 'cannot-tell' }).toMatchObject({
      verdict: 'cannot-tell',
    })
    await house.ledger.append([
      ...batch('CURE-2', cured('PS-9', 'CU-1'), false),
      { kind: 'batch.weigh', by, body: { batch: 'CURE-2', line: 'meat', lot: 'PS-9', kg: 9, instrument: 'SC' } },
      { kind: 'batch.weigh', by, body: { batch: 'CURE-2', line: 'cure', lot: 'CU-1', kg: 0.0225, instrument: 'SC' } },
      rework('RW-2', 'CURE-2', 2),
      ...batch('CURE-3', link('RW-2')),
    ])
    expect(block(await proof('CURE-3', 'US'), 'record.rework-cure')).toBeUndefined()
    const told = (await judged(house.ledger, (await house.ledger.batch('CURE-3'))!)).measures['nitritePpm']
    // 156.25 mg/kg on 9 kg; 1 of 9.0225 kg came back into 9 kg of fresh meat.
    const inRework = 9 / 9.0225
    expect((told as { value: number }).value).toBeCloseTo((156.25 * inRework) / (9 + inRework), 6)
  })

  it('ends where rework goes round in a ring, and is stopped', async () => {
    await house.ledger.append([
      ...batch('RING-A', link('PS-9')),
      rework('RW-A', 'RING-A', 1),
      ...batch('RING-B', link('RW-A')),
      rework('RW-B', 'RING-B', 1),
      { kind: 'batch.weigh', by, body: { batch: 'RING-A', line: 'rework', lot: 'RW-B', kg: 1 } },
    ])
    expect(block(await proof('RING-A', 'EU'), 'rework:RW-A')?.what).toContain('which it went into')
  })
})

describe('date and storage of a raw product', () => {
  let house: House
  beforeAll(async () => {
    house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
    await house.ledger.append([...labelKitchen])
  })
  afterAll(() => house.close())
  const proof = reader(() => house)

  it('is never kept without refrigeration, whoever says that it is stable', async () => {
    const ambient = { storage: 'ambient', stableUnrefrigerated: true, shelfLifeDays: 300 }
    expect(block(await proof('LINK-1', 'EU', ambient), 'all.dates.ambient')?.by).toBe('data')
  })

  // Regulation (EC) 853/2004, Annex III: meat 7 °C, quoted; meat preparations 4 °C, from memory.
  it('is not kept above 7 °C in the European Union; above 4 °C a person answers', async () => {
    expect(block(await proof('LINK-1', 'EU', { storageC: 8 }), 'eu.dates.kept-raw-meat')?.by).toBe('data')
    const at6 = await proof('LINK-1', 'EU', { storageC: 6 })
    expect(at6.blocks.map((b) => [b.id, b.by])).toEqual([['eu.dates.kept-raw-preparation@EU', 'person']])
    expect(block(await proof('LINK-1', 'US', { storageC: 15 }), 'all.dates.kept-perishable')?.by).toBe('data')
  })

  it('is asked about by a person where it is said not to be highly perishable', async () => {
    expect(block(await proof('LINK-1', 'EU', { highlyPerishable: false }), 'all.dates.raw-perishable')?.by).toBe(
      'person',
    )
  })

  it.each([
    ['pack.largestSurfaceCm2', { largestSurfaceCm2: 50 }, 'allowed: at least 135 cm²'],
    ['pack.lotPattern', { lotPattern: '{batch}(10)X' }, 'allowed in this bar code'],
    ['pack.lotPattern', { lotPattern: '{batch} A' }, 'allowed in this bar code'],
    ['pack.lotPattern', { lotPattern: '{batch}-{batch}-{batch}-{batch}' }, '1 to 20'],
    ['pack.lotPattern', { lotPattern: '{batch}(10)X', code: 'gs1-datamatrix' }, 'no brackets'],
    ['pack.gtin', { gtin: '95060002', code: 'ean-13' }, 'EAN-8'],
    ['pack.gtin', { gtin: '00000095060002', code: 'ean-13' }, 'EAN-8'],
  ])('names %s where it cannot be: %o', async (path, pack, allowed) => {
    const { status, body } = await house.ask('POST', '/api/labels/proof', {
      label: 'MADE',
      place: 'EU',
      batch: 'LINK-1',
      pack: { ...euPack, ...pack },
    })
    expect([status, JSON.stringify(body)]).toEqual([400, expect.stringContaining(path)])
    expect(JSON.stringify(body)).toContain(allowed)
  })
})

describe('a link of the demonstration kitchen in Great Britain (SI 2014/3001, Schedule 1, item 11(a))', () => {
  let house: House
  beforeAll(async () => {
    house = await openHouse()
    await fillWithDemo(house.ledger)
  })
  afterAll(() => house.close())

  it('is judged by its declared meat, and passes', async () => {
    const { body } = await house.ask('GET', '/api/recipes/lane-link')
    const { versions } = body as {
      versions: {
        body: { meat: { material: string; pct: number }[]; additions: { material: string; pct: number }[] }
      }[]
    }
    const { meat, additions } = versions.at(-1)!.body
    const by = 'ida'
    const lines = [...meat, ...additions].map((p, i) => ({ ...p, line: `l${i}`, lot: `GB-${i}`, kg: p.pct / 10 }))
    await house.ledger.append([
      ...lines.map(({ material, lot }): Draft => ({
        kind: 'lot.receive',
        by,
        body: { lot, material, kg: 50, on: '2026-11-20', supplier: 'Fernbank Meats (invented)' },
      })),
      {
        kind: 'batch.plan',
        by,
        body: {
          batch: 'GB-LINK',
          recipe: 'lane-link',
          version: versions.length,
          on: '2026-11-23',
          meatKg: 10,
          jurisdictions: ['GB'],
          lines: lines.map(({ line, material, lot, kg }) => ({ line, material, lot, targetKg: kg })),
        },
      },
      ...lines.map(({ line, lot, kg }): Draft => ({
        kind: 'batch.weigh',
        by,
        body: { batch: 'GB-LINK', line, lot, kg, instrument: 'SC-FLOOR' },
      })),
    ])
    const { body: seen } = await house.ask('GET', '/api/batches/GB-LINK')
    const { findings } = seen as { findings: { rule: string; verdict: string; because: string }[] }
    expect(findings.find((f) => f.rule === 'gb.3001.pork-sausage.pig')).toMatchObject({ verdict: 'pass' })
    const { blocks } = await reader(() => house)('GB-LINK', 'GB', {
      name: 'Lane pork link',
      statements: [
        {
          material: 'pork-back-fat',
          supplier: 'Fernbank Meats (invented)',
          allergens: [],
          document: 'specification 12',
          collagenPct: 2,
        },
      ],
    })
    expect(block({ blocks } as Seen, 'gb.3001')).toBeUndefined()
    expect(block({ blocks } as Seen, 'limit:Meat')).toBeUndefined()
  })
})
