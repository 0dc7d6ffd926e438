import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { weight } from '../../src/paper/amounts.ts'
import { paperDay } from '../../src/paper/dates.ts'
import { sheetOf } from '../../src/paper/sheet-of.ts'
import { openHouse, type House } from '../support.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse()
  await fillWithDemo(house.ledger)
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-sheet-'))
}, 60_000)
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

async function textOf(batch: string): Promise<string> {
  const answer = await house.app.request(`/paper/batch-sheet/${batch}.pdf?size=A4`)
  expect(answer.status).toBe(200)
  const file = join(folder, `${batch}.pdf`)
  writeFileSync(file, new Uint8Array(await answer.arrayBuffer()))
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
}

it('prints of a batch that was made every weight as it was recorded, with who and when', async () => {
  const record = (await house.ledger.batch('RING-0117'))!
  const sheet = await sheetOf(house.ledger, record, 'A4')
  const text = await textOf('RING-0117')
  expect(record.weighings.length).toBe(record.lines.length)
  for (const [i, line] of sheet.lines.entries()) {
    const own = record.weighings.filter((w) => w.line === record.lines[i]!.line)
    expect(line.weighed?.map((w) => w.kg)).toEqual(own.map((w) => w.kg))
    for (const w of line.weighed!) {
      expect(text).toContain(weight(w.kg, sheet.kitchen.units))
      expect(w.by).not.toBe(own[0]!.by)
      expect(w.at).toBe(own[0]!.at)
    }
  }
  expect(text).toContain(paperDay(record.weighings[0]!.at))
})

it('leaves room to write on a sheet of which nothing is weighed', async () => {
  const sheet = await sheetOf(house.ledger, (await house.ledger.batch('RING-0119'))!, 'A4')
  expect(sheet.lines.every((l) => l.weighed?.length === 0)).toBe(true)
  expect(await textOf('RING-0119')).not.toContain('UTC\n')
})

it('offers no way to chill that rests on memory', async () => {
  const sheet = await sheetOf(house.ledger, (await house.ledger.batch('RING-0117'))!, 'A4')
  expect(sheet.chill!.length).toBeGreaterThan(0)
  expect(sheet.chill!.join(' ')).not.toMatch(/option [34]/)
})
