import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launch } from '../support/browser.ts'
import { startServer, type RunningServer } from '../support/server.ts'

let server: RunningServer
let browser: Browser
let page: Page
const errors: string[] = []

const newPage = async (): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } })
  const made = await context.newPage()
  made.setDefaultTimeout(10_000)
  made.on('pageerror', (e) => errors.push(e.message))
  return made
}
const open = (path: string, on = page) => on.goto(server.url + path)
const shot = async (name: string): Promise<void> => {
  const folder = process.env['FORCEMEAT_SHOTS']
  if (folder) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true })
}

beforeAll(async () => {
  server = await startServer({ demo: true })
  browser = await launch()
  page = await newPage()
}, 60_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

/** The record at work, in a browser. Steps build on one another. */
describe('the record', () => {
  it('recalls a lot: who has it, what is accounted for, the drill with its time', async () => {
    await open('/record/recall')
    await page.getByLabel('Working here').selectOption('ida')
    await page.getByLabel('Code').fill('SH-1014')
    await page.getByRole('button', { name: 'Find everything it is in' }).click()
    await page.getByRole('heading', { name: 'Recall: lot SH-1014' }).waitFor()
    await page.getByText(/48 have left/).waitFor()
    await page.getByRole('region', { name: 'Customers who have it' }).getByText('Corner shop').waitFor()
    const form = page.getByRole('form', { name: 'Record the drill' })
    await form.getByLabel('Code of the drill').fill('DRILL-1')
    await form.getByRole('button', { name: 'Stop and record' }).click()
    await page.getByText('Recorded, with the time it took.').waitFor()
    await shot('recall')
    await open('/record/recall')
    await page.getByRole('link', { name: 'DRILL-1' }).waitFor()
  })

  it('keeps a deviation open on Today until it is acted on and closed', async () => {
    await open('/record/deviations/new?type=batch&id=RING-0118&what=chilled+too+slowly')
    const form = page.getByRole('form', { name: 'Open a deviation' })
    await form.getByLabel('Code', { exact: true }).fill('D-1')
    await form.getByRole('button', { name: 'Open it' }).click()
    await page.getByRole('region', { name: 'Deviations' }).getByText('open').waitFor()
    await open('/today')
    await page.getByRole('link', { name: 'D-1' }).click()
    const close = page.getByRole('form', { name: 'Close it' })
    await close.getByLabel('What shows that it is dealt with').fill('next batch chilled in time')
    await close.getByRole('button', { name: 'Close the deviation' }).click()
    await close.getByText(/nobody has said: product, cause, prevention/).waitFor()
    const act = page.getByRole('form', { name: 'What was done' })
    await act.getByLabel('With the product').fill('destroyed')
    await act.getByLabel('Cause').fill('chiller door left open')
    await act.getByLabel('So that it does not come again').fill('door alarm')
    await act.getByRole('button', { name: 'Record what was done' }).click()
    await page.getByText('chiller door left open').first().waitFor()
    await page.getByLabel('What the photograph shows').fill('the door')
    await page
      .getByLabel('Photograph', { exact: true })
      .setInputFiles({ name: 'door.png', mimeType: 'image/png', buffer: await page.screenshot() })
    const picture = page.getByRole('img', { name: 'the door' })
    await picture.waitFor()
    await expect.poll(() => picture.evaluate((i: HTMLImageElement) => i.naturalWidth)).toBe(1280)
    await close.getByRole('button', { name: 'Close the deviation' }).click()
    await page
      .getByText(/next batch chilled in time/)
      .first()
      .waitFor()
    await shot('deviation')
  })

  it('casts doubt back on batches when an instrument is found wrong, until each is dealt with', async () => {
    await open('/instruments/TH-HAND')
    const check = page.getByRole('form', { name: 'Record a check' })
    await check.getByLabel('Reading').fill('1.4')
    await check.getByRole('button', { name: 'Record the check' }).click()
    await page.getByRole('heading', { name: 'Batches it touched while it may have been wrong' }).waitFor()
    await page.getByRole('img', { name: /Error of hand probe at 2 checks/ }).waitFor()
    await shot('doubt')
    const deal = page.getByRole('form', { name: 'Deal with batch RING-0117' })
    await deal.getByLabel(/^Its readings/).selectOption('stands')
    await deal.getByLabel(/^Why/).fill('read high; the logger’s own probe is in date')
    await deal.getByRole('button', { name: /Record it/ }).click()
    await page.getByText(/Its readings stand/).waitFor()
    await open('/today')
    const doubts = page.getByRole('region', { name: 'Batches an instrument has put in doubt' })
    expect(await doubts.innerText()).toContain('RING-0118')
    expect(await doubts.innerText()).not.toContain('RING-0117')
    await shot('today')
  })

  it('shows two browsers at one batch each other’s entries within a second', async () => {
    const other = await newPage()
    await open('/stock/SH-1021', other)
    await other.getByLabel('Working here').selectOption('tom')
    await open('/stock/SH-1021')
    const here = page.getByRole('region', { name: /Movements of lot/ }).getByRole('row')
    await here.nth(1).waitFor()
    const before = await here.count()
    const begun = performance.now()
    const answer = await other.request.post(`${server.url}/api/entries`, {
      data: {
        kind: 'lot.adjust',
        by: 'tom',
        body: { lot: 'SH-1021', kg: -0.5, reason: 'waste', on: new Date().toISOString().slice(0, 10), note: 'dropped' },
      },
    })
    expect(answer.status()).toBe(201)
    await page.getByText('dropped').waitFor()
    expect(performance.now() - begun).toBeLessThan(1000)
    expect(await here.count()).toBe(before + 1)
    await other.context().close()
  })

  it('keeps entries on a tablet that loses its line, and sends them when it is back: in order, once', async () => {
    await open('/stock/SH-1021')
    const form = page.getByRole('form', { name: /Adjust|count/i })
    const lost = (url: URL) => url.pathname === '/api/entries'
    await page.route(lost, (route) => route.abort())
    const take = async (kg: string, note: string): Promise<void> => {
      await form
        .getByLabel(/^Change|^Weight|taken out/i)
        .first()
        .fill(kg)
      await form.getByLabel(/Note/).fill(note)
      await form.getByRole('button').first().click()
    }
    await take('-0.1', 'first while alone')
    await page.getByText('One entry waits').waitFor()
    await take('-0.2', 'second while alone')
    await page.getByText('2 entries wait').waitFor()
    await page.reload()
    await page.getByText('2 entries wait').waitFor()
    await page.unroute(lost)
    await page.getByText('second while alone').waitFor()
    await page.getByText('entries wait').waitFor({ state: 'hidden' })
    const { entries } = (await (await page.request.get(`${server.url}/api/entries?q=while+alone`)).json()) as {
      entries: { body: { note: string } }[]
    }
    expect(entries.map((e) => e.body.note)).toEqual(['first while alone', 'second while alone'])
  })

  it('counts, moves and splits a lot, and takes rework that carries its allergens', async () => {
    await open('/stock/SH-1014')
    await page.getByText('Count it').click()
    const count = page.getByRole('form', { name: 'Count this lot' })
    await count.getByLabel('Counted', { exact: true }).fill('31.5 kg')
    await count.getByRole('button').click()
    await count.getByText(/is empty/).waitFor()
    await count.getByLabel('What explains the difference').fill('drip')
    await count.getByRole('button').click()
    await page.getByText('(drip)').waitFor()
    await page.getByText('Move it to another place').click()
    const move = page.getByRole('form', { name: 'Move this lot' })
    await move.getByLabel('To').fill('freezer 2')
    await move.getByRole('button').click()
    await page.locator('dd', { hasText: 'freezer 2' }).waitFor()
    await page.getByText('Take a part off as a lot of its own').click()
    const split = page.getByRole('form', { name: 'Take a part off' })
    await split.getByLabel('Code of the part').fill('SH-1014-B')
    await split.getByLabel('Weight of the part').fill('10 kg')
    await split.getByRole('button').click()
    await page.getByText('into SH-1014-B').waitFor()
    await shot('lot')
    await open('/stock/rework?batch=RING-0117')
    const rework = page.getByRole('form', { name: 'Take rework' })
    await rework.getByText('mustard').waitFor()
    await rework.getByLabel('Code of the new lot').fill('RW-0117')
    await rework.getByLabel('It counts as').fill('Pork shoulder, lean and fat')
    await rework.getByLabel('Weight', { exact: true }).fill('1.2 kg')
    await shot('rework')
    await rework.getByRole('button', { name: 'Record it as a lot' }).click()
    await page.getByRole('link', { name: 'RW-0117' }).click()
    await page.getByText('rework of batch').waitFor()
    await open('/record/recall/lot/SH-1014')
    await page.getByRole('region', { name: 'Lots affected' }).getByText('RW-0117').waitFor()
  })

  it('takes customers from a file: bad cells by name, the good rows recorded', async () => {
    await open('/stock/import')
    await page.getByLabel('What it holds').selectOption('businesses')
    const csv =
      'code,name,as,address\nCS,"Corner shop, Brindleholt (invented)",customer,"2 Low Lane, Brindleholt"\nX 1,Bad,friend,\n'
    await page
      .getByLabel('File')
      .setInputFiles({ name: 'customers.csv', mimeType: 'text/csv', buffer: Buffer.from(csv) })
    await page.getByText('C3 as').waitFor()
    await shot('import')
    await page.getByRole('button', { name: 'Record 1 row' }).click()
    await page.getByText('1 recorded.').waitFor()
    await open('/record/recall/lot/SH-1014')
    await page.getByText('2 Low Lane, Brindleholt').waitFor()
  })

  it('charts a recipe over its batches and drafts its hazard plan', async () => {
    await open('/record/charts')
    await page.getByLabel('Recipe').selectOption({ label: 'Brindle smoked ring' })
    await page.getByRole('img', { name: /Minutes until the core reached its target over 2 batches/ }).waitFor()
    await page
      .getByRole('region', { name: 'Packed, of what was weighed in' })
      .getByText(/No limit is recorded for this figure/)
      .waitFor()
    await shot('charts')
    const own = page.getByRole('form', { name: 'Own limits of yield and links' })
    await own.getByLabel('Least packed, of what was weighed in').fill('80')
    await own.getByLabel('Lightest mean weight of a link').fill('110 g')
    await own.getByLabel('Heaviest mean weight of a link').fill('100 g')
    await own.getByLabel('Why these').fill('what we have held for years')
    await own.getByRole('button', { name: 'Set these limits' }).click()
    await own.getByText('is under the lightest', { exact: false }).waitFor()
    await own.getByLabel('Heaviest mean weight of a link').fill('120 g')
    await own.getByRole('button', { name: 'Set these limits' }).click()
    const kitchen = async () =>
      (
        (await (await fetch(`${server.url}/api/kitchen`)).json()) as {
          kitchen: { ownLimits?: { byRecipe?: object[] } }
        }
      ).kitchen.ownLimits?.byRecipe
    await expect
      .poll(kitchen)
      .toEqual([{ recipe: expect.any(String) as string, yieldMinPct: 80, linkMinG: 110, linkMaxG: 120 }])
    await page
      .getByRole('region', { name: 'Packed, of what was weighed in' })
      .getByText(/Whether it keeps within its limit/)
      .waitFor()
    await shot('charts-own')
    await open('/record/hazard-plan')
    await page.getByLabel('Recipe').selectOption({ label: 'Brindle smoked ring' })
    await page.getByRole('heading', { name: /Cooking: Salmonella/ }).waitFor()
    await page.getByText('until then it is no plan').waitFor()
    await shot('hazard-plan')
    const paper = await page.request.get(`${server.url}/paper/hazard-plan/smoked-ring.pdf`)
    expect([paper.status(), paper.headers()['content-type']]).toEqual([200, 'application/pdf'])
  })

  it('completes and signs the hazard plan; a later process shows as changed since', async () => {
    await open('/record/hazard-plan')
    await page.getByLabel('Recipe').selectOption({ label: 'Brindle smoked ring' })
    const form = page.getByRole('form', { name: 'Complete and sign the plan' })
    await form.getByRole('button', { name: 'Sign this plan' }).click()
    await form
      .getByText(/is empty/)
      .first()
      .waitFor()
    for (const field of await form.getByRole('textbox').all()) await field.fill('as written in the kitchen book')
    await form.getByLabel('Name of who signs').fill('Ida Marrow')
    await form.getByLabel('Qualified by').fill('hazard plan course of three days, 2025')
    await form.getByRole('button', { name: 'Sign this plan' }).click()
    await page.getByText('The plan is still as it was signed.').waitFor()
    const href = await page.getByRole('link', { name: 'Print the signed copy' }).getAttribute('href')
    const paper = await page.request.get(server.url + href!)
    expect([paper.status(), paper.headers()['content-type']]).toEqual([200, 'application/pdf'])
    const { versions, newest } = (await (await page.request.get(`${server.url}/api/recipes/smoked-ring`)).json()) as {
      newest: number
      versions: { version: number; body: { cook: { targetCoreC: number } } }[]
    }
    const { body } = versions.find((v) => v.version === newest)!
    const saved = await page.request.post(`${server.url}/api/entries`, {
      data: {
        kind: 'recipe.save',
        by: 'ida',
        body: {
          recipe: 'smoked-ring',
          version: newest + 1,
          body: { ...body, cook: { ...body.cook, targetCoreC: body.cook.targetCoreC + 2 } },
        },
      },
    })
    expect(saved.status()).toBe(201)
    await page.getByText('The plan has changed since it was signed.', { exact: false }).waitFor()
    await page.getByRole('region', { name: 'Changes since the signed copy' }).getByText('Cooking').waitFor()
    await shot('hazard-plan-signed')
  }, 30_000)

  it('prints the record of anything from its own page', async () => {
    for (const [path, of] of [
      ['/stock/SH-1014', 'lot SH-1014'],
      ['/instruments/TH-HAND', 'instrument TH-HAND'],
      ['/record/deviations/D-1', 'deviation D-1'],
      ['/record/trace/pack/P-0117-A', 'pack P-0117-A'],
      ['/batches/RING-0117/history', 'batch RING-0117'],
    ] as const) {
      await open(path)
      const link = page.getByRole('link', { name: `Print the record of ${of}` })
      const paper = await page.request.get(server.url + (await link.getAttribute('href'))!)
      expect([paper.status(), paper.headers()['content-type']], path).toEqual([200, 'application/pdf'])
      await page.getByRole('heading', { name: 'Photographs' }).waitFor()
    }
    await open('/record')
    await page.getByLabel('Kind of entry').selectOption('lot.receive')
    const list = await page.getByRole('link', { name: 'Print these entries' }).getAttribute('href')
    expect(list).toBe('/paper/entries.pdf?kind=lot.receive&size=A4&units=metric')
  }, 30_000)

  it('judges meat at the door by the law and the kitchen’s own limit, and a check by the plate of its scale', async () => {
    await open('/people')
    const limits = page.getByRole('form', { name: 'Limits of this kitchen' })
    await limits.getByLabel('Warmest chilled meat may come in').fill('4')
    await limits.getByLabel('Why these').fill('what our cold rooms hold')
    await limits.getByRole('button', { name: 'Set the limits' }).click()
    await page.getByText('No copies are made by the clock', { exact: false }).waitFor()
    await page.getByRole('button', { name: 'Copy the record now' }).click()
    const copies = page.getByRole('region', { name: 'Copies of the record' })
    await copies.getByText(/Tried out .* restored into a scratch record.* No feed of readings was open\./).waitFor()
    const fed = await page.request.post(`${server.url}/api/feed/RING-0119/readings`, {
      data: [{ minute: 0, channel: 'core', tempC: 20 }],
    })
    expect(fed.status()).toBe(201)
    await copies.getByRole('button', { name: 'Copy the record now' }).click()
    await copies.getByText('Copied with it: the open feed of RING-0119.', { exact: false }).waitFor()
    await open('/instruments/TH-HAND')
    const check = page.getByRole('form', { name: 'Record a check' })
    await check.getByLabel('Reading').fill('0.1')
    await check.getByText('Within').waitFor()
    await check.getByRole('button', { name: 'Record the check' }).click()
    await page.getByText('Check recorded.').waitFor()
    await open('/stock/receive')
    const form = page.getByRole('form', { name: 'Receive a lot' })
    await form.getByLabel('Material').fill('Pork shoulder, lean and fat')
    await form.getByLabel('Temperature on arrival').fill('9')
    await form.getByLabel('Temperature read on').selectOption('TH-HAND')
    const cold = page.getByRole('region', { name: 'Cold enough on arrival' })
    await cold.getByRole('link', { name: 'Arrival of meat: at most 7 °C' }).first().waitFor()
    await cold.getByRole('link', { name: "Arrival of chilled meat: the kitchen's own limit" }).waitFor()
    await cold.getByText(/Meat that came in too warm/).waitFor()
    await shot('receive')
    await open('/instruments/new')
    const add = page.getByRole('form', { name: 'Add an instrument' })
    await add.getByLabel('Name').fill('counter scale')
    await add.getByLabel('Code').fill('SC-CLASS')
    await add.getByLabel('Smallest step it shows').fill('5')
    await add.getByLabel('Accuracy class').selectOption('III')
    await add.getByLabel('Verification interval e').fill('5')
    await add.getByRole('button', { name: 'Add the instrument' }).click()
    await page.getByRole('link', { name: 'counter scale' }).click()
    await page.getByLabel('Reference').fill('5000')
    await expect.poll(() => page.getByLabel('Largest error allowed').inputValue()).toBe('10')
    await page.getByText('How these are worked out').click()
    await shot('check')
  }, 30_000)

  it('signs people in as themselves, and hands a tablet over in two taps', async () => {
    await open('/people')
    const secret = page.getByRole('form', { name: 'Set a passphrase or a PIN' })
    const set = async (who: string, which: string, text: string): Promise<void> => {
      await secret.getByLabel('Of', { exact: true }).selectOption(who)
      await secret.getByLabel('Which').selectOption(which)
      await secret.getByLabel(/^New/).fill(text)
      await secret.getByLabel('The same again').fill(text)
      await secret.getByRole('button').first().click()
    }
    await set('tom', 'pin', '4719')
    await page.getByText('The PIN is set.').waitFor()
    await set('ida', 'passphrase', 'nine links upon a rod')
    await page.getByRole('heading', { name: 'Forcemeat' }).waitFor()
    await page.getByLabel('Your code in this kitchen').fill('ida')
    await page.getByLabel('Your passphrase').fill('nine links upon a rod')
    await page.getByRole('button', { name: 'Sign in' }).click()
    await page.getByRole('button', { name: /Ida Marrow/ }).click()
    await page.getByRole('button', { name: 'Tom Fell' }).click()
    await page.getByLabel('PIN of Tom Fell').fill('4719')
    await shot('hand-over')
    await page.getByRole('button', { name: 'Take over' }).click()
    await page.getByRole('button', { name: /Tom Fell \(maker, by PIN\)/ }).waitFor()
    const refused = await page.request.post(`${server.url}/api/backup`)
    expect(refused.status()).toBe(403)
    await open('/people')
    await shot('people')
  })

  it('had no error on any page', () => {
    expect(errors).toEqual([])
  })
})
