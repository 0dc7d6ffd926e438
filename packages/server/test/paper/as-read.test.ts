import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { batchSheet } from '../../src/paper/batch-sheet.ts'
import { cookAndChill } from '../../src/paper/cook-and-chill.ts'
import { paperDay, paperInstant } from '../../src/paper/dates.ts'
import { printPdf } from '../../src/paper/print.ts'
import { inventedRecord, inventedSheet } from './invented.ts'
import { openHouse, type House } from '../support.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse()
  await fillWithDemo(house.ledger)
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-as-read-'))
}, 60_000)
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

async function pagesOf(path: string): Promise<readonly string[]> {
  const answer = await house.app.request(path)
  expect(answer.status, path).toBe(200)
  return textOf(new Uint8Array(await answer.arrayBuffer()))
}

/** The text of each page. */
function textOf(pdf: Uint8Array): readonly string[] {
  const file = join(folder, 'paper.pdf')
  writeFileSync(file, pdf)
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).split('\f')
}

describe('a paper in the units that were asked for', () => {
  it.each([
    ['batch-sheet/RING-0117', / lb /, /Core to 1\d\d(\.\d)? °F/],
    ['cook-and-chill/RING-0117', /°F/, /°F/],
    ['drying-record/SLOW-1021', /°F/, /Chamber °F|Air, °F/],
    ['hazard-plan/smoked-ring', /\(\d+(\.\d)? °F\)/, /°F/],
    ['plan/week', / lb /, / lb /],
  ])('%s speaks pounds and °F in a kitchen of kilograms', async (path, ...said) => {
    const us = (await pagesOf(`/paper/${path}.pdf?size=Letter&units=us`)).join('\n')
    for (const words of said) expect(us).toMatch(words)
    const own = (await pagesOf(`/paper/${path}.pdf`)).join('\n')
    expect(own).not.toMatch(/ lb /)
  })

  it('refuses units there are not', async () => {
    expect((await house.ask('GET', '/paper/batch-sheet/RING-0117.pdf?units=troy')).status).toBe(400)
  })

  it('says a published chill in both units, whatever its law speaks', async () => {
    const chill = (await pagesOf('/paper/batch-sheet/RING-0117.pdf')).join('\n').replaceAll(/\s+/g, ' ')
    expect(chill).toMatch(/\d+ to \d+ °F \(\d+(\.\d)? to \d+(\.\d)? °C\)/)
  })
})

describe('what belongs together on paper', () => {
  it('a caution has its words on the page of its heading, however far down it comes', async () => {
    for (let steps = 2; steps <= 20; steps++) {
      const invented = inventedSheet('A4')
      const long = { ...invented, steps: Array.from({ length: steps }, (_, i) => `Step number ${i + 1} of the work`) }
      for (const page of textOf(await printPdf(batchSheet(long))))
        expect(page.includes('Cooked is what the thermometer says'), `${steps} steps`).toBe(
          page.includes('Colour and firmness'),
        )
    }
  })

  it('the heading of the instruments has them below it, however far down it comes', async () => {
    for (let lines = 0; lines <= 40; lines++) {
      const invented = inventedRecord('A4')
      const findings = [{ ...invented.findings[0]!, because: 'one line\n'.repeat(lines + 1) }]
      for (const page of textOf(await printPdf(cookAndChill({ ...invented, findings, curves: [] }))))
        if (/^Instruments$/m.test(page)) expect(page, `${lines} lines`).toMatch(/^Instruments\s+Code/m)
    }
  })
})

describe('a date on paper', () => {
  it('names its month, and what is no date stays as it is', () => {
    expect(paperDay('2026-11-05')).toBe('5 Nov 2026')
    expect(paperInstant('2026-02-03T04:05:06.000Z')).toBe('3 Feb 2026 04:05 UTC')
    for (const odd of ['–', '', '2026-13-01', 'soon']) expect(paperDay(odd)).toBe(odd)
  })

  it('is no ISO date on any paper of a batch but in a reason that the rules give', async () => {
    for (const path of ['batch-sheet/RING-0117', 'record/batch/RING-0117', 'recall/batch/RING-0117'])
      expect((await pagesOf(`/paper/${path}.pdf`))[0]).not.toMatch(/Made on\s+\d{4}-|From\s+\d{4}-\d\d/)
  })
})

it('every column of lots in a recall has its head, and says in words how a lot is in it', async () => {
  const text = (await pagesOf('/paper/recall/batch/RING-0117.pdf')).join('\n')
  expect(text).not.toMatch(/step 0/)
  expect(text).toMatch(/How it is in it/)
})
