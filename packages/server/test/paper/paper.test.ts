import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { nitriteCaution } from '@forcemeat/craft/cure/caution'
import { materials } from '@forcemeat/craft/materials/materials'
import { allRules } from '@forcemeat/rulebook/catalogue'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { batchSheet } from '../../src/paper/batch-sheet.ts'
import { cookAndChill } from '../../src/paper/cook-and-chill.ts'
import { curveSvg } from '../../src/paper/curve-svg.ts'
import { fontFiles, printPdf } from '../../src/paper/print.ts'
import { inventedRecord, inventedSheet } from './invented.ts'

const require = createRequire(createRequire(import.meta.url).resolve('pdfmake/package.json'))
const fontkit = createRequire(require.resolve('pdfkit/package.json'))('fontkit') as {
  openSync: (file: string) => { hasGlyphForCodePoint: (point: number) => boolean }
}

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-paper-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const textOf = (pdf: Uint8Array): string => {
  const file = join(folder, 'sheet.pdf')
  writeFileSync(file, pdf)
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
}
const sizeOf = (pdf: Uint8Array): string => {
  const file = join(folder, 'size.pdf')
  writeFileSync(file, pdf)
  return /Page size:\s+(.*)/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }))![1]!
}

/** Every text anywhere in a value. */
const textsIn = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value]
    : value !== null && typeof value === 'object'
      ? Object.values(value).flatMap(textsIn)
      : []

describe('the fonts', () => {
  it.each(Object.entries(fontFiles))(
    'have every sign of the sheets, the rules and the materials (%s)',
    (_name, file) => {
      const font = fontkit.openSync(file)
      const documents = [batchSheet(inventedSheet('A4')), cookAndChill(inventedRecord('A4'))]
      const signs = '≤≥±µ½°→×−√≈²₂⁻‰…–’“”ßőłșžΩ✓'
      const all = [...textsIn(documents), ...textsIn(allRules()), ...textsIn(materials), nitriteCaution, signs].join('')
      const missing = [...new Set(all)].filter(
        (c) => c.codePointAt(0)! >= 32 && !font.hasGlyphForCodePoint(c.codePointAt(0)!),
      )
      expect(missing).toEqual([])
    },
  )
})

describe('the batch sheet', () => {
  it('prints each line with its target, and the caution of the cure beside the cure', async () => {
    const text = textOf(await printPdf(batchSheet(inventedSheet('A4'))))
    for (const line of inventedSheet('A4').lines) expect(text).toContain(line.what.slice(0, 12))
    expect(text).toContain('57.6 g')
    expect(text).toContain('53.76 g to 59.9 g')
    expect(text).toContain('TOO COARSE')
    const cure = text.indexOf('57.6 g')
    const caution = text.indexOf('weigh, never spoon')
    expect(caution).toBeGreaterThan(cure)
    expect(text.indexOf('Sodium erythorbate')).toBeGreaterThan(caution)
    expect(text).toMatch(/Page 1 of \d/)
    expect(text).toContain('Batch B-2026-031')
    expect(text).toContain('INVENTED DATA')
  })

  it('says nothing of invented data for a kitchen that is not one', async () => {
    const sheet = inventedSheet('A4')
    const text = textOf(await printPdf(batchSheet({ ...sheet, kitchen: { ...sheet.kitchen, demo: false } })))
    expect(text).not.toContain('INVENTED')
  })

  it('is in pounds and °F where the kitchen is, with grams beside small weights', async () => {
    const text = textOf(await printPdf(batchSheet(inventedSheet('Letter', 'us'))))
    expect(text).toContain('160 °F')
    expect(text).toContain('57.6 g')
    expect(text).toMatch(/31 lb 12 oz|31 lb 11\.9 oz/)
  })

  it('comes on A4 and on Letter', async () => {
    expect(sizeOf(await printPdf(batchSheet(inventedSheet('A4'))))).toContain('A4')
    expect(sizeOf(await printPdf(batchSheet(inventedSheet('Letter'))))).toContain('letter')
  })

  it('prints the same bytes from the same record', async () => {
    const [a, b] = [await printPdf(batchSheet(inventedSheet('A4'))), await printPdf(batchSheet(inventedSheet('A4')))]
    expect(Buffer.from(a).equals(Buffer.from(b))).toBe(true)
  })
})

describe('the cook-and-chill record', () => {
  it('prints verdicts as words, what failed first, with source and what would settle', async () => {
    const text = textOf(await printPdf(cookAndChill(inventedRecord('A4'))))
    expect(text).toContain('FAILS')
    expect(text).toContain('Meets')
    expect(text.indexOf('Chilling from')).toBeLessThan(text.indexOf('Ingoing nitrite'))
    expect(text).toContain('Would settle it')
    expect(text).toContain('9 CFR 424.21(c)')
    expect(text).toContain('never checked')
    expect(text).toContain('no reading')
    expect(text).toContain('Held')
  })

  it('says so where nothing was judged, logged or decided', async () => {
    const { decision: _none, ...bare } = inventedRecord('A4')
    const text = textOf(await printPdf(cookAndChill({ ...bare, findings: [], curves: [], verdict: 'cannot-tell' })))
    expect(text).toContain('nothing here says that it is safe')
    expect(text).toContain('No logger file')
    expect(text).toContain('None yet')
    expect(_none).toBeDefined()
  })
})

describe('the printed curve', () => {
  const plot = inventedRecord('A4').curves[0]!.plot

  it('leaves a gap where readings are missing, and draws every limit', () => {
    const svg = curveSvg(plot, 'metric', 500, 250)
    const core = /<path d="(M[^"]+)" stroke="#1d1a16" stroke-width="1.8"/.exec(svg)![1]!
    expect(core.match(/M/g)).toHaveLength(2)
    for (const l of plot.limits) expect(svg).toContain(l.label)
    expect(svg).not.toMatch(/NaN|Infinity|currentColor/)
  })

  it('escapes names of columns', () => {
    const svg = curveSvg(
      {
        ...plot,
        curves: [
          {
            label: '<b> & "x"',
            role: 'core',
            points: [
              [0, 1],
              [1, 2],
            ],
          },
        ],
      },
      'metric',
      500,
      250,
    )
    expect(svg).toContain('&lt;b&gt; &amp; &quot;x&quot;')
  })

  it('is empty rather than wrong where no reading is there, and stands one flat reading', () => {
    expect(
      curveSvg({ curves: [{ label: 'a', role: 'core', points: [[0, null]] }], limits: [] }, 'metric', 500, 250),
    ).toBe('')
    expect(
      curveSvg({ curves: [{ label: 'a', role: 'core', points: [[0, 4]] }], limits: [] }, 'us', 500, 250),
    ).not.toMatch(/NaN|Infinity/)
  })
})
