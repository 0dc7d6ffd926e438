import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { PlanOfRecipe } from '../../src/hazard/plan-of.ts'
import { hazardPlanPaper } from '../../src/paper/hazard-plan.ts'
import { printPdf } from '../../src/paper/print.ts'
import type { Frame } from '../../src/paper/frame.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
let folder: string
beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append(smallKitchen)
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-hazard-'))
})
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true })
  await house.close()
})

/** Lines of each page, foot left out. */
const pagesOf = (pdf: Uint8Array): string[][] => {
  const file = join(folder, 'plan.pdf')
  writeFileSync(file, pdf)
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
    .split('\f')
    .slice(0, -1)
    .map((page) => page.split('\n').filter((line) => line.trim() !== '' && !/Page \d+ of \d+/.test(line)))
}

it('no title of a table stands at the foot of a page without a row, however far down the page it comes', async () => {
  const plan = (await house.ask('GET', '/api/hazard-plan/HUNTER')).body as unknown as PlanOfRecipe
  for (const size of ['A4', 'Letter'] as const)
    for (const more of [0, 4, 8, 12]) {
      const frame: Frame = {
        kitchen: { name: 'Invented kitchen' },
        batch: 'HUNTER',
        head: { entries: 1, hash: 'a'.repeat(64), at: '2026-11-25T10:00:00Z' },
        size,
        foot: 'HUNTER',
      } as unknown as Frame
      const filler = Array.from({ length: more }, (_, i) => ({
        ...plan.plan.steps[0]!,
        name: `Step ${i}`,
        hazards: [],
      }))
      const longer = { ...plan, plan: { ...plan.plan, steps: [...plan.plan.steps, ...filler] } }
      const pages = pagesOf(await printPdf(hazardPlanPaper(frame, longer)))
      expect(pages.flat().some((line) => line.includes('Principles 2 and 3'))).toBe(true)
      for (const page of pages) {
        page.forEach((line, i) => {
          if (/^\s*Principles? /.test(line))
            expect(page.length - i, `${line} (${size}, ${more} more)`).toBeGreaterThan(3)
        })
        // The printed foot says what the paper rests on and is no row.
        expect(page.filter((line) => line.includes('Principles 2 and 3')).length).toBeLessThan(2)
      }
    }
}, 60_000)
