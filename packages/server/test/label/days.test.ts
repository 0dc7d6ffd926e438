// The days and the lot on a label are those of the batch it is printed for, whatever the label was approved with.
import { execFileSync } from 'node:child_process'
import type { Draft } from '@forcemeat/ledger'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'

const by = 'ana'
const packed = (batch: string, pack: string, on: string, more: object = {}): Draft => ({
  kind: 'batch.pack',
  by,
  body: { batch, pack, count: 12, totalKg: 5.1, on, ...more },
})
type Seen = {
  stands: boolean
  blocks: { id: string; what: string; by: string; settle: string }[]
  content: { dateText: string; lot?: string }
}

let house: House
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-29T08:00:00Z') })
  await house.ledger.append([
    ...labelKitchen,
    packed('LINK-1', 'A-1', '2026-11-23'),
    packed('LINK-1', 'A-2', '2026-11-23'),
    packed('LINK-2', 'B-1', '2026-11-25'),
    packed('LINK-2', 'B-2', '2026-11-28', { useBy: '2026-12-20' }),
  ])
})
afterAll(() => house.close())

const ask = (batch: string | undefined, pack: object = {}, more: object = {}) =>
  house.ask('POST', '/api/labels/proof', {
    label: 'DAYS',
    place: 'EU',
    ...(batch === undefined ? { recipe: 'LINK' } : { batch }),
    pack: { ...euPack, ...pack },
    ...more,
  })
const proof = async (...of: Parameters<typeof ask>): Promise<Seen> => {
  const { status, body } = await ask(...of)
  expect(status, JSON.stringify(body)).toBe(200)
  return body as unknown as Seen
}
const approve = (label: string, of: object, pack: object = {}) =>
  house.ask('POST', '/api/labels/approve', {
    label,
    place: 'EU',
    ...of,
    pack: { ...euPack, ...pack },
    reasons: ['proof read'],
    by,
  })
const printed = (label: string, query: string, ending = 'pdf') =>
  house.app.request(`/paper/label/${label}.${ending}?place=EU${query}`)
/** Words of a printed label, by another reader. */
const wordsOf = async (answer: Response): Promise<string> => {
  expect(answer.status, answer.status === 200 ? '' : (await answer.text()).slice(0, 600)).toBe(200)
  const input = new Uint8Array(await answer.arrayBuffer())
  return execFileSync('pdftotext', ['-', '-'], { input, encoding: 'utf8' }).replaceAll(/\s+/g, ' ')
}

describe('the day of packing on a label', () => {
  it('is that of the earliest pack where packs of one batch were packed on different days', async () => {
    expect((await proof('LINK-2')).content.dateText).toBe('Use by 2 December 2026')
  })

  it('is that of the packing that is named', async () => {
    expect((await proof('LINK-2', {}, { packing: 'B-2' })).content.dateText).toBe('Use by 5 December 2026')
    const { status, body } = await ask('LINK-2', {}, { packing: 'A-1' })
    expect(status).toBe(400)
    expect(JSON.stringify(body)).toMatch(/"packing".*A-1.*allowed: B-1, B-2/)
  })

  it.each(['1900-01-01', '2020-01-01', '2026-11-24', '2026-11-27', '2030-01-01'])(
    'typed as %s, on which nothing of the batch was packed, is refused',
    async (packedOn) => {
      const { status, body } = await ask('LINK-2', { packedOn })
      expect(status).toBe(400)
      expect(JSON.stringify(body)).toMatch(/"pack.packedOn".*2026-11-25, 2026-11-28/)
    },
  )

  it.each([
    ['before the batch was made', 'LINK-3', { packedOn: '2026-11-22' }],
    ['years ahead of a batch that is not packed', 'LINK-3', { packedOn: '2030-01-01' }],
    ['of a recipe, years off', undefined, { packedOn: '2020-01-01' }],
    ['of freezing before the batch was made', 'LINK-1', { frozenOn: '2026-11-01' }],
    ['of freezing years ahead', 'LINK-1', { frozenOn: '2030-01-01', shelfLifeDays: 3000 }],
  ] as const)('is refused %s', async (_what, batch, pack) => {
    const { status, body } = await ask(batch, pack)
    expect([status, JSON.stringify(body).slice(0, 200)]).toEqual([
      400,
      expect.stringMatching(/pack\.(packed|frozen)On.*allowed/),
    ])
  })
})

describe('an approved label printed for a batch', () => {
  it('counts from the packings of that batch, not from the day the label was approved with', async () => {
    expect((await approve('OF-B', { batch: 'LINK-2' }, { packedOn: '2026-11-28' })).status).toBe(201)
    const other = await printed('OF-B', '&batch=LINK-1')
    expect(await wordsOf(other)).toContain('30 November 2026')
    const own = await printed('OF-B', '&batch=LINK-2')
    expect(await wordsOf(own)).toContain('2 December 2026')
    const chosen = await printed('OF-B', '&batch=LINK-2&packing=B-2')
    expect(await wordsOf(chosen)).toContain('5 December 2026')
  })

  it('carries no day of freezing of another batch', async () => {
    const frozen = {
      storage: 'frozen',
      storageC: -18,
      frozenOn: '2026-11-24',
      shelfLifeDays: 90,
      highlyPerishable: false,
    }
    const said = await approve('FROZEN', { batch: 'LINK-1' }, frozen)
    expect(said.status, JSON.stringify(said.body).slice(0, 600)).toBe(201)
    const none = await printed('FROZEN', '&batch=LINK-2')
    expect([none.status, await none.text()]).toEqual([409, expect.stringMatching(/freez|frozen/i)])
    const given = await printed('FROZEN', '&batch=LINK-2&packing=B-1&frozenOn=2026-11-26')
    expect(await wordsOf(given)).toContain('Frozen on 26 November 2026')
    expect((await printed('FROZEN', '&batch=LINK-2&frozenOn=2026-11-01')).status).toBe(400)
  })

  it('says no later use by than the packing was recorded with', async () => {
    const late = await proof('LINK-2', { shelfLifeDays: 30 }, { packing: 'B-2' })
    expect(late.blocks.find((b) => b.id === 'use-by:B-2')).toMatchObject({
      by: 'data',
      what: expect.stringContaining('2026-12-20'),
    })
    expect((await proof('LINK-2', {}, { packing: 'B-2' })).blocks.filter((b) => b.id.startsWith('use-by'))).toEqual([])
  })
})

describe('the lot on a label (Directive 2011/91/EU: an indication by which the lot can be told)', () => {
  it('is that of a batch: a label of a recipe prints as a proof, and not as a drawing for the press', async () => {
    expect((await approve('OF-RECIPE', { recipe: 'LINK' })).status).toBe(201)
    const pdf = await printed('OF-RECIPE', '', 'pdf')
    expect(pdf.status).toBe(409)
    expect(await pdf.text()).toMatch(/"batch"/)
    expect((await printed('OF-RECIPE', '', 'svg')).status).toBe(409)
    expect((await printed('OF-RECIPE', '&batch=LINK-1', 'pdf')).status).toBe(200)
    expect((await proof(undefined, {}, { label: 'OF-RECIPE' })).stands).toBe(true)
  })

  it.each(['X', '{YYYY}', '{DDD}', '{recipe}', '{recipe}-{YY}{MM}', '{YY}{DDD}'])(
    '%s tells no batch from the next',
    async (lotPattern) => {
      const seen = await proof('LINK-1', { lotPattern })
      expect(seen.blocks.find((b) => b.id === 'lot-pattern')).toMatchObject({ by: 'data' })
      expect((await approve('NO-LOT', { batch: 'LINK-1' }, { lotPattern })).status).toBe(409)
    },
  )

  it.each(['{batch}', 'L{batch}', '{recipe}-{YY}{DDD}', '{recipe}/{YYYY}{MM}{DD}'])('%s does', async (lotPattern) => {
    const seen = await proof('LINK-1', { lotPattern })
    expect(seen.blocks.filter((b) => b.id === 'lot-pattern')).toEqual([])
  })
})
