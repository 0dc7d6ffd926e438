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
  page = await browser.newPage({ viewport: { width: 768, height: 1000 } })
  page.setDefaultTimeout(10_000)
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

describe('the pickle on the cure bench', () => {
  it('is asked for once the cure is pumped in, and not before', async () => {
    await page.goto(`${server.url}/recipes/smoked-ring/edit`)
    await page.getByText('Cure bench').click()
    await page.getByRole('heading', { name: 'The scale decides' }).waitFor()
    expect(await page.getByRole('heading', { name: 'The pickle' }).count()).toBe(0)
    await page.getByLabel('How the cure goes in').selectOption('pumped')
    await page.getByRole('heading', { name: 'The pickle' }).waitFor()
  })

  // Unsigned handout that cites FSIS Directive 7620.3: 3 oz of 6.25 % cure in 8.33 lb of water, 10 % pump, "140 ppm".
  it('brings 140.7 ppm into the meat from 3 oz of 6.25 % cure in 8.33 lb at 10 % pump', async () => {
    await page.getByLabel('Whole pickle weighs').fill('8.33 lb')
    await page.getByLabel('Pump', { exact: true }).fill('10')
    await page.getByLabel('Cure in the whole pickle').fill('3 oz')
    await page.getByText(/brings 140\.7 ppm nitrite/).waitFor()
  })

  // 9 CFR 424.22(b) by the formula of Directive 7620.3: 0.1000 lb of nitrite, 1.6 lb of a 6.25 % cure, in 100 lb of pickle.
  it('takes 1.6 lb (725.7 g) of cure in 100 lb of pickle for 120 ppm at 12 % pump', async () => {
    await page.getByLabel('Whole pickle weighs').fill('100 lb')
    await page.getByLabel('Pump', { exact: true }).fill('12')
    await page.getByLabel('Nitrite meant').fill('120')
    await page.getByText(/120 ppm takes 725\.7 g/).waitFor()
  })

  it('names what is wrong with rubbish at its field and keeps the rest', async () => {
    await page.getByLabel('Pump', { exact: true }).fill('abc')
    await page.getByText(/"abc"/).first().waitFor()
    await page.getByLabel('Pump', { exact: true }).fill('-4')
    await page.getByText(/is -4; allowed: a number in %, more than 0/).waitFor()
    expect(await page.getByLabel('Whole pickle weighs').inputValue()).toBe('100 lb')
    expect(await page.getByText(/ppm takes/).count()).toBe(0)
  })
})
