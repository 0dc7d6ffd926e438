import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { seriousFaults } from '../support/axe.ts'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page
const errors: string[] = []

const sizes = { desk: { width: 1280, height: 900 }, tablet: { width: 768, height: 1024 } } as const
const open = (path: string) => page.goto(server.url + path)
const shot = async (name: string): Promise<void> => {
  const folder = process.env['FORCEMEAT_SHOTS']
  if (!folder) return
  for (const [size, viewport] of Object.entries(sizes)) {
    await page.setViewportSize(viewport)
    await page.screenshot({ path: `${folder}/${name}-${size}.png`, fullPage: true })
  }
  await page.setViewportSize(sizes.desk)
}
const after = (days: number): string => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10)
const csv = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) })

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  const context = await browser.newContext({ viewport: sizes.desk })
  page = await context.newPage()
  page.setDefaultTimeout(15_000)
  page.on('pageerror', (e) => errors.push(e.message))
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
  expect(errors).toEqual([])
})

/** Plan, rooms, orders and prices in a browser. Steps build on one another. */
describe('the plan', () => {
  it('takes orders from a file once its bad cell is corrected, and not twice', async () => {
    const head = 'order,customer,taken,due,product,weight\n'
    const rows = (product: string) =>
      `${head}O-900,Hill Farm Shop (invented),${after(0)},${after(5)},smoked-ring,6\nO-900,Hill Farm Shop (invented),${after(0)},${after(5)},${product},9\nO-901,Canteen (invented),${after(0)},${after(6)},lane-link,14\n`
    await open('/stock/import?kind=orders')
    await page.getByLabel('Working here').selectOption('ida')
    const file = page.getByLabel('File', { exact: true })
    await file.setInputFiles(csv('orders.csv', rows('Lane breakfast lnik')))
    await page.getByText(/E3 product/).waitFor()
    expect(await page.getByRole('alert').innerText()).toMatch(/no recipe of this kitchen/)
    await page.getByText(/1 of 3 rows can be recorded; 2 cannot/).waitFor()
    await shot('import-bad-cell')
    await file.setInputFiles(csv('orders.csv', rows('Lane breakfast link')))
    await page.getByText(/3 of 3 rows can be recorded, as 2 entries/).waitFor()
    await page.getByRole('button', { name: 'Record 3 rows' }).click()
    await page.getByText('2 recorded.').waitFor()
    await file.setInputFiles(csv('orders.csv', rows('Lane breakfast link')))
    await page.getByText(/0 of 3 rows can be recorded; 3 are in the record already/).waitFor()
    await open('/plan/orders')
    await page.getByRole('link', { name: 'O-901' }).waitFor()
    await shot('orders')
  }, 60_000)

  it('takes a price list from a file, its bad cell named', async () => {
    const rows = (price: string) =>
      `material;price per kg;from;supplier;pack;unit\nRusk;1.75;${after(0)};Millrace Dry Goods (invented);10 kg;sack\nNutmeg;${price};${after(0)};Millrace Dry Goods (invented);500 g;tub\n`
    await open('/stock/import?kind=prices')
    const file = page.getByLabel('File', { exact: true })
    await file.setInputFiles(csv('prices.csv', rows('twenty')))
    await page.getByText(/B3 price per kg/).waitFor()
    await file.setInputFiles(csv('prices.csv', rows('23.50')))
    await page.getByRole('button', { name: 'Record 2 rows' }).click()
    await page.getByText('2 recorded.').waitFor()
    await open('/plan/prices')
    await page.getByRole('row', { name: /Nutmeg.*23\.50.*in force/ }).waitFor()
    await shot('prices')
  }, 60_000)

  it('shows batches by day with their lots, orders, loads and what to buy, and plans one of them', async () => {
    await open('/plan')
    await page.getByRole('heading', { name: 'Batches by day' }).waitFor({ timeout: 30_000 })
    const orders = page.getByRole('region', { name: 'Order lines' })
    await orders.getByRole('row', { name: /O-901/ }).waitFor()
    await page.getByRole('region', { name: 'How full the days are' }).getByText(/Mixer/).waitFor()
    await shot('plan')
    expect(await seriousFaults(page)).toEqual([])
    await page
      .getByRole('listitem')
      .filter({ hasText: 'Lane breakfast link' })
      .getByRole('link', { name: 'Plan this batch' })
      .first()
      .click()
    await page.getByRole('heading', { name: 'Plan a batch' }).waitFor()
    const meat = page.getByLabel('Weight of the meat block')
    await meat.waitFor()
    expect(await meat.inputValue()).toMatch(/^\d+\.\d+ kg$/)
    expect(await page.getByLabel('Made on').inputValue()).toMatch(/^\d{4}-\d\d-\d\d$/)
    await page.getByLabel('Batch code').fill('LINK-900')
    await page.getByRole('button', { name: 'Plan the batch', exact: true }).click()
    await page.waitForURL(/LINK-900\/weigh/)
    await open('/plan')
    await page
      .getByRole('region', { name: 'Already under way' })
      .getByRole('link', { name: 'LINK-900' })
      .waitFor({ timeout: 30_000 })
  }, 90_000)

  it('adds a room with named faults, hangs a batch there, and Today shows it', async () => {
    await open('/plan/rooms')
    const form = page.getByRole('form', { name: 'Add a room' })
    await form.getByLabel('Name').fill('Cellar')
    await form.getByLabel('Code').fill('CELLAR')
    await form.getByLabel('Set temperature').fill('13')
    await form.getByLabel('Set humidity').fill('178')
    await form.getByLabel('Air through its coil').fill('60')
    await form.getByRole('button', { name: 'Add a room' }).click()
    await form.getByText(/is empty; allowed: a number in °C/).waitFor()
    await form.getByLabel('Air as it leaves the coil').fill('7')
    await form.getByRole('button', { name: 'Add a room' }).click()
    await form.getByText(/178/).waitFor()
    await form.getByLabel('Set humidity').fill('78')
    await form.getByRole('button', { name: 'Add a room' }).click()
    await page.getByRole('link', { name: 'Cellar' }).click()
    await page.getByRole('heading', { name: 'Cellar' }).waitFor()
    const hang = page.getByRole('form', { name: 'Hang or take out' })
    await hang.getByLabel('Batch').selectOption('SLOW-1021')
    await hang.getByRole('button', { name: 'Hang it here' }).click()
    const batches = page.getByRole('region', { name: 'Batches of the room' })
    await batches.getByRole('row', { name: /SLOW-1021.*hangs there/ }).waitFor()
    await page.getByRole('img', { name: /Water the batches give off/ }).waitFor()
    await shot('room')
    expect(await seriousFaults(page)).toEqual([])
    await open('/today')
    const slow = page.getByRole('region', { name: 'Drying and fermenting' })
    await slow.getByText(/in Cellar since/).waitFor({ timeout: 30_000 })
    await slow
      .getByText(/Likely ready/)
      .first()
      .waitFor()
    await page.getByRole('region', { name: 'In the rooms' }).getByText('SLOW-1021').waitFor()
    await shot('today')
    expect(await seriousFaults(page)).toEqual([])
  }, 90_000)

  it('gives a planned batch its turn in the drying room, and leaves it out when told', async () => {
    const planned = await page.request.post(`${server.url}/api/entries`, {
      data: {
        kind: 'batch.plan',
        by: 'ida',
        body: {
          batch: 'SLOW-900',
          recipe: 'slow-60',
          version: 1,
          on: after(1),
          meatKg: 40,
          jurisdictions: ['US'],
          lines: [
            { line: 'lean', material: 'pork-leg-lean', targetKg: 32 },
            { line: 'fat', material: 'pork-back-fat', targetKg: 8 },
            { line: 'salt', material: 'salt', targetKg: 1.1 },
          ],
        },
      },
    })
    expect(planned.status(), await planned.text()).toBe(201)
    await open('/plan/rooms/DRY-1')
    const batches = page.getByRole('region', { name: 'Batches of the room' })
    await batches.getByRole('row', { name: /SLOW-900/ }).waitFor()
    await page.getByText('The water by the day').click()
    await shot('room-turns')
    await page.getByRole('button', { name: 'Leave SLOW-900 out' }).click()
    await page.getByRole('button', { name: 'Put SLOW-900 back' }).click()
    await batches.getByRole('row', { name: /SLOW-900/ }).waitFor()
  }, 60_000)

  it('takes a batch out again, and closes an order', async () => {
    await open('/plan/rooms/CELLAR')
    const hang = page.getByRole('form', { name: 'Hang or take out' })
    await hang.getByLabel('What is done').selectOption('out')
    await hang.getByLabel('Batch').selectOption('SLOW-1021')
    await hang.getByRole('button', { name: 'Take it out' }).click()
    await page
      .getByText('Nothing hangs here, and no batch')
      .or(page.getByText(/could go in|fits on the day/).first())
      .first()
      .waitFor()
    await open('/plan/orders/O-901')
    const close = page.getByRole('form', { name: 'Close the order' })
    await close.getByRole('button', { name: 'Close the order' }).click()
    await page.getByText(/due delivered/).waitFor()
  }, 60_000)
})

describe('the pages of the plan', () => {
  const paths = ['', '/orders', '/orders/O-501', '/rooms', '/rooms/DRY-1', '/prices', '/resources'].map(
    (p) => `/plan${p}`,
  )
  it.each([320, 768])(
    'reflow at %i px, and no link or button is lower than 24 px (WCAG 2.2, 1.4.10 and 2.5.8)',
    async (width) => {
      await page.setViewportSize({ width, height: 800 })
      const wrong: string[] = []
      for (const path of paths) {
        await open(path)
        await page.locator('main h1').first().waitFor()
        await page.locator('main .loading').first().waitFor({ state: 'detached', timeout: 30_000 })
        wrong.push(
          ...(await page.evaluate((at) => {
            const over = document.documentElement.scrollWidth - document.documentElement.clientWidth
            const low = [...document.querySelectorAll('main :is(a, button, summary)')]
              .map((e) => ({ text: e.textContent.slice(0, 30), height: e.getBoundingClientRect().height }))
              .filter(({ height }) => height > 0 && height < 24)
            return [
              ...(over > 0 ? [`${at}: ${over} px wide`] : []),
              ...low.map((l) => `${at}: ${l.text} ${l.height} px`),
            ]
          }, path)),
        )
      }
      await page.setViewportSize(sizes.desk)
      expect(wrong).toEqual([])
    },
    90_000,
  )
})

describe('a kitchen without orders', () => {
  it('says how to begin', async () => {
    const empty = await startServer({ demo: false })
    try {
      await page.request.post(`${empty.url}/api/entries`, {
        data: [
          { kind: 'person.add', by: 'ada', body: { person: 'ada', name: 'Ada', role: 'owner' } },
          { kind: 'kitchen.set', by: 'ada', body: { name: 'Bare', jurisdictions: ['EU'], units: 'metric' } },
        ],
      })
      await page.goto(`${empty.url}/plan`)
      await page.getByText('No order is open, so there is nothing to plan.').waitFor()
      await shot('plan-empty')
      for (const [path, text] of [
        ['orders', 'No order is open. Take the first one below'],
        ['rooms', 'No room yet.'],
        ['prices', 'No price yet.'],
        ['resources', 'None yet. Without one'],
      ] as const) {
        await page.goto(`${empty.url}/plan/${path}`)
        await page.getByText(text).first().waitFor()
      }
    } finally {
      await empty.stop()
    }
  }, 60_000)
})
