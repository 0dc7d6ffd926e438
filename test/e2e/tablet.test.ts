import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let tablet: BrowserContext
let page: Page
const errors: string[] = []

const shot = async (name: string): Promise<void> => {
  const folder = process.env['FORCEMEAT_SHOTS']
  if (folder) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true })
}
const notes = async (words: string): Promise<string[]> => {
  const answer = await fetch(`${server.url}/api/entries?q=${encodeURIComponent(words)}&limit=100`)
  const { entries } = (await answer.json()) as { entries: { body: { note: string } }[] }
  return entries.map((e) => e.body.note)
}
/** Take something off the lot that is open. */
const take = async (kg: string, note: string): Promise<void> => {
  const form = page.getByRole('form', { name: /Adjust|count/i })
  await form
    .getByLabel(/^Change|^Weight|taken out/i)
    .first()
    .fill(kg)
  await form.getByLabel(/Note/).fill(note)
  await form.getByRole('button').first().click()
}

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  // A ten-inch tablet held upright.
  tablet = await browser.newContext({ viewport: { width: 810, height: 1080 }, hasTouch: true })
  page = await tablet.newPage()
  page.setDefaultTimeout(10_000)
  page.on('pageerror', (e) => errors.push(e.message))
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

/** A tablet that goes where the network does not reach. Steps build on one another. */
describe('a tablet without a line', () => {
  it('opens its pages anew and keeps three entries made over two reloads, then sends them in order, once', async () => {
    await page.goto(`${server.url}/stock/SH-1021`)
    await page.getByLabel('Working here').selectOption('ida')
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    // Everything the page shows has been read once since the worker took over.
    await expect
      .poll(() =>
        page.evaluate(async () => {
          const kept = await caches.open('record')
          return (await kept.keys()).map((k) => new URL(k.url).pathname)
        }),
      )
      .toEqual(expect.arrayContaining(['/api/kitchen', '/api/lots/SH-1021']))
    await tablet.setOffline(true)
    await take('-0.1', 'alone in the cold store 1')
    await page.getByText('One entry waits').waitFor()
    await page.reload()
    await page.getByText('One entry waits').waitFor()
    await page.getByText(/No line to the server/).waitFor()
    await take('-0.2', 'alone in the cold store 2')
    await page.getByText('2 entries wait').waitFor()
    await page.reload()
    await take('-0.3', 'alone in the cold store 3')
    await page.getByText('3 entries wait').waitFor()
    await page.getByText('What waits').click()
    await shot('tablet-offline')
    expect(await notes('alone in the cold store')).toEqual([])
    await tablet.setOffline(false)
    await page.getByText('entries wait').waitFor({ state: 'hidden' })
    await page.getByText(/No line to the server/).waitFor({ state: 'hidden' })
    expect(await notes('alone in the cold store')).toEqual([1, 2, 3].map((n) => `alone in the cold store ${n}`))
    await page.getByText('alone in the cold store 3').waitFor()
  }, 60_000)

  it('goes to a page it was on before, and says plainly where it has not been', async () => {
    await tablet.setOffline(true)
    await page.goto(`${server.url}/stock/SH-1021`)
    await page.getByText('alone in the cold store 3').waitFor()
    await page.goto(`${server.url}/batches/RING-0117`)
    await page
      .getByText(/the server does not answer/)
      .first()
      .waitFor()
    await tablet.setOffline(false)
  }, 60_000)

  it('keeps entries while the server is killed and started again, and records them once', async () => {
    await page.goto(`${server.url}/stock/SH-1021`)
    await page.getByRole('form', { name: /Adjust|count/i }).waitFor()
    const { folder } = server
    const port = Number(new URL(server.url).port)
    const ended = new Promise((resolve) => server.child.once('exit', resolve))
    server.child.kill('SIGKILL')
    await ended
    await take('-0.1', 'while it was down 1')
    await page.getByText('One entry waits').waitFor()
    await page.reload()
    await take('-0.2', 'while it was down 2')
    await page.getByText('2 entries wait').waitFor()
    server = await startServer({ demo: false, folder, port })
    await page.getByText('entries wait').waitFor({ state: 'hidden' })
    await expect.poll(() => notes('while it was down')).toEqual(['while it was down 1', 'while it was down 2'])
  }, 60_000)

  it('whose answer was lost on the way sends the entry again under its key: it is recorded once', async () => {
    const other = await browser.newContext({ serviceWorkers: 'block' })
    const alone = await other.newPage()
    alone.setDefaultTimeout(10_000)
    let lost = 0
    await alone.route('**/api/entries', async (route) => {
      if (lost > 0) return route.continue()
      lost += 1
      // It is recorded, and nobody hears of it.
      await route.fetch()
      await route.abort()
    })
    await alone.goto(`${server.url}/stock/SH-1021`)
    await alone.getByLabel('Working here').selectOption('ida')
    const form = alone.getByRole('form', { name: /Adjust|count/i })
    await form
      .getByLabel(/^Change|^Weight|taken out/i)
      .first()
      .fill('-0.1')
    await form.getByLabel(/Note/).fill('heard by nobody')
    await form.getByRole('button').first().click()
    await expect.poll(() => alone.evaluate(() => localStorage.getItem('unsent')), { timeout: 10_000 }).toBe('[]')
    expect(lost).toBe(1)
    expect(await notes('heard by nobody')).toEqual(['heard by nobody'])
    await other.close()
  }, 60_000)

  it('had no error on any page', () => {
    expect(errors).toEqual([])
  })
})
