import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let tablet: BrowserContext
/** The page Ida works on, and a second tab of the same browser. */
let page: Page
let tab: Page
const errors: string[] = []
const people = {
  ida: 'ida counts every ring twice',
  nell: 'nell keeps the cold store shut',
  tom: 'tom ties two knots a link',
}
type Person = keyof typeof people

const post = (from: Page, path: string, body: object): Promise<number> =>
  from.evaluate(
    async ([to, text]) => {
      const headers = { 'content-type': 'application/json' }
      return (await fetch(to, { method: 'POST', headers, body: text })).status
    },
    [path, JSON.stringify(body)] as const,
  )
const signIn = async (from: Page, person: Person): Promise<void> => {
  expect(await post(from, '/api/sign-in', { person, passphrase: people[person] })).toBe(200)
}
/** Notes of the record with who they stand under. */
const notes = async (words: string): Promise<string[]> =>
  tab.evaluate(async (q) => {
    const answer = await fetch(`/api/entries?q=${encodeURIComponent(q)}&limit=100`)
    const { entries } = (await answer.json()) as { entries: { by: string; body: { note: string } }[] }
    return entries.map((e) => `${e.by}: ${e.body.note}`)
  }, words)
const take = async (from: Page, kg: string, note: string): Promise<void> => {
  const form = from.getByRole('form', { name: /Adjust|count/i })
  await form
    .getByLabel(/^Change|^Weight|taken out/i)
    .first()
    .fill(kg)
  await form.getByLabel(/Note/).fill(note)
  await form.getByRole('button').first().click()
}
/** The open page hears nothing of the server; the browser's other tabs do. */
const cut = async (): Promise<void> => {
  await page.route('**/api/**', (route) => route.abort())
}
const mend = (): Promise<void> => page.unroute('**/api/**')

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  tablet = await browser.newContext({ serviceWorkers: 'block' })
  page = await tablet.newPage()
  tab = await tablet.newPage()
  for (const p of [page, tab]) {
    p.setDefaultTimeout(15_000)
    p.on('pageerror', (e) => errors.push(e.message))
  }
  // A page of the server that sends nothing by itself.
  await tab.goto(`${server.url}/sign-in`)
  for (const person of ['ida', 'nell', 'tom'] as const) {
    expect(await post(tab, `/api/people/${person}/passphrase`, { passphrase: people[person] })).toBe(200)
    await signIn(tab, 'ida')
  }
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

/** Steps build on one another. */
describe('a browser handed over in a second tab while entries wait', () => {
  it('keeps what Ida made until Ida is back: nothing goes under another name, nothing is refused', async () => {
    await page.goto(`${server.url}/stock/SH-1021`)
    await page.getByRole('button', { name: /Working here: Ida/ }).waitFor()
    await cut()
    await take(page, '-0.1', 'made by the first 1')
    await page.getByText('One entry waits').waitFor()
    await take(page, '-0.2', 'made by the first 2')
    await page.getByText('2 entries wait').waitFor()
    await signIn(tab, 'nell')
    await mend()
    await page.getByText(/2 entries made on this screen wait for Ida.* to sign in/).waitFor()
    await page.getByRole('button', { name: /Working here: Nell/ }).waitFor()
    expect(await page.getByRole('button', { name: /let it go/ }).count()).toBe(0)
    expect(await notes('made by the first')).toEqual([])
  }, 60_000)

  it('lets another one work meanwhile', async () => {
    await signIn(tab, 'tom')
    await page.getByRole('button', { name: /Working here: Tom/ }).waitFor()
    await take(page, '-0.1', 'made by the second')
    await expect.poll(() => notes('made by the second')).toEqual(['tom: made by the second'])
    await page.getByText(/2 entries made on this screen wait for Ida/).waitFor()
  }, 60_000)

  it('sends them in order, once, when Ida has signed in again', async () => {
    await signIn(tab, 'ida')
    await page.getByText(/wait for Ida/).waitFor({ state: 'hidden' })
    await expect
      .poll(() => notes('made by the first'), { timeout: 10_000 })
      .toEqual(['ida: made by the first 1', 'ida: made by the first 2'])
    expect(await page.evaluate(() => localStorage.getItem('unsent'))).toBe('[]')
  }, 60_000)

  it('had no error on any page', () => {
    expect(errors).toEqual([])
  })
})
