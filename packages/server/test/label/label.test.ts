import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openHouse, type House } from '../support.ts'
import { euPack, labelKitchen } from './label-kitchen.ts'

type Block = { id: string; what: string; settle: string; by: string; settled?: string }
type ProofSeen = {
  blocks: Block[]
  svg: string
  stands: boolean
  contentHash: string
  content: { code?: { text: string; encoded: string }; lot?: string; changes: { field: string }[]; netText: string }
  drawn: { unplaced: string[]; missingMm: number; texts: { what: string; mm: number }[]; netMm: number }
}

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse({ now: () => new Date('2026-11-25T08:00:00Z') })
  await house.ledger.append([...labelKitchen])
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-label-'))
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

const asked = (batch: string, pack: object = {}) => ({
  label: 'LINK-EU',
  place: 'EU',
  batch,
  pack: { ...euPack, ...pack },
})
const proof = async (batch: string, pack: object = {}): Promise<ProofSeen> => {
  const { status, body } = await house.ask('POST', '/api/labels/proof', asked(batch, pack))
  expect(status, JSON.stringify(body)).toBe(200)
  return body as ProofSeen
}
const approve = (body: object) =>
  house.ask('POST', '/api/labels/approve', { ...body, by: 'ana', reasons: ['proof read against the batch'] })
const pdf = async (body: object): Promise<string> => {
  const answer = await house.app.request('/api/labels/pdf', { method: 'POST', body: JSON.stringify(body) })
  expect(answer.status).toBe(200)
  return kept(new Uint8Array(await answer.arrayBuffer()))
}
/** A label of its own name, approved and printed without the mark of a proof. */
const approvedPdf = async (label: string, pack: object = {}): Promise<string> => {
  const body = { ...asked('LINK-1', pack), label }
  const { status, body: said } = await approve(body)
  expect(status, JSON.stringify(said)).toBe(201)
  return pdf(body)
}
let files = 0
const kept = (bytes: Uint8Array): string => {
  const file = join(folder, `label-${(files += 1)}.pdf`)
  writeFileSync(file, bytes)
  return file
}
/** The page as pixels, and what an independent reader makes of the codes on it. */
const png = (file: string, dpi = 300): string => {
  execFileSync('pdftoppm', ['-r', String(dpi), '-png', '-singlefile', file, file.replace('.pdf', '')])
  return file.replace('.pdf', '.png')
}
const zbar = (image: string): string =>
  execFileSync('zbarimg', ['-q', '--raw', image], { encoding: 'latin1' }).trimEnd()
const dmtx = (image: string): string =>
  execFileSync('dmtxread', ['-N1', '-m', '8000', image], { encoding: 'latin1' }).trimEnd()

describe('characters the fonts have no letter for', () => {
  it('stop a label by data and are named; accents, umlauts and signs of the label are drawn', async () => {
    const letters = (b: Block) => b.id.startsWith('all.label.letters')
    const p = await proof('LINK-1', { business: 'Tansy Lane Kitchen 日本 🍖' })
    expect(p.blocks.filter(letters)).toMatchObject([
      { by: 'data', what: expect.stringMatching(/"日" \(U\+65E5\), "本" \(U\+672C\), "🍖" \(U\+1F356\)$/) },
    ])
    const drawn = await proof('LINK-1', { business: 'Çäßéñœø ≤ − ½ ’ – € Kitchen' })
    expect(drawn.blocks.filter(letters)).toEqual([])
  })
})

describe('a label of a batch', () => {
  it('carries what the batch was made of, and stops for nothing where all is known', async () => {
    const p = await proof('LINK-1')
    expect(p.blocks).toEqual([])
    expect(p.drawn.unplaced).toEqual([])
    expect(p.content.code?.text).toBe('(01)09506000134352(17)261130(10)LINK-1')
    expect(p.svg).toContain('width="150mm"')
  })

  it('cannot be approved while something is unknown or fails, and says what would settle each', async () => {
    for (const [pack, id] of [
      [{ validation: undefined }, 'all.dates.validated'],
      [{ netG: undefined }, 'net'],
      [{ heightMm: 40 }, 'all.label.fits'],
    ] as const) {
      const { status, body } = await house.ask('POST', '/api/labels/approve', {
        ...asked('LINK-1', pack),
        by: 'ana',
        reasons: ['proof read'],
      })
      expect(status).toBe(409)
      const hit = (body['blocks'] as Block[]).find((b) => b.id.startsWith(id))
      expect(hit?.settle.length).toBeGreaterThan(5)
    }
    expect((await house.ledger.entries({ kind: 'label.approve' })).length).toBe(0)
  })

  it('takes no approval past the proof, and no answer in words for what only data settles', async () => {
    const direct = await house.ask('POST', '/api/entries', { kind: 'label.approve', by: 'ana', body: {} })
    expect(direct.status).toBe(400)
    const { status } = await house.ask('POST', '/api/labels/approve', {
      ...asked('LINK-1', { validation: undefined }),
      settled: [{ id: 'all.dates.validated@everywhere', how: 'it will do' }],
      by: 'ana',
      reasons: ['proof read'],
    })
    expect(status).toBe(409)
  })

  it('is not set smaller to fit: what finds no room is named, with the millimetres that are wanting', async () => {
    const roomy = await proof('LINK-1')
    const tight = await proof('LINK-1', { heightMm: 45 })
    expect(tight.drawn.unplaced.length).toBeGreaterThan(0)
    expect(tight.drawn.missingMm).toBeGreaterThan(0)
    expect(Math.min(...tight.drawn.texts.map((t) => t.mm))).toBeCloseTo(
      Math.min(...roomy.drawn.texts.map((t) => t.mm)),
      6,
    )
    expect(tight.blocks.find((b) => b.id.startsWith('all.label.fits'))?.by).toBe('data')
  })

  it('is approved once, prints for the next batch of the same make, and not for one with a new allergen', async () => {
    const { status, body } = await house.ask('POST', '/api/labels/approve', {
      ...asked('LINK-1'),
      by: 'ana',
      reasons: ['proof read against the batch'],
    })
    expect(status, JSON.stringify(body)).toBe(201)
    expect((await proof('LINK-2')).stands).toBe(true)
    const again = await house.app.request('/paper/label/LINK-EU.pdf?place=EU&batch=LINK-2')
    expect(again.status).toBe(200)
    // The third batch got mustard where the plan had pepper.
    const third = await proof('LINK-3')
    expect(third.stands).toBe(false)
    expect(third.blocks.map((b) => b.id)).toContain('new-allergen:mustard')
    expect(third.content.changes.map((c) => c.field)).toContain('ingredients')
    const stopped = await house.ask('GET', '/paper/label/LINK-EU.pdf?place=EU&batch=LINK-3')
    expect(stopped.status).toBe(409)
    expect(JSON.stringify(stopped.body)).toContain('mustard')
  })

  it('comes as SVG in millimetres, its letters as outlines', async () => {
    const svg = await (await house.app.request('/paper/label/LINK-EU.svg?place=EU&batch=LINK-1')).text()
    expect(svg).toMatch(/^<svg[^>]* width="150mm" height="90mm"/)
    expect(svg).not.toContain('<text')
  })
})

describe('the rendered PDF', () => {
  it.each([
    ['gs1-128', zbar],
    ['ean-13', zbar],
    ['gs1-datamatrix', dmtx],
  ] as const)('holds a %s that another reader reads back as the data of the batch', async (code, read) => {
    const { content } = await proof('LINK-1', { code })
    const seen = read(png(await approvedPdf(`CODE-${code}`, { code })))
    // Readers leave the leading FNC1 out or give it as a group separator.
    const groupSeparator = String.fromCodePoint(29)
    const data = seen.replace(/^\]C1/, '').replaceAll('\u00E8', '')
    expect(data.startsWith(groupSeparator) ? data.slice(1) : data).toBe(content.code!.encoded)
  })

  it('stands in the size asked for, and letters of it measure at least 1.2 mm (Regulation (EU) 1169/2011, Art. 13(2))', async () => {
    const file = await approvedPdf('SIZE')
    const size = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }))!
    expect(Number(size[1])).toBeCloseTo((150 / 25.4) * 72, 0)
    expect(Number(size[2])).toBeCloseTo((90 / 25.4) * 72, 0)
    const { sizes, fonts } = textSizes(file)
    // Source Sans 3: x-height 486 of 1000 units (regular, OS/2 table sxHeight).
    expect((Math.min(...sizes) * 0.486 * 25.4) / 72).toBeGreaterThanOrEqual(1.2)
    expect(fonts.every((f) => f.includes('SourceSans'))).toBe(true)
  })

  it('measures the height of a lower-case x in the pixels as it reckons it from the font', async () => {
    const { drawn } = await proof('LINK-1')
    expect(Math.min(...drawn.texts.map((t) => t.mm))).toBeGreaterThanOrEqual(1.2)
    expect(drawn.netMm).toBeGreaterThanOrEqual(4)
    const file = await approvedPdf('XXXX', { name: 'xxxxxxxx' })
    const { rows, dpi } = inkRows(file, 600)
    const height = ((rows.last - rows.first + 1) / dpi) * 25.4
    const name = (await proof('LINK-1', { name: 'xxxxxxxx' })).drawn.texts.find((t) => t.what === 'name')!
    // Within two pixels at 600 dots an inch.
    expect(Math.abs(height - name.mm)).toBeLessThan(0.09)
  })

  it('is black on white: contrast of the rendered ink at least 7 to 1 (WCAG 2.2, 1.4.6)', async () => {
    const pixels = grey(await approvedPdf('INK'), 150)
    const luminance = (v: number) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4)
    const [dark, light] = [pixels.data.reduce((a, b) => Math.min(a, b)), pixels.data.reduce((a, b) => Math.max(a, b))]
    expect((luminance(light) + 0.05) / (luminance(dark) + 0.05)).toBeGreaterThanOrEqual(7)
  })

  it('keeps all text inside the edge', async () => {
    const file = await approvedPdf('EDGE')
    const boxes = [
      ...execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' }).matchAll(
        /xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)"/g,
      ),
    ].map((m) => m.slice(1).map(Number) as [number, number, number, number])
    expect(boxes.length).toBeGreaterThan(40)
    for (const [x0, y0, x1, y1] of boxes) {
      expect(x0).toBeGreaterThanOrEqual(0)
      expect(y0).toBeGreaterThanOrEqual(0)
      expect(x1).toBeLessThanOrEqual((150 / 25.4) * 72)
      expect(y1).toBeLessThanOrEqual((90 / 25.4) * 72)
    }
  })

  it('says of what nobody approved that it is a proof', async () => {
    const text = (file: string) => execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
    expect(text(await pdf(asked('LINK-1', { name: 'Another name' })))).toContain('PROOF')
    expect(text(await approvedPdf('MARK'))).not.toContain('PROOF')
  })

  it('comes as a sheet of labels', async () => {
    const file = await pdf({
      ...asked('LINK-1', { code: 'none', widthMm: 95, heightMm: 130, layout: 'column' }),
      sheet: 'A4',
    })
    const text = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' })
    expect(text.match(/400 g/g)?.length).toBe(4)
  })
})

/** Grey pixels of a page. */
function grey(file: string, dpi: number): { width: number; height: number; data: Uint8Array } {
  const bytes = execFileSync('pdftoppm', ['-r', String(dpi), '-gray', '-singlefile', file], { maxBuffer: 1e9 })
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'))!
  return { width: Number(head[1]), height: Number(head[2]), data: bytes.subarray(head[0].length) }
}

/** First run of rows that hold ink: the first line of the label. */
function inkRows(file: string, dpi: number) {
  const { width, height, data } = grey(file, dpi)
  const inked = (y: number) => data.subarray(y * width, (y + 1) * width).some((v) => v < 128)
  let first = 0
  while (first < height && !inked(first)) first += 1
  let last = first
  while (last + 1 < height && inked(last + 1)) last += 1
  return { rows: { first, last }, dpi }
}

/** Sizes of type in a PDF, points, and fonts, as poppler reads them. */
function textSizes(file: string): { sizes: number[]; fonts: string[] } {
  const html = execFileSync('pdftohtml', ['-xml', '-stdout', '-i', '-zoom', '1', '-fontfullname', file], {
    encoding: 'utf8',
  })
  const specs = [...html.matchAll(/<fontspec id="\d+" size="([\d.-]+)" family="([^"]*)"/g)]
  const names = execFileSync('pdffonts', [file], { encoding: 'utf8' }).split('\n').slice(2).filter(Boolean)
  return { sizes: specs.map((s) => Number(s[1])), fonts: names }
}
