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
let folder: string
const errors: string[] = []

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  page.setDefaultTimeout(10_000)
  page.on('pageerror', (e) => errors.push(e.message))
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-labels-'))
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
  rmSync(folder, { recursive: true, force: true })
})

const start = async (code: string, of: string, place: string) => {
  await page.goto(`${server.url}/labels`)
  await page.getByLabel('Working here').selectOption('nell')
  const form = page.getByRole('form', { name: 'Start a label' })
  await form.getByLabel('Label code').fill(code)
  await form.getByLabel('Of', { exact: true }).selectOption(of)
  await form.getByLabel('Sold in').selectOption(place)
  await form.getByRole('button', { name: 'Lay out the label' }).click()
  await page.getByRole('heading', { name: new RegExp(`Label ${code}`) }).waitFor()
}
const fill = async (fields: Record<string, string>) => {
  const form = page.getByRole('form', { name: 'The pack' })
  await page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)))
  for (const [label, value] of Object.entries(fields)) await form.getByLabel(label, { exact: true }).fill(value)
}
const choose = async (fields: Record<string, string>) => {
  const form = page.getByRole('form', { name: 'The pack' })
  for (const [label, value] of Object.entries(fields))
    await form.getByLabel(label, { exact: true }).selectOption({ label: value })
}
const proof = async () => {
  const answer = page.waitForResponse((r) => r.url().endsWith('/api/labels/proof'))
  await page.getByRole('button', { name: 'Make the proof' }).click()
  expect((await answer).status()).toBe(200)
}
/** A PDF, and what an independent reader makes of its bar code. */
const readOf = async (answer: Response, read: (png: string) => string) => {
  expect(answer.status, answer.ok ? '' : await answer.clone().text()).toBe(200)
  const file = join(folder, 'label.pdf')
  writeFileSync(file, new Uint8Array(await answer.arrayBuffer()))
  execFileSync('pdftoppm', ['-r', '300', '-png', '-singlefile', file, join(folder, 'label')])
  return {
    text: execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }),
    code: read(join(folder, 'label.png')),
  }
}
/** The approved label of a batch. */
const printed = async (path: string, read: (png: string) => string) => readOf(await fetch(server.url + path), read)
/** The label approved for a recipe, which prints for its batches only, as it was looked at on approval. */
const lookedAt = async (label: string, read: (png: string) => string) => {
  const { approvals } = (await (await fetch(`${server.url}/api/labels`)).json()) as {
    approvals: { label: string; place: string; recipe: string; version: number; pack: object }[]
  }
  const { place, recipe, version, pack } = approvals.find((a) => a.label === label)!
  const refused = await fetch(`${server.url}/paper/label/${label}.pdf?place=${place}`)
  expect([refused.status, await refused.text()]).toEqual([409, expect.stringContaining('the code of the batch')])
  const body = JSON.stringify({ label, place, recipe, version, pack })
  return readOf(await fetch(`${server.url}/api/labels/pdf`, { method: 'POST', body }), read)
}
const latin = { encoding: 'latin1' } as const
const zbar = (png: string) => execFileSync('zbarimg', ['-q', '--raw', png], latin).trimEnd()
const dmtx = (png: string) => execFileSync('dmtxread', ['-N1', '-m', '8000', png], latin).trimEnd()

const business = 'Tansy Lane Kitchen, Brindleholt'

describe('a label from the batch to the paper', () => {
  it('is made, stopped, settled and approved for the smoked ring in the United States', async () => {
    await start('RING-US', 'batch:RING-0117', 'US')
    await fill({ 'Name on the label': 'Smoked sausage', 'Net weight': '320', 'Business, name and address': business })
    await proof()
    await page.getByText('Cannot be approved yet').waitFor()
    await page.getByText('The serving of the nutrition panel is not given').waitFor()
    await page.getByText('Nobody says whether the casing can be eaten').waitFor()
    await fill({
      'Shelf life': '28',
      'What the shelf life rests on': 'storage trial, six batches',
      'At most': '4',
      Serving: '56',
      'Fat that runs off in cooking': '0',
      'Where the analysis is from': 'laboratory report 12',
      'Trans fat, analysed': '0.1',
      'Added sugars, analysed': '0.4',
      'Fibre, analysed': '0.1',
      'Cholesterol, analysed': '70',
      'Vitamin D, analysed': '0.4',
      'Calcium, analysed': '12',
      'Iron, analysed': '1.1',
      'Potassium, analysed': '280',
      'Lot code pattern': '{batch}',
      'Trade item number (GTIN)': '9506000134352',
      'Largest surface of the pack': '310',
      Width: '160',
      Height: '190',
      'Approval or establishment number': 'EST. 38',
    })
    await choose({
      Kept: 'chilled',
      'Highly perishable': 'yes',
      Casing: 'can be eaten',
      'Bar code': 'GS1-128',
      'Made in': 'an inspected or approved establishment',
    })
    await proof()
    const form = page.getByRole('form', { name: 'Approve the label' })
    await form.waitFor()
    // What rests on a figure nobody has read is answered for by the person who approves.
    for (const field of await form.getByLabel(/from memory, not read/).all())
      await field.fill('read in the regulation, edition of this year')
    // 22.4 kg went in and 17.9 kg were packed, which the record says to a tenth of a kilogram.
    await form
      .getByLabel(/official artwork/)
      .fill('printed into the room from the artwork approved for the establishment')
    await form.getByLabel(/20\.2 % less/).fill('2 kg of ends were eaten at the bench; the loss of the recipe holds')
    await form.getByLabel(/319\.6 g each/).fill('each pack was brought to 320 g or more on the checked scale')
    await form.getByLabel('What was checked').fill('proof read against the batch')
    await form.getByRole('button', { name: 'Approve the label' }).click()
    await page.getByText('This is the label as approved').waitFor()
    const { text, code } = await printed('/paper/label/RING-US.pdf?place=US&batch=RING-0117', zbar)
    expect(text).toContain('Net Wt 11.2 oz (320 g)')
    expect(text).toContain('Nutrition Facts')
    expect(text).toContain('EST. 38')
    expect(text).not.toContain('PROOF')
    expect(code).toMatch(/^01095060001343521\d{7}10RING-0117$/)
  }, 60_000)

  it('is made for the breakfast link in the European Union, and stops without the word of the supplier', async () => {
    await start('LINK-EU', 'recipe:lane-link', 'EU')
    await fill({
      'Name on the label': 'Pork breakfast sausages',
      'Net weight': '400',
      'Business, name and address': business,
      'Shelf life': '7',
      'What the shelf life rests on': 'storage trial, six batches',
      'At most': '4',
      'Lot code pattern': '{recipe}-{YY}{DDD}',
      'Trade item number (GTIN)': '9506000134352',
      Width: '120',
      Height: '110',
      'Approval or establishment number': '1234',
    })
    await choose({
      Kept: 'chilled',
      'Highly perishable': 'yes',
      Class: 'meat preparation',
      Casing: 'can be eaten',
      'Bar code': 'GS1 DataMatrix',
      'Made in': 'an inspected or approved establishment',
    })
    await fill({ 'Country of the establishment': 'IE' })
    await proof()
    await page.getByText('Cannot be approved yet').waitFor()
    const stops = page.locator('.findings').first()
    await stops.getByText(/Every ingredient has an allergen statement.*usk/).waitFor()
    await stops.getByText(/Nutrition table/).waitFor()
    await fill({
      "Suppliers' statements, one a line":
        'rusk | Millrace Dry Goods (invented) | wheat, gluten-cereal | specification R-9 | wheat flour, salt\npork-back-fat | | none | analysis 12 | | 1.5',
      'Own lines on handling, one a line': 'Cook through before eating.',
      'Where the analysis is from': 'laboratory report 12',
      'Carbohydrate, analysed': '8.9',
      'Sugars, analysed': '0.4',
      'Fibre, analysed': '0.7',
    })
    await proof()
    const form = page.getByRole('form', { name: 'Approve the label' })
    await form.waitFor()
    await form.getByLabel('What was checked').fill('proof read against the recipe')
    await form.getByRole('button', { name: 'Approve the label' }).click()
    await page.getByText('This is the label as approved').waitFor()
    const { text, code } = await lookedAt('LINK-EU', dmtx)
    expect(text).toMatch(/pork \(\d+ %\)/)
    expect(text).toMatch(/IE\s+(?:.*\n\s*)?1234\s+(?:.*\n\s*)?EU/)
    expect(text).toContain('400 g')
    const lot = /Lot (lane-link-\d{5})/.exec(text)![1]!
    expect(code.replaceAll(/[^\dA-Za-z-]/g, '')).toMatch(new RegExp(`^0109506000134352\\d{8}10${lot}$`))
  }, 60_000)

  it('shows field by field what has changed since, and prints no more until it is approved again', async () => {
    await fill({ 'Net weight': '380' })
    await proof()
    await page.getByText('What has changed since the label approved last').waitFor()
    await page.getByText('net weight', { exact: true }).waitFor()
    expect(await page.getByRole('link', { name: 'PDF, one' }).count()).toBe(0)
  })

  it('changes with a new specification of a supplier, which brings mustard, and is approved again by name in the record', async () => {
    await fill({
      'Net weight': '400',
      "Suppliers' statements, one a line":
        'rusk | Millrace Dry Goods (invented) | wheat, gluten-cereal, mustard | specification R-10 | wheat flour, salt, mustard flour\npork-back-fat | | none | analysis 12 | | 1.5',
    })
    await proof()
    const changes = page.locator('dl.facts').filter({ has: page.locator('del') })
    await changes.getByText('ingredients', { exact: true }).waitFor()
    expect(await changes.innerText()).toContain('MUSTARD flour')
    const form = page.getByRole('form', { name: 'Approve the label' })
    await form
      .getByLabel('mustard is new: the label approved last does not declare it')
      .fill('the labels of before are burnt')
    await form.getByLabel('What was checked').fill('specification R-10 against the proof')
    await form.getByRole('button', { name: 'Approve the label' }).click()
    await page.getByText('This is the label as approved').waitFor()
    await page.getByRole('link', { name: /^entry \d+$/ }).click()
    await page.getByRole('main').getByText('Nell Byre').first().waitFor()
    await page.getByRole('main').getByText('specification R-10 against the proof').first().waitFor()
    await page.goto(`${server.url}/labels`)
    await page.getByRole('link', { name: 'LINK-EU' }).first().waitFor()
    expect(errors).toEqual([])
  })

  it('is made in English and French for Canada, and stops for every text without a French word', async () => {
    await start('LINK-CA', 'recipe:lane-link', 'CA')
    await fill({
      'Name on the label': 'Pork sausage with rusk',
      'Net weight': '375',
      'Business, name and address': business,
      'Shelf life': '7',
      'What the shelf life rests on': 'storage trial, six batches',
      'At most': '4',
      Serving: '75',
      'Own lines on handling, one a line': 'Cook through before eating.',
      "Suppliers' statements, one a line":
        'rusk | Millrace Dry Goods (invented) | wheat, gluten-cereal | specification R-9 | wheat flour, salt\npork-back-fat | | none | analysis 12 | | 1.5',
      'Where the analysis is from': 'laboratory report 12',
      'Trans fat, analysed': '0.1',
      'Carbohydrate, analysed': '8.9',
      'Sugars, analysed': '0.4',
      'Fibre, analysed': '0.7',
      'Cholesterol, analysed': '70',
      'Calcium, analysed': '12',
      'Iron, analysed': '1.1',
      'Potassium, analysed': '280',
      'Lot code pattern': '{recipe}-{YY}{DDD}',
      'Trade item number (GTIN)': '9506000134352',
      'Largest surface of the pack': '210',
      Width: '150',
      Height: '140',
    })
    await choose({
      Kept: 'chilled',
      'Highly perishable': 'yes',
      Casing: 'can be eaten',
      'Bar code': 'EAN-13',
      Languages: 'one under another',
      'Made in': 'a kitchen that needs no mark',
    })
    await fill({ Exemption: 'sold in its own province only' })
    await proof()
    const stops = page.locator('.findings').first()
    await stops.getByText('French has no words for "Pork sausage with rusk" (name)').waitFor()
    await stops.getByText('French has no words for "Cook through before eating." (handling)').waitFor()
    await fill({
      'Name on the label in French': 'Saucisse de porc à la chapelure',
      '“Cook through before eating.” in French': 'Bien cuire avant de consommer.',
    })
    await proof()
    const form = page.getByRole('form', { name: 'Approve the label' })
    await form.waitFor()
    for (const field of await form
      .getByLabel(/from memory|nobody who reads French|claimed: sold in its own province/)
      .all())
      await field.fill('read by a person who reads French, with the regulation beside it')
    await form.getByLabel('What was checked').fill('proof read in both languages')
    await form.getByRole('button', { name: 'Approve the label' }).click()
    await page.getByText('This is the label as approved').waitFor()
    const { text, code } = await lookedAt('LINK-CA', zbar)
    expect(text).toContain('Valeur nutritive')
    expect(text).toMatch(/Ingrédients\s*: Porc/)
    expect(text).toMatch(/Contient\s*: Blé/)
    expect(text).toContain('Meilleur avant')
    expect(code).toBe('9506000134352')
    expect(errors).toEqual([])
  }, 60_000)
})
