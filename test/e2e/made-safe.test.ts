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

/** A centre that reaches −18.5 °C after ten hours and stays there: 106 h at −17.8 °C are asked for (former 9 CFR 318.10, Table 2). */
const centre = (hours: number): Buffer =>
  Buffer.from(
    [
      'time,Centre °C,Air °C',
      ...Array.from(
        { length: hours + 1 },
        (_, h) => `${new Date(Date.UTC(2026, 10, 1, h)).toISOString().slice(0, 19)}Z,${h < 10 ? -10 : -18.5},-24`,
      ),
    ].join('\n'),
  )

const day = (n: number): string => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10)

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await (await browser.newContext({ viewport: { width: 1024, height: 900 } })).newPage()
  page.setDefaultTimeout(10_000)
  page.on('pageerror', (e) => errors.push(e.message))
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

describe('a lot made safe for eating raw', () => {
  const region = () => page.getByRole('region', { name: 'Made safe for eating raw' })
  const form = () => page.getByRole('form', { name: 'How it was made safe' })
  const schedules = () => page.getByRole('region', { name: 'By the freezing schedules' })

  it('says that nothing is recorded, and refuses what is not filled in at its field', async () => {
    await page.goto(`${server.url}/stock/SH-1014`)
    await page.getByLabel('Working here').selectOption('ida')
    await region().getByText('Nothing is recorded', { exact: false }).waitFor()
    await region().getByText('Record how it was made safe').click()
    await schedules()
      .getByText(/fill in the fields/)
      .waitFor()
    await form().getByRole('button', { name: 'Record it' }).click()
    await expect.poll(() => form().locator('[aria-invalid="true"]').count()).toBeGreaterThanOrEqual(4)
    await shot('made-safe-empty')
  })

  it('shows what the schedule asks as it is typed, and records it', async () => {
    // A lot that has been here for 66 days.
    await page.goto(`${server.url}/stock/LN-0907`)
    await region().getByText('Record how it was made safe').click()
    const before = await region().getByRole('listitem').count()
    await form().getByLabel('Thickness of the meat').fill('150')
    await form().getByLabel('Warmest the room was').fill('-24')
    await form().getByLabel('Cold from').fill(day(-61))
    await form().getByLabel('Held until').fill(day(-57))
    await schedules().getByText('Fails').first().waitFor()
    await form().getByLabel('Held until').fill(day(-47))
    await schedules().getByText('Meets').first().waitFor()
    await shot('made-safe-room')
    await form().getByText('No thermometer is named', { exact: false }).waitFor()
    await form().getByLabel('At (24 h)').first().fill('25:00')
    await form().getByRole('button', { name: 'Record it' }).click()
    await form()
      .getByText(/allowed: a time from 00:00/)
      .waitFor()
    await form().getByLabel('At (24 h)').first().fill('8:00')
    await form().getByRole('button', { name: 'Record it' }).click()
    await expect.poll(() => region().getByRole('listitem').count(), { timeout: 10_000 }).toBe(before + 1)
    await schedules()
      .getByText(/fill in the fields/)
      .waitFor()
  })

  it('asks whether a thin block was measured so, and records it with the answer', async () => {
    await page.goto(`${server.url}/stock/LN-0907`)
    await region().getByText('Record how it was made safe').click()
    const before = await region().getByRole('listitem').count()
    await form().getByLabel('Thickness of the meat').fill('14')
    await form().getByLabel('Warmest the room was').fill('-24')
    await form().getByLabel('Cold from').fill(day(-61))
    await form().getByLabel('Held until').fill(day(-47))
    await form().getByText('14 mm is thin', { exact: false }).waitFor()
    await form().getByRole('button', { name: 'Record it' }).click()
    await form().getByText('14 mm is not confirmed', { exact: false }).waitFor()
    await shot('made-safe-thin')
    expect(await region().getByRole('listitem').count()).toBe(before)
    await form().getByLabel('It was measured: 14 mm').check()
    await form().getByRole('button', { name: 'Record it' }).click()
    await expect.poll(() => region().getByRole('listitem').count(), { timeout: 10_000 }).toBe(before + 1)
    await region().getByRole('listitem').getByText('measured so', { exact: false }).waitFor()
  })

  it('takes the log of a centre as a file, asks which column it is, and judges it', async () => {
    await page.goto(`${server.url}/stock/SH-1014`)
    await region().getByText('Record how it was made safe').click()
    await form().getByLabel('How', { exact: true }).selectOption('frozen-centre')
    await form()
      .getByLabel('Log of the centre')
      .setInputFiles({ name: 'short.csv', mimeType: 'text/csv', buffer: centre(60) })
    await form().getByLabel('Which column is the centre').selectOption('Centre °C')
    await schedules().getByText('Fails').first().waitFor()
    await form()
      .getByLabel('Log of the centre')
      .setInputFiles({ name: 'centre.csv', mimeType: 'text/csv', buffer: centre(130) })
    await form().getByLabel('Which column is the centre').selectOption('Centre °C')
    await schedules().getByText('Meets').first().waitFor()
    await shot('made-safe-centre')
    await form().getByRole('button', { name: 'Record it' }).click()
    await region().getByRole('listitem').getByText('centre.csv').first().waitFor()
    await schedules()
      .getByText(/fill in the fields/)
      .waitFor()
    await shot('made-safe-recorded')
  })

  it('asks for the unit and the beginning where the file says neither, and keeps the answers', async () => {
    const silent = Buffer.from(
      ['minute,Centre', ...Array.from({ length: 131 }, (_, h) => `${h * 60},${h < 10 ? 14 : -1.5}`)].join('\n'),
    )
    await page.goto(`${server.url}/stock/SH-1014`)
    await region().getByText('Record how it was made safe').click()
    await form().getByLabel('How', { exact: true }).selectOption('frozen-centre')
    await form()
      .getByLabel('Log of the centre')
      .setInputFiles({ name: 'silent.csv', mimeType: 'text/csv', buffer: silent })
    await form()
      .getByLabel(/No unit is given/)
      .selectOption('F')
    await form().getByLabel('First reading taken on').fill(day(-8))
    await form().getByLabel('At (24 h)').fill('08:00')
    await schedules().getByText('Meets').first().waitFor()
    await shot('made-safe-silent')
    await form().getByRole('button', { name: 'Record it' }).click()
    await region().getByRole('listitem').getByText('silent.csv').first().waitFor()
    const lot = (await (await fetch(`${server.url}/api/lots/SH-1014`)).json()) as {
      treatments: { fileName?: string; reading?: object; from?: string }[]
    }
    const kept = lot.treatments.find((t) => t.fileName === 'silent.csv')
    expect(kept).toMatchObject({ reading: { unit: 'F' } })
    expect(kept?.from?.slice(0, 10)).toBe(day(-8))
  })

  it('names a file that is no log, and never says that it records it', async () => {
    await page.goto(`${server.url}/stock/SH-1014`)
    await region().getByText('Record how it was made safe').click()
    await form().getByLabel('How', { exact: true }).selectOption('frozen-centre')
    await form()
      .getByLabel('Log of the centre')
      .setInputFiles({ name: 'note.txt', mimeType: 'text/plain', buffer: Buffer.from('hello') })
    await form().locator('.fault').first().waitFor()
    await form().getByRole('button', { name: 'Record it' }).click()
    expect(await form().getByText('Recorded.').count()).toBe(0)
    expect(errors).toEqual([])
  })
})
