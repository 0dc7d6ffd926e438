import type { Browser, Page } from 'playwright-core'
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

/** What has the focus: its role and its name. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement | null
    return at?.labels?.[0]?.textContent?.trim() ?? at?.getAttribute('aria-label') ?? at?.textContent?.trim() ?? ''
  })

/** Walk with the tab key until a thing of this name has the focus. */
async function tabTo(page: Page, name: RegExp, back = false): Promise<void> {
  for (let i = 0; i < 260; i++) {
    if (name.test(await focused(page))) return
    await page.keyboard.press(back ? 'Shift+Tab' : 'Tab')
  }
  throw new Error(`the tab key never came to ${String(name)}; it stands on ${await focused(page)}`)
}

async function type(page: Page, name: RegExp, text: string): Promise<void> {
  await tabTo(page, name)
  await page.keyboard.press('Control+A')
  await page.keyboard.type(text)
}

async function openPanel(page: Page, title: RegExp): Promise<void> {
  await tabTo(page, title)
  await page.keyboard.press('Enter')
}

describe.each([1280, 768])('the recipe bench by keyboard alone, %s px wide', (width) => {
  let page: Page
  const code = `key-${width}`
  beforeAll(async () => {
    page = await browser.newPage({ viewport: { width, height: 1000 } })
    page.setDefaultTimeout(10_000)
    page.on('pageerror', (e) => errors.push(e.message))
    await page.goto(`${server.url}/recipes/new`)
    await page.getByRole('heading', { name: 'New recipe' }).waitFor()
    await page.getByLabel('Working here').focus()
    await page.keyboard.type('Ida')
  })
  afterAll(() => page.close())

  it('writes a recipe', async () => {
    await type(page, /^Recipe code$/, code)
    await type(page, /^Name of the recipe$/, `Keyboard ring ${width}`)
    await tabTo(page, /^Kind$/)
    await page.keyboard.type('cooked')
    await tabTo(page, /^Smoked$/)
    await page.keyboard.press('Space')
    await type(page, /^Meat 1$/, 'Pork shoulder, lean and fat')
    await type(page, /^Meat 1, % of meat$/, '80')
    await type(page, /^Meat 2$/, 'Pork back fat')
    await type(page, /^Meat 2, % of meat$/, '20')
    await type(page, /^Addition 1, % of meat$/, '1.8')
    await type(page, /^Addition 2$/, 'Curing salt, 6.25 % sodium nitrite in salt')
    await type(page, /^Addition 2, % of meat$/, '0.24')
    for (const [n, name, pct] of [
      [3, 'Ice', '12'],
      [4, 'Black pepper', '0.3'],
    ] as const) {
      await tabTo(page, /^Add an addition$/)
      await page.keyboard.press('Enter')
      await tabTo(page, new RegExp(`^Addition ${n - 1}$`), true)
      await type(page, new RegExp(`^Addition ${n}$`), name)
      await type(page, new RegExp(`^Addition ${n}, % of meat$`), pct)
    }
    await type(page, /^At least, ppm$/, '120')
    await type(page, /^At most, ppm$/, '156')
    await type(page, /^Calibre$/, '34')
    await type(page, /^Weight of a link$/, '110')
    await type(page, /^Core to reach$/, '70')
    await type(page, /^Loss in the cook$/, '12')
    await page.getByText('150 ppm').first().waitFor()
  }, 120_000)

  it('follows every figure: casing, ice and cure headlines change with the link and the meat', async () => {
    await page.getByText(/for 103 links/).waitFor()
    await type(page, /^Weights for a meat block of$/, '20 kg')
    await page.getByText(/for 207 links/).waitFor()
  }, 60_000)

  it('settles size, cure, seasoning, ice, casing and cost in the panels', async () => {
    await openPanel(page, /^Size/)
    await tabTo(page, /^Make it to$/)
    await page.keyboard.type('a number')
    await type(page, /^Links$/, '300')
    await tabTo(page, /^Work at this size$/)
    await page.keyboard.press('Enter')
    await page.getByText(/for (299|300) links/).waitFor()
    await openPanel(page, /^Cure bench/)
    await tabTo(page, /^Take the cure's salt out/)
    await page.keyboard.press('Enter')
    expect(await page.getByLabel('Addition 1, % of meat').inputValue()).toMatch(/^1[.]57/)
    await page.getByText('Scale fits', { exact: true }).waitFor()
    await openPanel(page, /^Seasoning/)
    await openPanel(page, /^From an old recipe in spoons/)
    await type(page, /^Level spoons$/, '1')
    await type(page, /^Of$/, 'Curing salt, 6.25 % sodium nitrite in salt')
    await page.getByText('Not by spoon').waitFor()
    await page.getByText(/weighed, never spooned/).waitFor()
    await openPanel(page, /^Pre-mix for several batches/)
    await type(page, /^Batches of /, '10')
    await page.getByText(/Cure in salt, in a drum of its own/).waitFor()
    await openPanel(page, /^Ice/)
    await type(page, /^Work of the knives$/, '30')
    await page
      .getByText(/of the water as ice ends/)
      .first()
      .waitFor()
    await openPanel(page, /^Casing and links/)
    await type(page, /^Net weight of a pack$/, '440')
    await type(page, /^Links in a pack$/, '4')
    await page
      .getByText(/fill each link to 125 g/)
      .first()
      .waitFor()
    await openPanel(page, /^Cost/)
    await page.getByText(/What moves it most/).waitFor()
  }, 120_000)

  it('opens a figure that matters to its working', async () => {
    await tabTo(page, /ingoing nitrite/, true)
    await page.keyboard.press('Enter')
    await page.getByRole('columnheader', { name: 'How' }).first().waitFor()
  }, 60_000)

  it('gives the accessibility checker nothing serious to find, with every panel open', async () => {
    await page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)))
    await page.getByText('From the finished product back').waitFor()
    await page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)))
    await page.waitForTimeout(300)
    expect(await seriousFaults(page)).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0)
  }, 60_000)

  it('saves what was settled as the first version, and reads it back as text', async () => {
    await tabTo(page, /^Save as version 1$/)
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: `Keyboard ring ${width}` }).waitFor()
    const text = await (await fetch(`${server.url}/api/recipes/${code}/file?as=text`)).text()
    expect(text).toContain('addition: 0.24 % curing-salt-6.25-nitrite')
    expect(text).toMatch(/addition: 1\.57\d* % salt\n/)
    expect(text).toContain('casing: 34 mm; link 110 g')
  }, 60_000)

  it('never broke on the way', () => expect(errors).toEqual([]))
})
