import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { daysSvg } from '../../src/paper/days-svg.ts'
import { paperOf } from '../../src/paper/paper-of.ts'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { openHouse, type House } from '../support.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse()
  await fillWithDemo(house.ledger)
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-slow-'))
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

async function textOf(kind: 'drying-record' | 'pork-treatment', batch: string): Promise<string> {
  const pdf = await paperOf(house.ledger, kind, batch, 'A4')
  const file = join(folder, 'sheet.pdf')
  writeFileSync(file, pdf!)
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
}

describe('the papers of the invented kitchen’s slow sausage', () => {
  it('print its pH with the meter, its degree-hours, each weighing of its pieces, and that nobody has decided', async () => {
    const text = await textOf('drying-record', 'SLOW-1021')
    for (const ph of ['5.74', '5.52', '5.24', '5.17']) expect(text).toContain(ph)
    expect(text).toMatch(/calibrated in buffer on \d{4}-\d\d-\d\d/)
    expect(text).toMatch(/US\s+\d+(\.\d)? °F·h\s+1200 °F·h/)
    expect(text.match(/\bP[123]\s+[\d,]+ g/g)).toHaveLength(18)
    // 1012 g at first, 786 g on day 28: 22.3 % lost.
    expect(text).toMatch(/P1\s+786 g\s+22\.3 %/)
    expect(text).toContain('Water activity has not been measured')
    expect(text).toContain('None yet. A person decides')
    expect(text).toContain('Cannot tell')
  })

  it('print how each lot of pork was made safe, with the schedule it is held against', async () => {
    const text = await textOf('pork-treatment', 'SLOW-1021')
    for (const lot of ['LN-0907', 'FT-0911']) expect(text).toContain(lot)
    expect(text).toContain('Frozen, by the room and the days')
    expect(text).toMatch(/thickness 140 mm/)
    expect(text).toContain('9 CFR 318.10')
    expect(text).toContain('Freezing does not make wild boar, bear or other game safe')
  })

  it('print a released stick with its measured water activity and who signed', async () => {
    const text = await textOf('drying-record', 'STICK-0109')
    expect(text).toContain('Water activity')
    expect(text).toContain('0.878')
    expect(text).toContain('Released')
    expect(text).toContain('Nell Byre')
  })
})

describe('a plot over days', () => {
  const plot = (points: readonly (readonly [number, number | null])[]) =>
    daysSvg(
      {
        lines: [{ label: 'x', as: 'line', points }],
        limits: [{ label: 'to reach', value: 36 }],
        upward: 'Loss',
        along: 'days',
      },
      400,
      150,
    )

  it('draws nothing where nothing was measured, and no figure that is none', () => {
    expect(plot([])).toBe('')
    expect(plot([[0, null]])).toBe('')
    for (const svg of [
      plot([[3, 5]]),
      plot([
        [0, 0],
        [28, 22],
      ]),
      plot([
        [0, 1],
        [1, null],
        [2, 3],
      ]),
    ])
      expect(svg).not.toMatch(/NaN|Infinity|undefined/)
  })

  it('leaves a gap where a reading is missing', () => {
    const path = /d="(M[^"]*)" stroke="[^"]*" stroke-width="1.4"/.exec(
      plot([
        [0, 1],
        [1, 2],
        [2, null],
        [3, 4],
        [4, 5],
      ]),
    )![1]!
    expect(path.match(/M/g)).toHaveLength(2)
  })
})
