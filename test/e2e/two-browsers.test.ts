import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

type Weighing = { readonly line: string; readonly kg: number; readonly by: string }
type Batch = { readonly lines: readonly { line: string; targetKg: number }[]; readonly weighings: readonly Weighing[] }

let server: RunningServer
let browser: Browser
const pages: Page[] = []
const errors: string[] = []
const batch = 'RING-0119'

const batchNow = async (): Promise<Batch> => (await (await fetch(`${server.url}/api/batches/${batch}`)).json()) as Batch
const sectionOf = (page: Page, line: string) => page.locator(`section[aria-label^="Line ${line},"]`)
const done = (page: Page, text: string) => page.getByText(text, { exact: true })

async function weigh(page: Page, line: string, kg: number): Promise<void> {
  const section = sectionOf(page, line)
  await section
    .getByLabel(/^Weight/)
    .first()
    .fill(`${kg} kg`)
  await section.getByRole('button', { name: /^Record/ }).click()
}

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  for (const who of ['ida', 'tom']) {
    const context = await browser.newContext({ viewport: { width: 1180, height: 820 } })
    const page = await context.newPage()
    page.setDefaultTimeout(10_000)
    page.on('pageerror', (e) => errors.push(e.message))
    await page.goto(`${server.url}/batches/${batch}/weigh`)
    await page.getByLabel('Working here').selectOption(who)
    pages.push(page)
  }
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

describe('two browsers at one batch', () => {
  it('see the weights of the other within a second, with what is being typed left as it is', async () => {
    const { lines } = await batchNow()
    const last = lines.at(-1)!
    await Promise.all(pages.map((p) => done(p, `0 of ${lines.length} lines weighed`).waitFor()))
    // Both have begun on a line of their own, unsent.
    for (const [i, page] of pages.entries())
      await sectionOf(page, last.line).getByLabel(/^Note/).fill(`half a word of ${i}`)
    const took: number[] = []
    for (const [i, { line, targetKg }] of lines.slice(0, -1).entries()) {
      const [mine, other] = i % 2 === 0 ? pages : pages.toReversed()
      await sectionOf(mine!, line)
        .getByLabel(/^Weight/)
        .first()
        .fill(`${targetKg} kg`)
      const recorded = mine!.waitForResponse((r) => r.url().endsWith('/api/entries') && r.status() === 201)
      await sectionOf(mine!, line)
        .getByRole('button', { name: /^Record/ })
        .click()
      await recorded
      // From when it is recorded until the other screen shows it.
      const begun = performance.now()
      await done(other!, `${i + 1} of ${lines.length} lines weighed`).waitFor()
      took.push(performance.now() - begun)
    }
    // One of them may meet a machine that is at other work.
    const sorted = took.toSorted((a, b) => a - b)
    expect(sorted[Math.floor(sorted.length / 2)]).toBeLessThan(1000)
    expect(sorted.at(-1)).toBeLessThan(3000)
    for (const [i, page] of pages.entries())
      expect(await sectionOf(page, last.line).getByLabel(/^Note/).inputValue()).toBe(`half a word of ${i}`)
    const { weighings } = await batchNow()
    expect(weighings.map((w) => w.by)).toEqual(lines.slice(0, -1).map((_, i) => (i % 2 === 0 ? 'ida' : 'tom')))
  }, 60_000)

  it('lose nothing where both record the same line at the same moment', async () => {
    const before = await batchNow()
    const last = before.lines.at(-1)!
    const half = Number((last.targetKg / 2).toPrecision(3))
    await Promise.all(pages.map((p) => weigh(p, last.line, half)))
    for (const page of pages)
      await expect.poll(() => sectionOf(page, last.line).getByText('weighed').count(), { timeout: 5000 }).toBe(2)
    const { weighings } = await batchNow()
    const added = weighings.slice(before.weighings.length)
    expect(added.map((w) => w.kg)).toEqual([half, half])
    expect(added.map((w) => w.by).toSorted()).toEqual(['ida', 'tom'])
  }, 60_000)

  it('end with one weighing for each thing done, and no error on either page', async () => {
    const { lines, weighings } = await batchNow()
    expect(weighings).toHaveLength(lines.length + 1)
    expect(errors).toEqual([])
  })
})
