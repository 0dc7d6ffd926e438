import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page
const errors: string[] = []

const shot = async (name: string): Promise<void> => {
  const folder = process.env['FORCEMEAT_SHOTS']
  if (folder) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true })
}
const zone = async (): Promise<unknown> =>
  ((await (await fetch(`${server.url}/api/kitchen`)).json()) as { kitchen: { timeZone?: string } }).kitchen.timeZone

beforeAll(async () => {
  server = await startServer({ demo: false })
  browser = await launch()
  page = await (await browser.newContext({ timezoneId: 'America/Chicago' })).newPage()
  page.setDefaultTimeout(10_000)
  page.on('pageerror', (e) => errors.push(e.message))
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

describe('where the days of a kitchen begin and end', () => {
  it('is the zone of the screen it is set up on, unless another is typed', async () => {
    await page.goto(server.url)
    const form = page.getByRole('form', { name: 'Set up this kitchen' })
    await form.getByLabel('Name of the kitchen').fill('Brackwater (invented)')
    expect(await form.getByLabel('Time zone').inputValue()).toBe('America/Chicago')
    await shot('first-run-zone')
    await form.getByRole('checkbox').first().check()
    await form.getByLabel('Your name').fill('Ana Brook')
    await form.getByLabel('Your short code').fill('ana')
    await form.getByRole('button', { name: 'Start the record' }).click()
    await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor()
    expect(await zone()).toBe('America/Chicago')
  })
  it('is changed among the people; a zone no clock knows is refused at its field', async () => {
    await page.goto(`${server.url}/people`)
    const form = page.getByRole('form', { name: 'Days of this kitchen' })
    await form.getByLabel('Time zone').fill('Mars/Base')
    await form.getByRole('button', { name: 'Set the zone' }).click()
    await form.getByText(/no time zone.*Europe\/London/).waitFor()
    await form.getByLabel('Time zone').fill('Pacific/Auckland')
    await form.getByRole('button', { name: 'Set the zone' }).click()
    await form.getByText(/told in Pacific\/Auckland/).waitFor()
    await shot('people-zone')
    expect(await zone()).toBe('Pacific/Auckland')
    expect(errors).toEqual([])
  })
})
