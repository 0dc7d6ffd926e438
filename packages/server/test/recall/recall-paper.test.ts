import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { paperDay } from '../../src/paper/dates.ts'
import { printPdf } from '../../src/paper/print.ts'
import { recallReport, type RecallPaper } from '../../src/paper/recall.ts'
import { printRecall } from '../../src/recall/print.ts'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-recall-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Text of each page. */
const pagesOf = (pdf: Uint8Array): string[] => {
  const file = join(folder, 'recall.pdf')
  writeFileSync(file, pdf)
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8', maxBuffer: 1e8 })
    .split('\f')
    .slice(0, -1)
}

type Recall = RecallPaper['recall']
type Row = Partial<Recall['consignments'][number]>

/** A recall of one lot that went into many packs, each sent somewhere. */
function paper(count: number, row: (i: number) => Row = () => ({}), more: Partial<RecallPaper> = {}): RecallPaper {
  const two = (n: number): string => String(n).padStart(2, '0')
  const consignments = Array.from({ length: count }, (_, i) => ({
    batch: `RING-${1000 + (i % 90)}`,
    pack: `PK-${10_000 + i}`,
    on: `2026-11-${two(1 + (i % 28))}`,
    to: `Customer ${i % 40}, inn at the mill`,
    count: 1 + (i % 12),
    kg: 0.35 + (i % 17) * 0.113,
    recipe: 'Smoked ring',
    ...(i % 3 === 0 ? {} : { useBy: '2026-12-24' }),
    ...row(i),
  })) as unknown as Recall['consignments']
  const batches = Array.from({ length: Math.min(90, count) }, (_, i) => ({
    batch: `RING-${1000 + i}`,
    recipe: 'RING',
    recipeName: 'Smoked ring',
    state: 'packed',
    on: '2026-11-02',
    balance: { inKg: 40.125, packedKg: 33.5, reworkKg: 1.2, differenceKg: 5.425, shippedKg: 30.75 },
  })) as unknown as Recall['batches']
  const customers = Array.from({ length: Math.min(40, count) }, (_, i) => ({
    name: `Customer ${i}, inn at the mill`,
    count: 30,
    kg: 9.5,
  }))
  return {
    kitchen: { name: 'Brackwater Smokehouse', place: 'Lower Fenwick', demo: true, units: 'metric' },
    batch: 'SH-1',
    foot: 'Recall of lot SH-1',
    head: { seq: 9000, hash: 'a'.repeat(64), at: '2026-11-25T12:00:00.000Z' },
    size: 'A4',
    kitchenFacts: undefined,
    form: 'us',
    drills: [],
    nameOf: (person) => person,
    recall: {
      subject: { type: 'lot', id: 'SH-1' },
      level: { lots: { 'SH-1': 0 }, batches: {} },
      lots: [
        {
          lot: 'SH-1',
          material: 'pork-shoulder-trim',
          on: '2026-11-01',
          kg: 900,
          balanceKg: 12,
          supplier: 'Fenwick Farm',
        },
      ],
      batches,
      packs: [],
      consignments,
      customers,
      steps: [],
      behind: { lots: [], batches: [], steps: [] },
      suppliers: [{ name: 'Fenwick Farm' }],
      quantity: {
        packs: 9000,
        shipped: 8000,
        here: 1000,
        packedKg: 3015,
        shippedKg: 2767.5,
        hereKg: 247.5,
        stockKg: 12,
        notPackedKg: 0,
        unaccountedPacks: 0,
      },
    } as unknown as Recall,
    ...more,
  }
}

describe('the recall report of a lot that went far', () => {
  it('has a thousand consignments, each once and whole, under headings on every page, in less than 4 s of work', async () => {
    const asked = paper(1000)
    const begun = process.threadCpuUsage()
    const pdf = await printPdf(recallReport(asked))
    const { user, system } = process.threadCpuUsage(begun)
    const pages = pagesOf(pdf)
    const lines = pages.join('\n').split('\n')
    for (const c of asked.recall.consignments) {
      const found = lines.filter((l) => l.includes(c.pack))
      expect(found, c.pack).toHaveLength(1)
      const cells = found[0]!.trim().split(/ {2,}/)
      expect(found[0]!.replaceAll(/ +/g, ' ').trim()).toContain(
        `${paperDay(c.on)} ${c.pack} ${c.batch}, ${c.recipe} ${c.to} ${c.count} `,
      )
      expect(cells.at(-1)).toContain(c.useBy === undefined ? 'not recorded' : paperDay(c.useBy))
    }
    for (const page of pages.filter((p) => p.includes('PK-1')))
      expect(page).toMatch(/Consignments\s+On\s+Pack\s+Batch, product\s+To\s+Packs\s+Weight\s+Use by/)
    for (const b of asked.recall.batches)
      expect(lines.some((l) => l.trim().startsWith(`${b.batch}, packed`))).toBe(true)
    expect(pages.join('')).toContain('Lots: affected')
    // Some 0.8 s on two shared cores; counted as work of this thread, not by the clock, which other work on the machine stretches.
    expect((user + system) / 1e6).toBeLessThan(4)
  })

  it('prints a long one on a thread of its own: the same paper, and this thread is free for everybody else', async () => {
    const { nameOf: _, ...asked } = paper(1200)
    const begun = process.threadCpuUsage()
    let turns = 0
    const ticking = setInterval(() => (turns += 1), 10)
    const pdf = await printRecall({ ...asked, names: {} })
    clearInterval(ticking)
    const { user, system } = process.threadCpuUsage(begun)
    // Some 0.8 s of work where it is laid out on this thread.
    expect((user + system) / 1e6).toBeLessThan(0.3)
    expect(turns).toBeGreaterThan(5)
    expect(pagesOf(pdf)).toEqual(pagesOf(await printPdf(recallReport({ ...asked, nameOf: (code) => code }))))
  })

  it('says who led a drill by name, on either thread', async () => {
    const drill = {
      subject: 'lot',
      of: 'SH-1',
      began: '2026-11-20T08:00:00Z',
      ended: '2026-11-20T08:09:00Z',
      by: 'ana',
    }
    const drills = [{ ...drill, packs: 9, accounted: 9, trial: true }] as unknown as RecallPaper['drills']
    for (const count of [3, 300]) {
      const { nameOf: _, ...asked } = paper(count, () => ({}), { drills })
      const pdf = await printRecall({ ...asked, names: { ana: 'Ana Brook' } })
      expect(pagesOf(pdf).join('')).toContain('Ana Brook, drill')
    }
  })

  it('lays every page out once, whatever stands at the foot of one', async () => {
    for (const n of [18, 19, 20, 21, 22, 23, 24]) {
      let feet = 0
      const definition = recallReport(paper(n)) as unknown as { footer: (page: number, of: number) => unknown }
      const { footer } = definition
      const pages = pagesOf(
        await printPdf({
          ...definition,
          footer: (page: number, of: number) => {
            feet += 1
            return footer(page, of)
          },
        } as never),
      )
      expect(feet).toBe(pages.length)
      for (const title of ['Who has it', 'Consignments', 'Batches and their mass balance', 'Lots: affected'])
        for (const page of pages.filter((p) => p.includes(title))) {
          const after = page
            .slice(page.lastIndexOf(title))
            .split('\n')
            .filter((l) => l.trim() !== '')
          // Title, heads, a row, and the foot of the page.
          expect(after.length, `${title} of ${n}`).toBeGreaterThanOrEqual(4)
        }
    }
  })

  it('breaks what is too long for its column, and loses none of it', async () => {
    const pack = 'PACK-OF-THE-LONG-WINTER-EVENINGS-2026-0001'
    const long = 'The Brotherhood of Saint Anthony, almoner and cellarer,\nat the third door of the lower court'
    const word = 'Donaudampfschifffahrtsgesellschaftskantinenverwaltung'
    const asked = paper(2, (i) => (i === 0 ? { pack, to: long } : { to: word }), {
      kitchen: { name: 'Brackwater Smokehouse', demo: true, units: 'us' },
      size: 'Letter',
    })
    const pdf = await printPdf(recallReport(asked))
    const file = join(folder, 'long.pdf')
    writeFileSync(file, pdf)
    const words = [
      ...execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' }).matchAll(
        /xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="[\d.]+">([^<]+)</g,
      ),
    ]
    for (const [, from, to, text] of words) {
      expect(Number(from), text).toBeGreaterThanOrEqual(39)
      expect(Number(to), text).toBeLessThanOrEqual(612 - 39)
    }
    const text = words.map((w) => w[3]!)
    for (const part of long.split(/\s+/)) expect(text).toContain(part)
    const glued = text.join('')
    for (const piece of ['EVENINGS-', 'Donaudampf', 'verwaltung']) expect(glued).toContain(piece)
  })
})
