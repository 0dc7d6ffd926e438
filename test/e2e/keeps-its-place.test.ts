import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
const opened = async (viewport: { width: number; height: number }, touch = false): Promise<Page> => {
  const page = await (await browser.newContext({ viewport, hasTouch: touch, isMobile: touch })).newPage()
  page.setDefaultTimeout(15_000)
  return page
}

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

it('leaves the focus with the work after a weight and a check are recorded', async () => {
  const page = await opened({ width: 1024, height: 768 })
  await page.goto(`${server.url}/batches/RING-0119/weigh`)
  await page.getByLabel('Working here').selectOption('ida')
  const form = page.locator('form[aria-label^="Weigh "]').first()
  await form.getByLabel(/^Weight/).fill('1')
  await form.getByLabel(/^Note/).fill('a part of it')
  await form.getByRole('button', { name: /^Record/ }).focus()
  await page.keyboard.press('Enter')
  await page.getByText('1 of', { exact: false }).first().waitFor()
  await page.waitForTimeout(2000)
  expect(await page.evaluate(() => document.activeElement?.closest('main') !== null)).toBe(true)
  expect(await page.evaluate(() => document.activeElement?.id)).not.toBe('page')
  await page.goto(`${server.url}/instruments/TH-HAND`)
  const check = page.getByRole('form', { name: 'Record a check' })
  await check.getByLabel('Reading').fill('0.1')
  await check.getByRole('button', { name: 'Record the check' }).focus()
  await page.keyboard.press('Enter')
  await page.getByText('Check recorded.').waitFor()
  await page.waitForTimeout(400)
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Check recorded.')
}, 60_000)

it('shows what has the focus beside the figures that stick to the top of the bench', async () => {
  const page = await opened({ width: 1024, height: 600 })
  await page.goto(`${server.url}/recipes/smoked-ring/edit`)
  await page.getByRole('status', { name: 'Figures of the recipe' }).waitFor()
  await page.locator('main input').nth(30).focus()
  for (let i = 0; i < 30; i++) {
    await page.keyboard.press('Shift+Tab')
    const under = await page.evaluate(() => {
      const at = document.activeElement!
      if (at.closest('.strip') || !at.closest('main')) return 0
      return document.querySelector('.strip')!.getBoundingClientRect().bottom - at.getBoundingClientRect().top
    })
    expect(under).toBeLessThanOrEqual(1)
  }
}, 60_000)

it('says in plain words what is not in the record, with where to look', async () => {
  const page = await opened({ width: 1024, height: 768 })
  for (const [path, head, link] of [
    ['/record/trace/lot/NOPE', 'No such lot', 'See the stock'],
    ['/batches/NOPE', 'No such batch', 'See all batches'],
  ] as const) {
    await page.goto(server.url + path)
    await page.getByRole('heading', { level: 1, name: head }).waitFor()
    await page.getByRole('link', { name: link }).waitFor()
    const said = await page.locator('main').innerText()
    expect(said).not.toMatch(/GET|\/api|Recall it/)
  }
})

it('has nothing under 44 px to hit on a phone, and its dates in sight', async () => {
  const page = await opened({ width: 390, height: 800 }, true)
  for (const path of [
    '/today',
    '/stock',
    '/batches',
    '/plan/orders',
    '/rules',
    '/curves/plan',
    '/batches/RING-0117/decide',
  ]) {
    await page.goto(server.url + path)
    await page.locator('main :is(h1, h2)').first().waitFor()
    await page.waitForTimeout(1200)
    const low = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('main :is(a, button, input, select, summary)')]
        .filter((e) => e.offsetParent !== null && !e.closest('.visually-hidden'))
        .map((e) => [(e.closest('label') ?? e).getBoundingClientRect().height, e.textContent] as const)
        .filter(([height]) => height > 0 && height < 43.5),
    )
    expect(low, path).toEqual([])
  }
  await page.goto(`${server.url}/plan/orders`)
  const due = await page.getByRole('columnheader', { name: 'Due' }).boundingBox()
  expect(due!.x + due!.width).toBeLessThanOrEqual(390)
}, 60_000)

it('prints on the paper and in the units of the screen', async () => {
  const page = await opened({ width: 1024, height: 768 })
  await page.goto(`${server.url}/batches/SLOW-1021`)
  await page.getByLabel('Units').selectOption('us')
  for (const name of ['Batch sheet', 'Drying record', 'Pork treatment record'])
    expect(await page.getByRole('link', { name: `${name} (Letter)` }).getAttribute('href')).toMatch(
      /\?size=Letter&units=us$/,
    )
})
