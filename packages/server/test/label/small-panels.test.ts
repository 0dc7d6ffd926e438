// 21 CFR 101.9(d)(1)(iii), (d)(3), (d)(11)(iii) and (j)(13)(ii)(A), rule of 2016, read in quotations: which panel a small pack may have and its type.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'
import { kept, textsOf } from './read-back.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
  await house.ledger.append([...labelKitchen])
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-small-panels-'))
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

const SQUARE_INCH = 6.4516
const pack = {
  ...euPack,
  name: 'Fenwick pork rolls',
  code: 'none',
  servingG: 55,
  per100g: {
    fatG: 18,
    saturatedG: 6,
    transG: 0.1,
    carbohydrateG: 0.9,
    sugarsG: 0.2,
    addedSugarsG: 0,
    fibreG: 0.1,
    proteinG: 16,
    sodiumMg: 700,
    cholesterolMg: 70,
    vitaminDUg: 0.4,
    calciumMg: 12,
    ironMg: 1.1,
    potassiumMg: 280,
  },
  per100gSource: 'analysis 12',
  handling: [],
}
const asked = (rest: object) => ({ label: 'S', place: 'US', batch: 'LINK-1', pack: { ...pack, ...rest } })
const proof = async (rest: object) => {
  const { status, body } = await house.ask('POST', '/api/labels/proof', asked(rest))
  expect(status, JSON.stringify(body)).toBe(200)
  return body as {
    svg: string
    drawn: { unplaced: string[]; panel?: { format: string } }
    findings: { rule: string; verdict: string; because: string }[]
    blocks: { id: string; by: string; what: string }[]
  }
}
// The safe handling instructions of this raw product find no room on so low a label; its panel does.
const low = { widthMm: 260, heightMm: 75, layout: 'two-columns' }
const narrow = { widthMm: 150, heightMm: 80, layout: 'two-columns', availableSurfaceCm2: 200 }
const of = (seen: Awaited<ReturnType<typeof proof>>, rule: string) => seen.findings.find((f) => f.rule === rule)

describe('a tabular panel', () => {
  it('stands by itself where a label could stand on less than 12 square inches', async () => {
    const small = { panelDisplay: 'tabular', widthMm: 70, heightMm: 60, availableSurfaceCm2: 11.9 * SQUARE_INCH }
    expect(of(await proof(small), 'us.nutrition.display')?.verdict).toBe('pass')
    expect(of(await proof(small), 'us.nutrition.display-shape')).toBeUndefined()
  })

  it('up to 40 square inches asks that no vertical one finds room, and whoever knows the pack', async () => {
    const at = { ...low, panelDisplay: 'tabular', availableSurfaceCm2: 40 * SQUARE_INCH }
    const seen = await proof(at)
    expect(seen.drawn.panel?.format).toBe('us-2016:tabular-small')
    expect(of(seen, 'us.nutrition.display')?.verdict).toBe('pass')
    expect(seen.blocks.find((b) => b.id.startsWith('us.nutrition.display-shape'))?.by).toBe('person')
    const roomy = await proof({
      panelDisplay: 'tabular',
      widthMm: 150,
      heightMm: 171,
      availableSurfaceCm2: 258,
      layout: 'two-columns',
    })
    expect(of(roomy, 'us.nutrition.display')).toMatchObject({
      verdict: 'fail',
      because: expect.stringContaining('finds room'),
    })
  })

  it('of a larger pack has the larger sizes, and only where there are not about 3 inches of height', async () => {
    const seen = await proof({ ...low, panelDisplay: 'tabular', availableSurfaceCm2: 400 })
    expect(seen.drawn.panel?.format).toBe('us-2016:tabular')
    expect(of(seen, 'us.nutrition.display')?.verdict).toBe('pass')
    const high = await proof({ panelDisplay: 'tabular', widthMm: 150, heightMm: 80, availableSurfaceCm2: 400 })
    expect(of(high, 'us.nutrition.display')?.verdict).toBe('fail')
  })

  it('of a pack whose surface nobody gives stops the label, by data', async () => {
    const seen = await proof({ ...low, panelDisplay: 'tabular' })
    expect(seen.blocks.find((b) => b.id.startsWith('us.nutrition.display@'))).toMatchObject({
      by: 'data',
      what: expect.stringContaining('is not given'),
    })
  })
})

describe('a linear panel', () => {
  it('asks that a tabular one finds no room, on the smallest pack too', async () => {
    const roomy = {
      panelDisplay: 'linear',
      layout: 'column',
      widthMm: 140,
      heightMm: 180,
      availableSurfaceCm2: 252,
    }
    expect(of(await proof(roomy), 'us.nutrition.display')).toMatchObject({
      verdict: 'fail',
      because: 'a tabular panel finds room on this label',
    })
    const seen = await proof({ ...narrow, panelDisplay: 'linear' })
    expect(seen.drawn.unplaced).not.toContain('nutrition')
    expect(of(seen, 'us.nutrition.display')?.verdict).toBe('pass')
    expect(seen.blocks.find((b) => b.id.startsWith('us.nutrition.display-shape'))?.by).toBe('person')
  })

  it('is for no pack over 40 square inches', async () => {
    const seen = await proof({
      ...narrow,
      panelDisplay: 'linear',
      availableSurfaceCm2: 259,
    })
    expect(of(seen, 'us.nutrition.display')?.verdict).toBe('fail')
  })
})

describe('the type of a small panel, read off the printed PDF', () => {
  it.each([
    ['tabular', { ...low, availableSurfaceCm2: 258 }, { servings: 9, calories: 10, figure: 14 }],
    ['tabular', { ...low, availableSurfaceCm2: 400 }, { servings: 10, calories: 10, figure: 22 }],
    ['linear', narrow, { servings: 9, calories: 10, figure: 14 }],
  ] as const)('%s, %o', async (panelDisplay, size, least) => {
    const answer = await house.app.request('/api/labels/pdf', {
      method: 'POST',
      body: JSON.stringify(asked({ ...size, panelDisplay })),
    })
    const file = kept(folder, new Uint8Array(await answer.arrayBuffer()))
    const found = textsOf(file).map((t) => ({ ...t, text: t.text.trim() }))
    const pts = (is: (text: string) => boolean) => found.filter((t) => is(t.text)).map((t) => t.pt)
    const at = (word: string) =>
      Math.min(...pts((t) => t === word || t.startsWith(`${word} `) || t.startsWith(`${word}:`)))
    expect(at('Calories')).toBeGreaterThanOrEqual(least.calories)
    expect(at('Serving')).toBeGreaterThanOrEqual(least.servings)
    expect(Math.max(...pts((t) => /^\d{3},?$/.test(t) || /\b\d{3},? /.test(t)))).toBeGreaterThanOrEqual(least.figure)
    expect(Math.min(...pts((t) => t.startsWith('Total')))).toBeGreaterThanOrEqual(8)
    expect(Math.min(...found.map((t) => t.pt))).toBeGreaterThanOrEqual(6)
    for (const nutrient of [
      'Saturated',
      'Cholesterol',
      'Sodium',
      'Protein',
      'Vitamin',
      'Calcium',
      'Iron',
      'Potassium',
      'Added',
    ])
      expect(found.map((t) => t.text).join(' ')).toContain(nutrient)
  })
})

describe('what does not go together is refused by name', () => {
  it.each([
    ['pack.panelDisplay', { panelDisplay: 'tabular', panel: 'us-1993' }],
    ['pack.availableSurfaceCm2', { availableSurfaceCm2: 10 }],
    ['pack.availableSurfaceCm2', { availableSurfaceCm2: 200, largestSurfaceCm2: 300 }],
  ])('%s: %o', async (path, rest) => {
    const { status, body } = await house.ask('POST', '/api/labels/proof', asked(rest))
    expect([status, JSON.stringify(body)]).toEqual([400, expect.stringContaining(path)])
  })
})
