import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page
const errors: string[] = []

const openAll = () => page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)))

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await browser.newPage({ viewport: { width: 1280, height: 1000 } })
  page.setDefaultTimeout(10_000)
  page.on('pageerror', (e) => errors.push(e.message))
  await page.goto(`${server.url}/recipes/smoked-ring/edit`)
  await page.getByText('Where it may be sold').waitFor()
  // Panels within panels are made as the outer ones open.
  for (let i = 0; i < 3; i++) {
    await openAll()
    await page.waitForTimeout(200)
  }
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

type Tried = {
  readonly field: string
  readonly typed: string
  readonly shown: string
  readonly others: boolean
  readonly fault: string
  readonly live: boolean
}

/** Type a text into each figure of the bench in turn, leave it, note what the page says at it, and put back what was there. */
function tryAll(bad: readonly string[]): Promise<Tried[]> {
  return page.evaluate(async (texts) => {
    const form = document.querySelector('form[aria-label="Recipe bench"]')!
    const figures = () => [...form.querySelectorAll<HTMLInputElement>('.entry-number input')]
    const native = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!
    const label = (f: HTMLInputElement | undefined) => (f?.labels?.[0]?.textContent ?? '').trim()
    // A panel that asks a calculation says what it refuses within the panel.
    const faultsNear = (f: HTMLInputElement | undefined) =>
      [...(f?.closest('.panel-body, section')?.querySelectorAll('.fault') ?? [])].map((e) => e.textContent ?? '')
    const settle = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))
    const type = async (i: number, text: string) => {
      const at = figures()[i]!
      at.focus()
      native.set!.call(at, text)
      at.dispatchEvent(new Event('input', { bubbles: true }))
      await settle()
      figures()[i]?.blur()
      await settle()
    }
    const out: Tried[] = []
    const count = figures().length
    for (let i = 0; i < count; i++)
      for (const text of texts) {
        const before = figures().map((f) => f.value)
        const names = new Map(figures().map((f) => [label(f), f.value]))
        const stood = new Set(faultsNear(figures()[i]))
        await type(i, text)
        const now = figures()
        const at = now[i]
        const described = (at?.getAttribute('aria-describedby') ?? '')
          .split(' ')
          .map((id) => document.getElementById(id))
        const own = described.find((e) => e?.classList.contains('fault'))?.textContent ?? ''
        // A panel that asks a calculation says what it refuses within the panel.
        const near = faultsNear(at).filter((f) => !stood.has(f))
        out.push({
          field: label(at),
          typed: text,
          shown: at?.value ?? '(gone)',
          // Fields may come and go with the panel they belong to; what stands in them stays.
          others: now.every((f) => label(f) === label(at) || (names.get(label(f)) ?? f.value) === f.value),
          fault: own || near.join(' '),
          live: document.querySelector('[aria-label="On the bench"]') !== null,
        })
        await type(i, before[i]!)
      }
    return out
  }, bad)
}

describe('bad input in every figure of the recipe bench', () => {
  it.each([
    ['text', 'plenty'],
    ['a wrong unit', '3 furlongs'],
    ['below zero', '-4'],
    ['a million million', '1e12'],
  ])(
    '%s is named at the field, and nothing typed is lost',
    async (_what, text) => {
      const tried = await tryAll([text])
      expect(tried.length).toBeGreaterThan(40)
      for (const t of tried) {
        expect(t.shown.startsWith(text), `${t.field}: ${t.shown}`).toBe(true)
        expect(t.others, `${t.field} = ${t.typed} changed another field`).toBe(true)
        expect(t.live, t.field).toBe(true)
      }
      // Temperatures and added water may lie below zero.
      const allowed = text === '-4' ? /goes in at|to end at|Ice comes at|Added water|Core to reach/ : /^$/
      const silent = tried.filter((t) => t.fault === '' && !allowed.test(t.field)).map((t) => t.field)
      expect(silent).toEqual([])
    },
    120_000,
  )

  it.each([
    ['empty', ''],
    ['zero', '0'],
  ])(
    '%s is taken or named, and nothing else changes',
    async (_what, text) => {
      for (const t of await tryAll([text])) {
        expect(t.shown.startsWith(text), `${t.field}: ${t.shown}`).toBe(true)
        expect(t.others, `${t.field} = ${t.typed} changed another field`).toBe(true)
        expect(t.live, t.field).toBe(true)
      }
    },
    120_000,
  )

  it('a meat block over 100 % is named with its sum, and saves nothing', async () => {
    const first = page.getByLabel('Meat 1, % of meat')
    await first.fill('90')
    await page
      .getByText(/adds up to 120 %/)
      .first()
      .waitFor()
    await page.getByRole('button', { name: /^Save as version/ }).click()
    expect(await first.inputValue()).toBe('90')
    const { newest } = (await (await fetch(`${server.url}/api/recipes/smoked-ring`)).json()) as { newest: number }
    expect(newest).toBe(2)
  })

  it('never broke on the way', () => expect(errors).toEqual([]))
})
