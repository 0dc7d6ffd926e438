import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'

let house: House
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
  await house.ledger.append([...labelKitchen])
})
afterAll(() => house.close())

type Seen = {
  blocks: { id: string }[]
  content: {
    findings: { rule: string; verdict: string; because: string }[]
    weighed?: { count: number; meanG: number }
  }
}
const proof = async (batch: string, pack: object = {}): Promise<Seen> => {
  const { status, body } = await house.ask('POST', '/api/labels/proof', {
    label: 'LINK-EU',
    place: 'EU',
    batch,
    pack: { ...euPack, ...pack },
  })
  expect(status, JSON.stringify(body)).toBe(200)
  return body as Seen
}
const packs = (batch: string, grams: readonly number[]): Draft[] =>
  grams.map((value, i) => ({
    kind: 'batch.measure',
    by: 'ana',
    body: {
      batch,
      step: 'pack',
      what: 'weight',
      value,
      unit: 'g',
      taken: `2026-11-24T09:${String(i).padStart(2, '0')}:00Z`,
    },
  }))

// Directive 76/211/EEC, Annex I: 400 g has a tolerable negative error of 3 %, 12 g; no pack may be short by more than twice that.
describe('weights of packs in the record', () => {
  it('are held against the net quantity printed on the label of their batch', async () => {
    const before = await proof('LINK-1')
    await house.ledger.append(packs('LINK-1', [403, 405, 402, 406, 404, 403, 405, 404, 402, 406]))
    const after = await proof('LINK-1')
    const weight = after.content.findings.filter((f) => !before.content.findings.some((g) => g.rule === f.rule))
    expect(weight.length).toBeGreaterThan(0)
    expect(weight.some((f) => f.verdict === 'fail')).toBe(false)
  })

  it('stop the label where a pack is short by more than twice the tolerable error', async () => {
    await house.ledger.append(packs('LINK-2', [403, 405, 402, 370, 404, 403, 405, 404, 402, 406]))
    const { content, blocks } = await proof('LINK-2')
    const short = content.findings.filter((f) => f.verdict === 'fail')
    expect(short.map((f) => f.rule).join(' ')).toMatch(/net|weight|tolera/i)
    expect(blocks.some((b) => short.some((f) => b.id.startsWith(f.rule)))).toBe(true)
  })
})

describe('what only the maker knows of the product', () => {
  it('brings the word that is due: thawed before sale', async () => {
    const said = async (pack: object) => JSON.stringify((await proof('LINK-3', pack)).content)
    expect(await said({ defrosted: true })).toMatch(/defrosted/i)
    expect((await said({ defrosted: true })) === (await said({ defrosted: false }))).toBe(false)
  })
})
