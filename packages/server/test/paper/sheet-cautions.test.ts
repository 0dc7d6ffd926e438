import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Draft } from '@forcemeat/ledger'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { openHouse, smallKitchen, type House } from '../support.ts'

let house: House
let folder: string
type Saved = Extract<Draft, { kind: 'recipe.save' }>
type Planned = Extract<Draft, { kind: 'batch.plan' }>
const saved = smallKitchen.find((d) => d.kind === 'recipe.save') as Saved
const planned = smallKitchen.find((d) => d.kind === 'batch.plan') as Planned
const uncured = { additions: [{ material: 'salt', pct: 1.8 }] }

const batchOf = (code: string, change: Partial<Saved['body']['body']>): Draft[] => {
  const { nitriteTarget: _band, ...body } = saved.body.body
  return [
    { ...saved, body: { ...saved.body, recipe: code, body: { ...body, ...change } } },
    {
      ...planned,
      body: {
        ...planned.body,
        batch: `${code}-1`,
        recipe: code,
        lines: planned.body.lines.filter((l) => l.line !== 'cure'),
      },
    },
  ]
}

beforeAll(async () => {
  house = await openHouse()
  await house.ledger.append([
    ...smallKitchen,
    ...batchOf('UNCURED', uncured),
    ...batchOf('RAW-EATEN', { kind: 'dried', smoked: false }),
    ...batchOf('RAW', { ...uncured, kind: 'fresh', smoked: false, readyToEat: false }),
  ])
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-sheet-'))
})
afterAll(async () => {
  await house.close()
  rmSync(folder, { recursive: true, force: true })
})

async function textOf(batch: string): Promise<string> {
  const answer = await house.app.request(`/paper/batch-sheet/${batch}.pdf?size=A4`)
  expect(answer.status).toBe(200)
  const file = join(folder, `${batch}.pdf`)
  writeFileSync(file, new Uint8Array(await answer.arrayBuffer()))
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ')
}

it('the sheet at the bench carries the cautions its recipe is due, before the weights', async () => {
  const uncuredSheet = await textOf('UNCURED-1')
  expect(uncuredSheet).toContain('Smoked without cure: not called safe')
  expect(uncuredSheet.indexOf('Smoked without cure')).toBeLessThan(uncuredSheet.indexOf('What, and from which lot'))
  expect(await textOf('RAW-EATEN-1')).toContain('Raw pork, eaten as sold: how was it treated?')
  expect(await textOf('RAW-1')).toContain('Raw: for whoever eats it to cook')
  const cured = await textOf('B-1')
  for (const none of ['Smoked without cure', 'eaten as sold: how', 'Raw: for whoever'])
    expect(cured).not.toContain(none)
})
