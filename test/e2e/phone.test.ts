import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page

const pages = [
  '/',
  '/batches',
  '/batches/RING-0118',
  '/batches/RING-0118/decide',
  '/stock/BF-1004',
  '/instruments',
  '/instruments/SC-BENCH',
  '/record',
  '/record/recall/lot/BF-1004',
  '/record/trace/lot/BF-1004',
  '/record/charts',
]

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  const phone = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true })
  page = await phone.newPage()
  page.setDefaultTimeout(10_000)
}, 60_000)
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

/** What of the page is too low for a thumb, though it stands in no line of text, and what is cut off where nothing scrolls. */
const seen = () =>
  page.evaluate(() => {
    const alone = (e: Element): boolean =>
      getComputedStyle(e).display !== 'inline' ||
      ![...e.parentElement!.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent!.trim() !== '')
    const scrolls = (e: Element): boolean => {
      for (let x = e.parentElement; x && x.tagName !== 'MAIN'; x = x.parentElement)
        if (/auto|scroll/.test(getComputedStyle(x).overflowX)) return true
      return false
    }
    const shown = (e: Element): boolean => e.getBoundingClientRect().height > 1
    return {
      wide: document.documentElement.scrollWidth,
      low: [...document.querySelectorAll('main :is(a, button, summary)')]
        .filter((e) => shown(e) && alone(e) && e.getBoundingClientRect().height < 43.5)
        .map((e) => `${e.tagName} ${e.textContent.slice(0, 30)} ${e.getBoundingClientRect().height}`),
      cut: [...document.querySelectorAll('main :is(table, svg)')]
        .filter((e) => e.getBoundingClientRect().right > 391 && !scrolls(e))
        .map((e) => `${e.tagName} ${e.textContent.slice(0, 30)}`),
    }
  })

describe('on a phone 390 px wide', () => {
  for (const at of pages)
    it(`${at} never scrolls sideways as a whole, and what stands alone to be hit is 44 px high`, async () => {
      await page.goto(server.url + at)
      await page.locator('main h1').first().waitFor()
      await page.waitForLoadState('networkidle').catch(() => undefined)
      expect(await seen()).toEqual({ wide: 390, low: [], cut: [] })
    })

  it('a table wider than the screen has a shade at the edge behind which there is more, and scrolls to its last column', async () => {
    await page.goto(`${server.url}/record/recall/lot/BF-1004`)
    const sheet = page.getByRole('region', { name: /Consignments/ })
    await sheet.waitFor()
    const { wide, room, shade } = await sheet.evaluate((e) => ({
      wide: e.scrollWidth,
      room: e.clientWidth,
      shade: getComputedStyle(e).backgroundAttachment,
    }))
    expect(wide).toBeGreaterThan(room)
    expect(shade).toContain('scroll')
    await sheet.evaluate((e) => e.scrollTo({ left: 9999 }))
    expect(await sheet.evaluate((e) => e.scrollLeft)).toBe(wide - room)
  })
})
