import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { seriousFaults } from '../support/axe.ts'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page
const errors: string[] = []
const HOUR = 3_600_000
const batch = 'SLOW-AIR'
const pictures = process.env['PICTURES'] ?? mkdtempSync(join(tmpdir(), 'chamber-feed-'))

const ask = async (method: string, path: string, body?: unknown) => {
  const answer = await fetch(server.url + path, {
    method,
    ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
  })
  const read: unknown = await answer.json()
  if (!answer.ok) throw new Error(`${method} ${path}: ${JSON.stringify(read)}`)
  return read
}
const open = (path: string) => page.goto(server.url + path)
const shot = (name: string) => page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true })
type Dry = { start: string; log: { day: number; tempC: number | null; rhPct: number | null }[] }
const dry = async () => (await ask('GET', `/api/batches/${batch}/dry`)) as Dry

const began = Date.now() - 8 * HOUR
const stamp = (ms: number): string => new Date(ms).toISOString()

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  page.on('pageerror', (e) => errors.push(e.message))
  const { versions } = (await ask('GET', '/api/recipes/slow-60')) as {
    versions: { body: { meat: { material: string }[] } }[]
  }
  await ask('POST', '/api/entries', {
    kind: 'batch.plan',
    by: 'tom',
    body: {
      batch,
      recipe: 'slow-60',
      version: 1,
      on: stamp(began).slice(0, 10),
      meatKg: 10,
      jurisdictions: ['US'],
      lines: versions[0]!.body.meat.map((m, i) => ({ line: `m${i}`, material: m.material, targetKg: 5 })),
    },
  })
  await ask('POST', '/api/entries', {
    kind: 'batch.measure',
    by: 'tom',
    body: { batch, step: 'dry', what: 'weight', unit: 'g', piece: 'P1', value: 800, taken: stamp(began) },
  })
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

describe('a chamber followed live', () => {
  it('with humidity alone shows it, and says that no degree-hours are counted', async () => {
    await ask(
      'POST',
      `/api/feed/${batch}/readings`,
      // Every ten minutes, seven seconds past the temperatures.
      Array.from({ length: 48 }, (_, i) => ({
        at: stamp(began + (i / 6) * HOUR + 7000),
        channel: 'humidity',
        rhPct: 92 - i / 10,
      })),
    )
    await open(`/curves/ferment/${batch}`)
    await page.getByLabel('Working here').selectOption('tom')
    await page.getByText(/^Humidity last read: 87\.3 % on/).waitFor()
    await page.getByText('so no degree-hours are counted').first().waitFor()
    await shot('ferment-humidity-alone')
  })

  it('shows temperature and humidity as they are posted, each on its own axis and in the table, with no hole in either', async () => {
    await ask(
      'POST',
      `/api/feed/${batch}/readings`,
      Array.from({ length: 31 }, (_, i) => ({
        at: stamp(began + 600_000 + i * 0.25 * HOUR),
        channel: 'chamber',
        tempC: 25.6,
      })),
    )
    await page.getByText(/h left at 25\.6 °C$/).waitFor()
    await page.getByText('Chamber as a table').click()
    await page.getByRole('columnheader', { name: 'Chamber, °C' }).waitFor()
    await page.getByRole('columnheader', { name: 'Humidity, % RH' }).waitFor()
    await shot('ferment-live')
    await page.getByLabel('Units').selectOption('us')
    await page.getByRole('columnheader', { name: 'Chamber, °F' }).waitFor()
    await page.getByRole('columnheader', { name: 'Humidity, % RH' }).waitFor()
    await page.getByLabel('Units').selectOption('metric')
    await expect(
      ask('POST', `/api/feed/${batch}/readings`, [{ minute: 1, channel: 'chamber', rhPct: 90 }]),
    ).rejects.toThrow(/are temperatures/)
  })

  it('takes a humidity typed by hand, and names rubbish', async () => {
    const form = page.getByRole('form', { name: 'Type a reading' })
    const keep = () => form.getByRole('button', { name: 'Keep the reading' }).click()
    await keep()
    await form.getByText('is empty, and so is the humidity; allowed').waitFor()
    await form.getByLabel('Humidity', { exact: true }).fill('wet')
    await keep()
    await form.getByText(/"wet"/).waitFor()
    await form.getByLabel('Humidity', { exact: true }).fill('140')
    await keep()
    await form.getByText(/is 140; allowed: .*at most 105/).waitFor()
    await form.getByLabel('Humidity', { exact: true }).fill('86')
    await form.getByLabel('Humidity kept as').fill('chamber')
    await keep()
    await form.getByText('are temperatures; allowed').waitFor()
    await form.getByLabel('Humidity kept as').fill('humidity')
    await keep()
    await form.getByText('Kept.').waitFor()
    await page.getByText(/^Humidity last read: 86 % on/).waitFor()
  })

  it('is counted in the drying while it comes in, and on the bench’s own list of what runs', async () => {
    const { log } = await dry()
    expect(log.length).toBeGreaterThan(7)
    expect(log.every((r) => r.rhPct !== null)).toBe(true)
    expect(log.slice(1, -1).every((r) => r.tempC === 25.6)).toBe(true)
    await open('/curves')
    await page.getByText(/\d+ readings, humidity 86 %/).waitFor()
  })

  it('leaves the page that fits a cook standing', async () => {
    await open(`/curves/live/${batch}`)
    await page.getByText(/\d+ readings since/).waitFor()
    await page.getByLabel('humidity is').waitFor()
    expect(await page.getByLabel('humidity is').inputValue()).toBe('humidity')
    await page.getByText('Readings as a table').click()
    await page.getByRole('columnheader', { name: 'humidity, % RH' }).waitFor()
    await page.getByRole('columnheader', { name: 'chamber, °C' }).waitFor()
    await shot('cook-live')
  })

  it('is closed into the record as files that say what each column is', async () => {
    const before = await dry()
    await open(`/curves/ferment/${batch}`)
    expect(await page.getByLabel('chamber is', { exact: true }).inputValue()).toBe('house')
    const form = page.getByRole('form', { name: 'Close the feed' })
    await form.getByLabel('Thermometer of chamber').selectOption({ index: 1 })
    await form.getByLabel('Hygrometer of humidity').waitFor()
    await shot('ferment-close')
    expect(await seriousFaults(page)).toEqual([])
    await form.getByRole('button', { name: 'Close into the record' }).click()
    await form.waitFor({ state: 'detached' })
    const record = (await ask('GET', `/api/batches/${batch}`)) as {
      curves: { seq: number; file: string; channels: object[] }[]
    }
    expect(record.curves.map((c) => c.channels)).toMatchObject([
      [{ column: 'humidity', role: 'humidity' }],
      [{ column: 'chamber', role: 'house' }],
    ])
    const text = await (await fetch(`${server.url}/api/files/${record.curves[0]!.file}`)).text()
    expect(text.split('\n').slice(0, 2)).toEqual(['Time;humidity', ';%RH'])
    const after = await dry()
    expect(after.log).toEqual(before.log)
    for (const { seq } of record.curves) {
      await open(`/curves/${batch}/${seq}`)
      await page.getByRole('link', { name: `fermentation of ${batch}` }).waitFor()
      await page.getByText('Readings as a table').click()
      await page.getByRole('columnheader', { name: /humidity, % RH|chamber, °C/ }).waitFor()
      await shot(`recorded-${seq}`)
    }
  })

  it('then stands in its drying, with the humidity drawn and reckoned with', async () => {
    await open(`/curves/dry/${batch}`)
    await page.getByRole('heading', { name: 'Air of the room' }).waitFor({ timeout: 20_000 })
    await page.getByText('Air as a table').click()
    const table = page.getByRole('table', { name: 'Air: readings of the plot' })
    await table.getByRole('columnheader', { name: 'Humidity, logged, % RH' }).waitFor()
    await page.getByText(/room’s log stands in for the plan to day/).waitFor()
    await shot('dry')
    expect(await seriousFaults(page)).toEqual([])
  })

  it('is read in the room that dries, too, and fits a 10-inch tablet', async () => {
    await page.getByText('Read the room as it goes').click()
    const form = page.getByRole('form', { name: 'Type a reading' })
    await form.getByLabel('Reading').fill('14')
    await form.getByLabel('Humidity', { exact: true }).fill('80')
    await form.getByRole('button', { name: 'Keep the reading' }).click()
    await form.getByText('Kept.').waitFor()
    const closing = page.getByRole('form', { name: 'Close the feed' })
    await closing.getByRole('button', { name: 'Close into the record' }).click()
    await closing
      .getByText(/has 1 reading, and a log begins with 2/)
      .first()
      .waitFor()
    await page.setViewportSize({ width: 800, height: 1280 })
    const wide = await page.evaluate(() => document.documentElement.scrollWidth)
    expect(wide).toBeLessThanOrEqual(800)
    await shot('dry-by-hand-upright')
  })

  it('never broke on the way', () => expect(errors).toEqual([]))
})
