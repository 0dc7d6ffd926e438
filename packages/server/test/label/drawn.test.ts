import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { label } from '@forcemeat/craft/declare/label/label'
import { labelLayouts, labelParts, type LabelPack } from '@forcemeat/craft/declare/label/pack'
import { leastType } from '@forcemeat/craft/declare/label/type-size'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Box } from '../../src/paper/label-blocks.ts'
import { widthMm } from '../../src/paper/label-font.ts'
import { layLabel } from '../../src/paper/label-layout.ts'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'
import { approvedPdf, kept, readBack, textsOf } from './read-back.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
  await house.ledger.append([...labelKitchen])
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-label-drawn-'))
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

/** Everything a nutrition table of any place asks for. */
const analysis = {
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
}
const pack = {
  ...euPack,
  // No reserved name, so that every place lets it stand.
  name: 'Fenwick pork rolls',
  per100g: analysis,
  per100gSource: 'analysis 12',
  servingG: 55,
  // Any label of these tests fits on it.
  largestSurfaceCm2: 600,
  widthMm: 180,
  heightMm: 165,
}
const both = [
  { language: 'en' },
  { language: 'fr', name: 'Saucisse Fenwick', words: [{ of: 'Cook through before eating.', is: 'Bien cuire.' }] },
] as const
const asked = (name: string, place: string, rest: object = {}) => ({
  label: name,
  place,
  batch: 'LINK-1',
  pack: { ...pack, ...(place === 'CA' ? { languages: both } : {}), ...rest },
})
const proofOf = async (place: string, rest: object = {}) => {
  const { status, body } = await house.ask('POST', '/api/labels/proof', asked('X', place, rest))
  expect(status, JSON.stringify(body)).toBe(200)
  return body as {
    svg: string
    content: { code?: { encoded: string } }
    drawn: { unplaced: string[]; texts: { what: string; mm: number }[]; handling?: object; code?: { moduleMm: number } }
    findings: { rule: string; verdict: string }[]
    blocks: { id: string; by: string }[]
  }
}

const places = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const
const kinds = ['gs1-128', 'gs1-datamatrix', 'ean-13'] as const

describe('the bar code of a printed label', () => {
  it.each(places.flatMap((place) => kinds.map((code) => [place, code] as const)))(
    'for %s, a %s, is read back by another reader as the data of the batch',
    async (place, code) => {
      const { content } = await proofOf(place, { code })
      const file = kept(folder, await approvedPdf(house, asked(`${place}-${code}`, place, { code })))
      expect(readBack(file, code)).toBe(content.code!.encoded)
    },
    30_000,
  )

  it.each([
    ['ean-13', 0.264],
    ['ean-13', 0.66],
    ['gs1-128', 0.25],
    ['gs1-datamatrix', 0.396],
  ] as const)('is read back as a %s at a module of %s mm too', async (code, moduleMm) => {
    const rest = { code, moduleMm, widthMm: 200 }
    const { content } = await proofOf('EU', rest)
    const file = kept(folder, await approvedPdf(house, asked(`M-${code}-${moduleMm}`, 'EU', rest)))
    expect(readBack(file, code)).toBe(content.code!.encoded)
  })

  // Laid out as prefix, item and value, with the check digit over all twelve (GS1 General Specifications, 2.1.14.2 and 7.9).
  it.each([
    ['weight', { of: 'weight', decimals: 3 }, '201234500400'],
    ['price', { of: 'price', decimals: 2, price: 4.8 }, '201234500480'],
  ] as const)('with the %s of the pack in it is read back as that', async (what, holds, twelve) => {
    const rest = { code: 'ean-13', inStore: { prefix: '20', item: '12345', digits: 5, ...holds } }
    const file = kept(folder, await approvedPdf(house, asked(`SHOP-${what}`, 'EU', rest)))
    const seen = readBack(file, 'ean-13')
    expect(seen.slice(0, 12)).toBe(twelve)
    // 3 on every second digit from the right of the twelve, 1 on the others, to the next ten.
    const sum = Array.from(twelve, Number).reduce((t, d, i) => t + d * (i % 2 === 1 ? 3 : 1), 0)
    expect(Number(seen[12])).toBe((10 - (sum % 10)) % 10)
  })

  // GS1 size guide: 0.495 to 1.016 mm on cases in general distribution; General Specifications 5.4.4.3: at most 165.1 mm.
  it('is a GS1-128 a warehouse reads where the label is wide enough for it, and a narrower one where it is not', async () => {
    const roomy = await proofOf('EU')
    expect(roomy.drawn.code?.moduleMm).toBe(0.495)
    expect(roomy.drawn.unplaced).toEqual([])
    expect(roomy.findings.some((f) => f.rule === 'all.label.gs1-128.module')).toBe(false)
    const narrow = await proofOf('EU', { widthMm: 120, heightMm: 165 })
    expect(narrow.drawn.code?.moduleMm).toBe(0.3)
    expect(narrow.drawn.unplaced).toEqual([])
    const advice = narrow.findings.find((f) => f.rule === 'all.label.gs1-128.module')
    expect(advice).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/at which this symbol is [\d.]+ mm long/),
    })
    expect((await proofOf('EU', { moduleMm: 0.3 })).drawn.code?.moduleMm).toBe(0.3)
  })

  it('stands at the foot across both columns where only that is wide enough', async () => {
    const { drawn, svg } = await proofOf('EU', { widthMm: 150, heightMm: 120 })
    expect(drawn.code?.moduleMm).toBe(0.495)
    expect(drawn.unplaced).toEqual([])
    expect(svg).toContain('<svg')
  })

  it('is never longer than 165.1 mm for the sake of a wider module', async () => {
    const rest = { lotPattern: '{batch}ABCDEFGHIJKLM', widthMm: 260 }
    const { drawn, findings } = await proofOf('EU', rest)
    expect(drawn.code?.moduleMm).toBe(0.3)
    expect(findings.find((f) => f.rule === 'all.label.gs1-128')?.verdict).toBe('pass')
  })

  it('of an EAN-13 under the least module of 0.264 mm stops the label (GS1 size guide)', async () => {
    const { findings, blocks } = await proofOf('EU', { code: 'ean-13', moduleMm: 0.2 })
    expect(findings.find((f) => f.rule === 'all.label.ean-13')?.verdict).toBe('fail')
    expect(blocks.find((b) => b.id.startsWith('all.label.ean-13'))?.by).toBe('data')
  })
})

describe('letters of a printed label', () => {
  it('of the United States panel stand in the points of 21 CFR 101.9(d)(1)(iii), read off the PDF', async () => {
    const file = kept(folder, await approvedPdf(house, asked('US-PT', 'US')))
    const found = textsOf(file)
    const pt = (text: string) => found.find((t) => t.text.trim() === text)!.pt
    // Poppler gives whole points of the page.
    expect(pt('Calories')).toBeGreaterThanOrEqual(16)
    expect(pt('Serving size')).toBeGreaterThanOrEqual(10)
    expect(pt('Total Fat')).toBeGreaterThanOrEqual(8)
    expect(pt('Amount per serving')).toBeGreaterThanOrEqual(6)
    expect(pt('Nutrition Facts')).toBeGreaterThanOrEqual(22)
    expect(Math.min(...found.map((t) => t.pt))).toBeGreaterThanOrEqual(6)
  })

  it('smaller than the least of the place are drawn, measured, and stop it', async () => {
    const { drawn, findings } = await proofOf('EU', { xHeightMm: 1 })
    expect(Math.min(...drawn.texts.map((t) => t.mm))).toBeLessThan(1.2)
    expect(findings.find((f) => f.rule === 'eu.label.x-height')?.verdict).toBe('fail')
    const larger = await proofOf('EU', { xHeightMm: 2 })
    expect(Math.min(...larger.drawn.texts.map((t) => t.mm))).toBeGreaterThanOrEqual(2)
  })

  it('may be 0.9 mm where the largest surface is under 80 cm² (Regulation (EU) 1169/2011, Art. 13(3)), and not at 80', async () => {
    const verdict = async (largestSurfaceCm2: number) =>
      (await proofOf('EU', { largestSurfaceCm2, xHeightMm: 0.9, widthMm: 98, heightMm: 80 })).findings.find(
        (f) => f.rule === 'eu.label.x-height',
      )?.verdict
    expect(await verdict(79)).toBe('pass')
    expect(await verdict(80)).toBe('fail')
  })
})

describe('safe handling instructions', () => {
  it('stand on what is not ready to eat in the United States, with their four pictures, and nowhere else', async () => {
    const us = await proofOf('US')
    expect(us.drawn.handling).toBeDefined()
    expect(us.svg.match(/viewBox="0 0 24 24"/g)?.length).toBe(4)
    expect(us.findings.find((f) => f.rule === 'us.317.2.handling-type')?.verdict).toBe('pass')
    const eu = await proofOf('EU')
    expect(eu.drawn.handling).toBeUndefined()
    expect(eu.svg).not.toContain('viewBox="0 0 24 24"')
  })
})

describe('a label in English and French', () => {
  it.each(['under', 'beside'])('has both, one %s the other, on the printed page', async (languageArrangement) => {
    const rest = { languageArrangement }
    const file = kept(folder, await approvedPdf(house, asked(`CA-${languageArrangement}`, 'CA', rest)))
    const text = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ')
    for (const words of [
      'Ingredients: Pork',
      'Ingrédients : Porc',
      'Valeur nutritive',
      'Nutrition Facts',
      'Bien cuire.',
    ])
      expect(text).toContain(words)
    // What the law words in both languages at once stands once.
    expect(text.match(/Meilleur avant/g)?.length).toBe(1)
  })
})

describe('a sheet of labels', () => {
  const small = { code: 'none', widthMm: 60, heightMm: 130, layout: 'column' }
  it('has the rows and columns it is told, and refuses more than fit', async () => {
    const of = (plan: object) =>
      house.app.request('/api/labels/pdf', {
        method: 'POST',
        body: JSON.stringify({ ...asked('SHEET', 'EU', small), sheet: 'A4', plan }),
      })
    const two = await of({ across: 2, down: 1, gutterXMm: 5 })
    const text = execFileSync('pdftotext', [kept(folder, new Uint8Array(await two.arrayBuffer())), '-'], {
      encoding: 'utf8',
    })
    expect(text.match(/400 g/g)?.length).toBe(2)
    const over = await of({ across: 4 })
    expect(over.status).toBe(400)
    expect(JSON.stringify(await over.json())).toContain('allowed: at most 3')
  })
})

/** Room a box takes on the label, mm; a hair is taken off, so that what touches does not count as over each other. */
function extent(b: Box): { x0: number; y0: number; x1: number; y1: number } | undefined {
  const mm = 25.4 / 72
  if (b.kind === 'text')
    return { x0: b.x, x1: b.x + widthMm(b.text.trim(), b.sizePt, b.bold), y0: b.y - b.sizePt * mm * 0.66, y1: b.y }
  if (b.kind === 'code') return { x0: b.x, x1: b.x + b.code.width, y0: b.y, y1: b.y + b.code.height }
  if (b.kind === 'oval') return { x0: b.x, x1: b.x + b.w, y0: b.y, y1: b.y + b.h }
  if (b.kind === 'art') return { x0: b.x, x1: b.x + b.mm, y0: b.y, y1: b.y + b.mm }
  if (b.kind === 'line' && b.mm > 0.5) return { x0: b.x1, x1: b.x2, y0: b.y - b.mm / 2, y1: b.y + b.mm / 2 }
  return undefined
}

const languages = ['en', 'fr', 'de', 'es', 'it', 'nl'] as const

describe('any label in any layout', () => {
  it('has nothing outside its edge and nothing over anything else, whatever finds room', () => {
    const any = fc.record({
      place: fc.constantFrom(...places),
      layout: fc.constantFrom(...labelLayouts),
      widthMm: fc.integer({ min: 40, max: 240 }),
      heightMm: fc.integer({ min: 30, max: 220 }),
      marginMm: fc.integer({ min: 1, max: 8 }),
      code: fc.constantFrom(...kinds, 'none' as const),
      languageArrangement: fc.constantFrom('under' as const, 'beside' as const),
      languages: fc
        .uniqueArray(fc.constantFrom(...languages), { minLength: 1, maxLength: 3 })
        .map((all) => all.map((language) => ({ language, name: `Wurst ${language}` }))),
      order: fc.shuffledSubarray([...labelParts], { minLength: 1 }),
      readyToEat: fc.boolean(),
      premises: fc.constantFrom(undefined, { route: 'inspected' as const, country: 'IE' }),
      handling: fc.array(
        fc.constantFrom('Cook through before eating.', 'Once opened, eat within two days. '.repeat(4)),
        {
          maxLength: 3,
        },
      ),
    })
    fc.assert(
      fc.property(any, ({ place, readyToEat, ...rest }) => {
        const said = {
          ...pack,
          ...rest,
          approval: '1234',
          business: 'Brackwater Smokehouse, Lower Fenwick',
        } as unknown as LabelPack
        const content = label({
          place,
          recipe: 'LINK',
          batch: 'LINK-1',
          product: { name: 'Link', kind: 'fresh', smoked: true, readyToEat },
          items: [
            { kg: 10, material: 'pork-shoulder-trim' },
            { kg: 0.2, material: 'milk-powder-skimmed' },
            { kg: 0.18, material: 'salt' },
            { kg: 0.03, material: 'mustard-seed' },
          ],
          packedOn: '2026-11-23',
          pack: said,
        })
        const drawn = layLabel(content, leastType(place, 400, 200), rest, said)
        const all = drawn.boxes.flatMap((b) => {
          const e = extent(b)
          return e ? [{ b, e }] : []
        })
        for (const { b, e } of all) {
          const what = `${b.kind} ${b.kind === 'text' ? b.text : ''}`
          expect(e.x0, what).toBeGreaterThanOrEqual(-1e-6)
          expect(e.x1, what).toBeLessThanOrEqual(drawn.widthMm + 1e-6)
          expect(e.y0, what).toBeGreaterThanOrEqual(-1e-6)
          expect(e.y1, what).toBeLessThanOrEqual(drawn.heightMm + 1e-6)
        }
        const hair = 0.05
        const hits = all.flatMap((p, i) =>
          all.slice(i + 1).flatMap((q) => {
            const over =
              p.e.x0 + hair < q.e.x1 && q.e.x0 + hair < p.e.x1 && p.e.y0 + hair < q.e.y1 && q.e.y0 + hair < p.e.y1
            const say = (b: Box) => (b.kind === 'text' ? `${b.what} "${b.text}"` : b.kind)
            // The figures under an EAN-13 stand between its guard bars, which its height takes in.
            const within =
              [p.b, q.b].some((b) => b.kind === 'code') &&
              [p.b, q.b].some((b) => b.kind === 'text' && b.what === 'figures of the bar code')
            // The lines of a mark stand inside its oval.
            const inMark =
              [p.b, q.b].some((b) => b.kind === 'oval') &&
              [p.b, q.b].some((b) => b.kind === 'text' && b.what === 'mark of the establishment')
            return over && !within && !inMark ? [`${say(p.b)} over ${say(q.b)}`] : []
          }),
        )
        expect(hits).toEqual([])
      }),
      { numRuns: 250 },
    )
  }, 60_000)
})
