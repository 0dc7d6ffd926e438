import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await browser.newPage({ viewport: { width: 390, height: 844 } })
  page.setDefaultTimeout(10_000)
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

const give = (text: string): Promise<void> =>
  page.getByLabel('File').setInputFiles({ name: 'lots.csv', mimeType: 'text/csv', buffer: Buffer.from(text) })
const file = (kg: string): string => `lot;material;weight;received\nQ-1;salt;${kg};2026-11-24\n`

describe('a file whose figures can be read in two ways', () => {
  it('is asked about before a row can be recorded, and is read as answered', async () => {
    await page.goto(`${server.url}/stock/import`)
    await page.getByLabel('Working here').selectOption('ida')
    await give(file('1.250'))
    await page.getByRole('heading', { name: /Which decimal mark/ }).waitFor()
    expect(await page.getByRole('button', { name: /^Record/ }).count()).toBe(0)
    const shots = process.env['FORCEMEAT_SHOTS']
    if (shots) await page.screenshot({ path: `${shots}/import-decimal.png`, fullPage: true })
    await page.getByRole('button', { name: /Decimal comma/ }).click()
    await page.getByText(/read with a decimal comma, as you said/).waitFor()
    await page.getByRole('button', { name: /Read with a decimal point instead/ }).click()
    await page.getByText(/read with a decimal point, as you said/).waitFor()
    await page.getByRole('button', { name: 'Record 1 row' }).click()
    await page.getByText('1 recorded.').waitFor()
    const { kg } = (await (await fetch(`${server.url}/api/lots/Q-1`)).json()) as { kg: number }
    expect(kg).toBe(1.25)
  }, 60_000)

  it('is not asked about where another cell tells', async () => {
    await give(`${file('1.250')}Q-2;salt;1,25;2026-11-24\n`.replace('Q-1', 'Q-3'))
    await page.getByText(/read with a decimal comma, as C3 “1,25” can only be read/).waitFor()
    await page.getByRole('button', { name: 'Record 2 rows' }).waitFor()
  }, 60_000)
})
