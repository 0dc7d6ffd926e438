import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { seriousFaults } from '../support/axe.ts'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
const errors: string[] = []

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

const shots = process.env['SHOTS']
const shot = async (at: Locator, name: string): Promise<void> => {
  if (shots) await at.screenshot({ path: `${shots}/${name}.png` })
}

describe.each([1280, 768])('fermentation and drying on the recipe bench, %s px wide', (width) => {
  let page: Page
  const panel = () => page.locator('details.panel', { hasText: 'Ferment and dry' })
  const field = (label: string) => page.getByLabel(label, { exact: true })

  beforeAll(async () => {
    page = await browser.newPage({ viewport: { width, height: 1000 } })
    page.setDefaultTimeout(15_000)
    page.on('pageerror', (e) => errors.push(e.message))
    await page.goto(`${server.url}/recipes/slow-60/edit`)
    await page.getByRole('heading', { name: /Holt slow sausage/ }).waitFor()
  })
  afterAll(() => page?.close())

  it('shows the stages of the recipe in their fields', async () => {
    expect(await field('Ended at pH').inputValue()).toBe('5.3')
    expect(await page.getByRole('group', { name: 'Fermentation stage 1' }).getByLabel(/^For/).inputValue()).toBe('48')
    expect(
      await page
        .getByRole('group', { name: 'Drying stage 2' })
        .getByLabel(/^Humidity/)
        .inputValue(),
    ).toBe('80')
    await shot(page.getByRole('region', { name: 'Drying' }), `fields-${width}`)
  }, 60_000)

  it('says the end pH, the hours allowed and the ready day, and follows a figure', async () => {
    await panel().locator('summary').first().click()
    await panel().getByText('End pH, a band').waitFor()
    await panel()
      .getByText(/at most 104 h/)
      .waitFor()
    await panel()
      .getByText(/^Ready (between|not before)/)
      .waitFor({ timeout: 30_000 })
    await panel()
      .getByText(/checked against 11 published batches/)
      .first()
      .waitFor()
    await panel()
      .getByRole('img', { name: /Weight loss, Holt slow sausage/ })
      .waitFor()
    await shot(panel(), `panel-${width}`)
    await page.getByRole('group', { name: 'Fermentation stage 1' }).getByLabel(/^Air/).fill('26 °C')
    await panel()
      .getByText(/at most 63\.9 h/)
      .waitFor()
  }, 90_000)

  it('says what is missing where the pH of the mix is, and comes back with it', async () => {
    await field('pH of the mix').fill('')
    await panel()
      .getByText(/No end pH can be given: the pH of the mix is not known/)
      .waitFor()
    await field('pH of the mix').fill('5.75')
    await panel().getByText('End pH, a band').waitFor()
  }, 60_000)

  it('adds a stage like the last one, names a figure it cannot read, and takes the stage out', async () => {
    await page.getByRole('button', { name: 'Add a drying stage' }).click()
    const added = page.getByRole('group', { name: 'Drying stage 3' })
    expect(await added.getByLabel(/^Humidity/).inputValue()).toBe('80')
    await added.getByLabel(/^For/).fill('some')
    await page
      .getByText(/"some" .*number/)
      .first()
      .waitFor()
    await shot(added, `fault-${width}`)
    await page.getByRole('button', { name: 'Remove drying stage 3' }).click()
    expect(await page.getByRole('group', { name: 'Drying stage 3' }).count()).toBe(0)
  }, 60_000)

  it('gives the accessibility checker nothing serious to find', async () => {
    await page.waitForTimeout(300)
    expect(await seriousFaults(page)).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0)
  }, 60_000)

  it('never broke on the way', () => expect(errors).toEqual([]))
})

it('a version saved from the bench keeps fermentation and drying, stages and all', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 1000 } })
  await page.goto(`${server.url}/recipes/slow-60/edit`)
  await page.getByLabel('Working here').focus()
  await page.keyboard.type('Ida')
  await page.getByRole('group', { name: 'Fermentation stage 1' }).getByLabel(/^Air/).fill('23')
  await page.getByRole('button', { name: 'Save as version 2' }).click()
  await page.waitForURL(/\/recipes\/slow-60$/)
  const text = await (await fetch(`${server.url}/api/recipes/slow-60/file?as=text`)).text()
  expect(text).toContain('ferment stage: for 48 hours; at 23 °C; humidity 92 %')
  expect(text).toContain('ferment: to pH 5.3; from pH 5.75; culture')
  expect(text).toContain('dry: loss 30 %; for 40 days; water activity 0.88')
  expect(text).toContain('dry stage: for 40 days; at 13 °C; humidity 80 %')
  await page.close()
}, 60_000)
