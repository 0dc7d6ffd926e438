import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page
const errors: string[] = []
const day = (n: number): string => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10)

type Batch = {
  verdict: string
  weighings: { seq: number; line: string; kg: number; lot?: string; instrument?: string }[]
  curves: { seq: number }[]
  lines: { line: string; material: string }[]
}
const read = async <T>(path: string): Promise<T> => (await fetch(server.url + path)).json() as Promise<T>
const record = async (draft: object): Promise<void> => {
  const answer = await fetch(`${server.url}/api/entries`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(draft),
  })
  expect(answer.status, await answer.clone().text()).toBe(201)
}
const open = async (path: string) => {
  await page.goto(server.url + path)
}

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  page.setDefaultTimeout(10_000)
  page.on('pageerror', (e) => errors.push(e.message))
  await open('/today')
  await page.getByLabel('Working here').selectOption('nell')
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

describe('a batch from its plan on', () => {
  it('is planned from no lot past its date, and a lot chosen by its code says what is wrong with it', async () => {
    const salt = { material: 'salt', kg: 5, on: day(-20) }
    await record({ kind: 'lot.receive', by: 'nell', body: { ...salt, lot: 'SA-OLD', useBy: day(-2) } })
    // So many lots that they are searched rather than read down.
    for (let i = 0; i < 13; i++)
      await record({ kind: 'lot.receive', by: 'nell', body: { ...salt, lot: `SA-N${i}`, useBy: day(30 + i) } })
    await open('/batches/plan?recipe=smoked-ring')
    const form = page.getByRole('form', { name: 'Plan a batch' })
    const lot = form.getByLabel('Lot of Salt, refined')
    await lot.waitFor()
    expect(await lot.inputValue()).toBe('SA-N0')
    await lot.fill('SA-OLD')
    await form.getByText(/was good until/).waitFor()
    await form.getByLabel('Batch code').fill('RING-0300')
    await page.getByRole('button', { name: 'Plan the batch' }).click()
    await form.getByText(/or a note on the plan/).waitFor()
    await lot.fill('SA-N0')
    await page.getByRole('button', { name: 'Plan the batch' }).click()
    await page.getByRole('heading', { name: /RING-0300/ }).waitFor()
  })

  it('speaks of scales in the units of the screen, in one phrase', async () => {
    await page.getByLabel('Units').selectOption('us')
    await open('/batches/plan?recipe=smoked-ring')
    await page
      .getByText(/± [\d.]+ oz on this scale, ± [\d.]+ oz allowed/)
      .first()
      .waitFor()
    expect(await page.getByText(/± [\d.]+ g allowed/).count()).toBe(0)
    await page.getByLabel('Units').selectOption('metric')
  })

  it('lists its recorded curves, and names the batch the next file goes to', async () => {
    const { curves } = await read<Batch>('/api/batches/RING-0117')
    await open('/batches/RING-0117/curves')
    await page.getByRole('link', { name: /Cook and chill:/ }).waitFor()
    await page.getByRole('link', { name: /to RING-0117/ }).waitFor()
    await open('/batches/RING-0117')
    await page.getByRole('link', { name: /Cook and chill:/ }).click()
    await page.waitForURL(`**/curves/RING-0117/${curves[0]!.seq}`)
    await open('/curves?batch=RING-0117')
    await page.getByText(/goes to batch RING-0117/).waitFor()
  })

  it('prints what was weighed on its sheet, and leaves room where nothing is yet', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'forcemeat-sheet-'))
    const answer = await fetch(`${server.url}/paper/batch-sheet/RING-0117.pdf`)
    writeFileSync(join(folder, 's.pdf'), Buffer.from(await answer.arrayBuffer()))
    const text = execFileSync('pdftotext', ['-layout', join(folder, 's.pdf'), '-'], { encoding: 'utf8' })
    rmSync(folder, { recursive: true, force: true })
    expect(text).toContain('46.9 g')
    expect(text).toMatch(/Tom Fell/)
  })
})

describe('a batch that is out, and is found wrong', () => {
  it('keeps advice apart from limits while it passes', async () => {
    await open('/batches/RING-0117')
    await page.getByText('Meets every limit').waitFor()
    expect(await page.getByText(/\d+ fail/).count()).toBe(0)
  })

  it('is shown before all else on its page, in the list and on Today once a corrected weight makes it fail', async () => {
    const { weighings, lines } = await read<Batch>('/api/batches/RING-0117')
    const cure = lines.find((l) => l.material.startsWith('curing-salt'))!
    const { seq, line, kg, lot, instrument } = weighings.find((w) => w.line === cure.line)!
    await record({
      kind: 'batch.pack',
      by: 'nell',
      body: { batch: 'RING-0117', pack: 'P-T', count: 9, totalKg: 0.9, on: day(0) },
    })
    await record({
      kind: 'batch.weigh',
      by: 'nell',
      corrects: seq,
      why: 'the slip says another weight',
      body: {
        batch: 'RING-0117',
        line,
        kg: kg * 3,
        ...(lot ? { lot } : {}),
        ...(instrument ? { instrument } : {}),
        note: 'slip',
      },
    })
    await open('/batches/RING-0117')
    const alert = page.getByRole('alert').filter({ hasText: 'stands in doubt' })
    await alert.getByText(/Ingoing nitrite.*fails/).waitFor()
    await open('/batches')
    await page.getByRole('row', { name: /RING-0117.*in doubt/ }).waitFor()
    await open('/today')
    const first = page.getByRole('main').getByRole('region').first()
    await first.getByRole('link', { name: 'RING-0117' }).waitFor()
  })

  it('sends nothing out without a note, and says why', async () => {
    await open('/batches/RING-0117/packs')
    await page
      .getByText(/Send out P-T/)
      .first()
      .click()
    const form = page.getByRole('form', { name: 'Send out P-T' })
    await form.getByLabel('Sent to').fill('Mill Inn')
    await form.getByLabel('How many packs').fill('2')
    await form.getByRole('button', { name: /Send out P-T/ }).click()
    await form
      .getByText(/stands in doubt/)
      .first()
      .waitFor()
    await form.getByLabel('Note on sending').fill('back to us, to be destroyed')
    await form.getByRole('button', { name: /Send out P-T/ }).click()
    await page.getByRole('cell', { name: /Mill Inn/ }).waitFor()
  })
})

describe('every page', () => {
  const ofBatch = ['', '/weigh', '/measures', '/curves', '/decide', '/packs', '/history'].map(
    (p) => `/batches/RING-0117${p}`,
  )
  const paths = [
    '/today',
    '/stock',
    '/stock/receive',
    '/stock/SH-1014',
    '/recipes',
    '/recipes/new',
    '/recipes/smoked-ring',
    '/recipes/smoked-ring/edit',
    '/batches',
    '/batches/plan?recipe=smoked-ring',
    ...ofBatch,
    '/curves',
    '/curves/plan',
    '/record',
    '/record/1',
    '/record/trace',
    '/record/trace/lot/SH-1014',
    '/record/recall',
    '/record/deviations',
    '/instruments',
    '/people',
    '/rules',
    '/reference',
    '/reference/cure.amount',
  ]
  it.each([320, 768])(
    'reflows at %i px with nothing to scroll sideways (WCAG 2.2, 1.4.10)',
    async (width) => {
      const narrow = await browser.newPage({ viewport: { width, height: 800 } })
      const wide: string[] = []
      for (const path of paths) {
        await narrow.goto(server.url + path)
        await narrow.locator('main h1').first().waitFor()
        const over = await narrow.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        )
        if (over > 0) wide.push(`${path}: ${over} px`)
      }
      await narrow.close()
      expect(wide).toEqual([])
    },
    60_000,
  )

  it('has no link or button lower than 24 px (WCAG 2.2, 2.5.8)', async () => {
    const low: string[] = []
    for (const path of paths) {
      await open(path)
      await page.locator('main h1').first().waitFor()
      const found = await page.evaluate(() =>
        [...document.querySelectorAll('main :is(a, button, summary)')]
          .map((e) => ({ text: e.textContent.slice(0, 30), height: e.getBoundingClientRect().height }))
          .filter(({ height }) => height > 0 && height < 24),
      )
      low.push(...found.map((f) => `${path}: ${f.text} ${f.height}`))
    }
    expect(low).toEqual([])
  }, 60_000)

  it('says plainly that there is no such entry, no such page', async () => {
    await open('/record/zzz')
    await page.getByRole('heading', { name: 'There is no such entry' }).waitFor()
    await open('/zzz')
    await page.getByRole('heading', { name: 'There is no such page' }).waitFor()
  })

  it('never broke on the way', () => expect(errors).toEqual([]))
})
