import { readFileSync } from 'node:fs'
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
const by = 'ida'
const on = new Date().toISOString().slice(0, 10)
const record = async (drafts: object[]): Promise<void> => {
  const answer = await page.request.post(`${server.url}/api/entries`, { data: drafts })
  expect(answer.status(), await answer.text()).toBe(201)
}
const saved = (recipe: string, change: object) => ({
  kind: 'recipe.save',
  by,
  body: {
    recipe,
    version: 1,
    body: {
      name: recipe,
      kind: 'cooked',
      smoked: false,
      readyToEat: true,
      route: 'comminuted',
      meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
      additions: [{ material: 'salt', pct: 1.8 }],
      casing: { calibreMm: 32 },
      ...change,
    },
  },
})
const lines = [
  { line: 'meat', material: 'pork-shoulder-trim', lot: 'PORK-E2E', targetKg: 10 },
  { line: 'salt', material: 'salt', targetKg: 0.18 },
]
const planned = (batch: string, recipe: string) => ({
  kind: 'batch.plan',
  by,
  body: { batch, recipe, version: 1, on, meatKg: 10, jurisdictions: ['US'], lines },
})

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  const context = await browser.newContext({ viewport: sizes.desk })
  page = await context.newPage()
  page.setDefaultTimeout(15_000)
  page.on('pageerror', (e) => errors.push(e.message))
  await record([
    { kind: 'lot.receive', by, body: { lot: 'PORK-E2E', material: 'pork-shoulder-trim', kg: 60, on } },
    saved('smoked-plain', { smoked: true }),
    saved('dried-stick', { kind: 'dried' }),
    saved('raw-link', { kind: 'fresh', readyToEat: false }),
    planned('SMOKED-1', 'smoked-plain'),
    planned('SMOKED-2', 'smoked-plain'),
    planned('DRIED-1', 'dried-stick'),
    planned('RAW-1', 'raw-link'),
  ])
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
  expect(errors).toEqual([])
})

describe('cautions where the hand is', () => {
  const cases = [
    ['smoked-plain', 'SMOKED-1', 'Smoked without cure: not called safe'],
    ['dried-stick', 'DRIED-1', 'Raw pork, eaten as sold: how was it treated?'],
    ['raw-link', 'RAW-1', 'Raw: for whoever eats it to cook'],
  ] as const
  it('stand on the recipe, at the scale and at the plan of the cook, and on none that is due none', async () => {
    await open('/recipes')
    await page.getByLabel('Working here').selectOption(by)
    for (const [recipe, batch, title] of cases) {
      for (const path of [`/recipes/${recipe}`, `/batches/${batch}/weigh`, `/curves/plan?recipe=${recipe}`]) {
        await open(path)
        await page.locator('.caution', { hasText: title }).waitFor()
      }
      await open(`/batches/${batch}/weigh`)
      await page.locator('.caution', { hasText: title }).waitFor()
      await shot(`caution-weigh-${recipe}`)
      await open(`/recipes/${recipe}`)
      await page.locator('.caution', { hasText: title }).waitFor()
      await shot(`caution-recipe-${recipe}`)
    }
    await open('/curves/plan?recipe=smoked-plain')
    await page.locator('.caution', { hasText: 'Smoked without cure' }).waitFor()
    await page.getByText('Reckoning the first plan…').waitFor({ state: 'detached' })
    await shot('caution-cook-plan')
    expect(await seriousFaults(page)).toEqual([])
    await open('/recipes/smoked-ring')
    await page.getByRole('heading', { level: 1 }).waitFor()
    expect(await page.locator('.caution').count()).toBe(0)
  })

  it('lead from raw pork to the lots it asks about', async () => {
    await open('/batches/DRIED-1/weigh')
    await page.locator('.caution').getByRole('link', { name: 'PORK-E2E' }).click()
    await page.waitForURL(/\/stock\/PORK-E2E$/)
    await page
      .getByText(/treated|made safe/i)
      .first()
      .waitFor()
  })
})

describe('a log on the bench', () => {
  const slow = {
    name: 'slow.csv',
    mimeType: 'text/csv',
    // A line more at its end: the file as it is stands on a batch of the kitchen already.
    buffer: Buffer.concat([
      readFileSync(new URL('../../examples/logs/ring-0118-slow-chill.csv', import.meta.url)),
      Buffer.from('\n'),
    ]),
  }
  it('is judged in its chill before anybody says whether it is cured', async () => {
    await open('/curves')
    await page.getByLabel('Logger file').setInputFiles(slow)
    const facts = page.locator('dl.facts')
    await facts.getByText(/whether the product is cured is not said/).waitFor()
    expect(await page.getByText('would settle it', { exact: false }).count()).toBeGreaterThan(0)
    await shot('chill-both-ways')
    await page.getByLabel('Cure', { exact: true }).selectOption('none')
    await facts.getByText(/none of the \d options that apply is met/).waitFor()
  })

  it('that is on another batch is asked about, and both batches name the other', async () => {
    const attach = async (batch: string, note?: string) => {
      await open(`/curves?batch=${batch}`)
      await page.getByLabel('Logger file').setInputFiles(slow)
      const form = page.getByRole('form', { name: 'Attach to a batch' })
      await form.waitFor()
      if (note !== undefined) await form.getByLabel('Note').fill(note)
      await form.getByRole('button', { name: 'Attach to the batch' }).click()
    }
    await attach('SMOKED-1')
    await page.waitForURL(/\/batches\/SMOKED-1/)
    await attach('SMOKED-2')
    await page
      .getByText(/slow\.csv is the log of batch SMOKED-1 of/)
      .first()
      .waitFor()
    await shot('shared-log-asked')
    await page.getByRole('form', { name: 'Attach to a batch' }).getByLabel('Note').fill('One trolley with SMOKED-1.')
    await page.getByRole('button', { name: 'Attach to the batch' }).click()
    await page.waitForURL(/\/batches\/SMOKED-2/)
    for (const [batch, other] of [
      ['SMOKED-1', 'SMOKED-2'],
      ['SMOKED-2', 'SMOKED-1'],
    ] as const) {
      await open(`/batches/${batch}/curves`)
      await page.getByText(/The same file is on/).waitFor()
      await page.getByRole('link', { name: other, exact: true }).waitFor()
      await shot(`shared-log-${batch}`)
      await page.getByRole('link', { name: /slow\.csv/ }).click()
      await page.getByText(/The same file is on/).waitFor()
    }
    await shot('shared-log-curve')
    expect(await seriousFaults(page)).toEqual([])
  })
})
