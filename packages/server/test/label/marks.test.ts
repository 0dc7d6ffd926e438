// Marks of inspected and approved establishments: Regulation (EC) 853/2004, Annex II, Section I (as the Food Safety Authority of Ireland gives it);
// SI 2019/640, regulation 18, as substituted by SI 2020/1504 (read); 9 CFR 312.2(b) and 317.3(b) (read, without the illustration); SOR/2018-108, section 287.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'
import { kept } from './read-back.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
  await house.ledger.append([...labelKitchen])
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-marks-'))
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

const asked = (place: string, rest: object) => ({
  label: 'M',
  place,
  batch: 'LINK-1',
  pack: { ...euPack, approval: undefined, premises: undefined, code: 'none', widthMm: 200, heightMm: 190, ...rest },
})
const proof = async (place: string, rest: object = {}) => {
  const { status, body } = await house.ask('POST', '/api/labels/proof', asked(place, rest))
  expect(status, JSON.stringify(body)).toBe(200)
  return body as {
    svg: string
    content: { mark?: { kind: string; lines: string[] }; business?: string; fields: { field: string; text: string }[] }
    drawn: { unplaced: string[] }
    findings: { rule: string; verdict: string; because: string; settle?: string }[]
    blocks: { id: string; by: string; what: string }[]
  }
}
const of = (seen: Awaited<ReturnType<typeof proof>>, end: string) => seen.findings.find((f) => f.rule.endsWith(end))
const blockOf = (seen: Awaited<ReturnType<typeof proof>>, part: string) => seen.blocks.find((b) => b.id.includes(part))
const inspected = (country: string, approval = '1234') => ({ approval, premises: { route: 'inspected', country } })

describe('the identification mark', () => {
  it.each([
    ['EU', 'IE', ['IE', '1234', 'EU']],
    ['GB', 'GB', ['GB', '1234']],
    ['GB', 'UK', ['UK', '1234']],
    ['GB', 'DE', ['DE', '1234', 'EU']],
  ])('of a label for %s from %s stands in an oval: %j', async (place, country, lines) => {
    const seen = await proof(place, inspected(country))
    expect(seen.content.mark).toEqual({ kind: 'oval', lines })
    expect(seen.svg.match(/<ellipse/g)?.length).toBe(1)
    expect(of(seen, '.identification-mark')).toMatchObject({ verdict: 'pass' })
    // The number stands once.
    expect(seen.content.business).not.toContain('1234')
    expect(blockOf(seen, 'premises')).toBeUndefined()
  })

  it('of an establishment outside the Union bears no letters of the Union, and no oval', async () => {
    const { content, svg } = await proof('EU', inspected('GB'))
    expect(content.mark).toEqual({ kind: 'oval', lines: ['GB', '1234'] })
    expect(svg).toContain('<ellipse')
    const far = await proof('EU', inspected('NZ'))
    expect(far.content.mark).toEqual({ kind: 'frame', lines: ['NZ', '1234'] })
    expect(far.svg).not.toContain('<ellipse')
  })

  it('is on the printed page, in letters of the least height of the place', async () => {
    const answer = await house.app.request('/api/labels/pdf', {
      method: 'POST',
      body: JSON.stringify(asked('EU', inspected('IE'))),
    })
    const text = execFileSync('pdftotext', [kept(folder, new Uint8Array(await answer.arrayBuffer())), '-'], {
      encoding: 'utf8',
    })
    expect(text.replaceAll(/\s+/g, ' ')).toContain('IE 1234 EU')
    const seen = await proof('EU', inspected('IE'))
    expect(seen.findings.find((f) => f.rule === 'eu.label.x-height')?.verdict).toBe('pass')
  })

  it('without a number or a country stops the label by data', async () => {
    const seen = await proof('EU', { premises: { route: 'inspected' } })
    expect(blockOf(seen, 'identification-mark')).toMatchObject({
      by: 'data',
      what: expect.stringMatching(/approval or establishment number.*country of the establishment/),
    })
  })

  it('that finds no room stops the label by data', async () => {
    const seen = await proof('EU', { ...inspected('IE'), widthMm: 60, heightMm: 60 })
    expect(seen.drawn.unplaced).toContain('mark of the establishment')
    expect(blockOf(seen, 'identification-mark')?.by).toBe('data')
  })

  it('of Northern Ireland is not held, and cannot be told', async () => {
    expect(of(await proof('GB', inspected('UK(NI)')), '.identification-mark')?.verdict).toBe('cannot-tell')
  })

  it('takes the number of the kitchen where the pack names none', async () => {
    await house.ledger.append([
      {
        kind: 'kitchen.set',
        by: 'ana',
        body: { name: 'Brackwater Smokehouse', jurisdictions: ['EU'], units: 'metric', approval: '77' },
      },
    ])
    const seen = await proof('EU', { premises: { route: 'inspected', country: 'IE' } })
    expect(seen.content.mark?.lines).toEqual(['IE', '77', 'EU'])
    expect(seen.content.fields.find((f) => f.field === 'mark')?.text).toBe('oval: IE 77 EU')
  })
})

describe('the inspection legend of the United States and Canada', () => {
  it.each(['US', 'CA'])(
    'is never drawn: %s leaves a clear room, and whoever approves says from which artwork it is printed',
    async (place) => {
      const seen = await proof(place, {
        servingG: 55,
        approval: 'EST. 38',
        premises: { route: 'inspected', roomMm: 25 },
      })
      expect(seen.content.mark).toEqual({ kind: 'room', lines: [], roomMm: 25 })
      expect(seen.svg).toMatch(/<ellipse[^>]*rx="12\.[0-9]+"[^>]*stroke-dasharray/)
      expect(seen.svg.slice(0, 4000)).not.toMatch(/Department of Agriculture|inspected and passed by/i)
      expect(seen.content.business).toContain('EST. 38')
      expect(of(seen, '.inspection-mark')?.verdict).toBe('pass')
      expect(blockOf(seen, '.legend')?.by).toBe('person')
    },
  )

  it('asks for the number of the establishment', async () => {
    const other = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
    await other.ledger.append([...labelKitchen])
    const { body } = await other.ask('POST', '/api/labels/proof', asked('US', { premises: { route: 'inspected' } }))
    const blocks = body['blocks'] as { id: string; by: string }[]
    expect(blocks.find((b) => b.id.startsWith('us.label.inspection-mark'))?.by).toBe('data')
    await other.close()
  })
})

describe('a kitchen that needs no mark', () => {
  it('says under which exemption, and whoever approves answers for it', async () => {
    const named = await proof('US', { premises: { route: 'exempt', because: 'retail store, 9 CFR 303.1(d)' } })
    expect(blockOf(named, 'us.label.premises')).toMatchObject({
      by: 'person',
      what: expect.stringContaining('retail store, 9 CFR 303.1(d)'),
    })
    expect(named.content.mark).toBeUndefined()
    const unnamed = await proof('US', { premises: { route: 'exempt' } })
    expect(blockOf(unnamed, 'us.label.premises')?.by).toBe('data')
  })

  it.each(['US', 'EU', 'GB', 'CA'])('of which nobody says anything is asked about in %s', async (place) => {
    expect(blockOf(await proof(place), 'label.premises')?.by).toBe('person')
  })

  it('is asked nothing in Australia and New Zealand, of whose marks none is held', async () => {
    expect(blockOf(await proof('AU-NZ'), 'label.premises')).toBeUndefined()
  })

  it.each([
    ['pack.premises.country', { route: 'inspected', country: 'Ireland' }],
    ['pack.premises.route', { route: 'licensed' }],
    ['pack.premises.roomMm', { route: 'inspected', roomMm: 2 }],
  ])('is refused by name: %s', async (path, premises) => {
    const { status, body } = await house.ask('POST', '/api/labels/proof', asked('EU', { premises }))
    expect([status, JSON.stringify(body)]).toEqual([400, expect.stringContaining(path)])
  })
})
