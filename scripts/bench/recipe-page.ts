// The recipe bench in a real browser: from a figure typed to the page showing what it comes to.
import { launch } from '../../test/support/browser.ts'
import { startServer } from '../../test/support/server.ts'
import { report, summary } from './measure.ts'

const RUNS = 60

/** Type figures into the first share and wait each time for the page to have changed. Runs in the page. */
async function typeAndWait(runs: number): Promise<number[]> {
  const field = [...document.querySelectorAll<HTMLInputElement>('input')].find((i) =>
    /% of (the )?meat/i.test(i.labels?.[0]?.textContent ?? ''),
  )
  if (!field) throw new Error('no field for a share of the meat block')
  const times: number[] = []
  for (let i = 0; i < runs; i++) {
    const changed = new Promise<void>((resolve) => {
      const watch = new MutationObserver(() => {
        watch.disconnect()
        resolve()
      })
      watch.observe(document.querySelector('main')!, { subtree: true, childList: true, characterData: true })
    })
    const begun = performance.now()
    field.value = i % 2 === 0 ? '70.01' : '70'
    field.dispatchEvent(new Event('input', { bubbles: true }))
    await changed
    // Layout counts: the page has to be ready to paint.
    void document.body.offsetHeight
    times.push(performance.now() - begun)
    await new Promise((resolve) => requestAnimationFrame(resolve))
  }
  return times
}

export async function run(): Promise<void> {
  const server = await startServer({ demo: true })
  const browser = await launch()
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
    await page.goto(`${server.url}/recipes/smoked-ring/edit`)
    await page.getByText('Where it may be sold').waitFor()
    // A twelfth material, and every headline of the bench at work: the solver has come, the blend follows.
    await page.getByRole('button', { name: 'Add an addition' }).click()
    await page.getByLabel('Addition 9', { exact: true }).fill('Coriander seed')
    await page.getByLabel('Addition 9, % of meat').fill('0.1')
    await page.getByText('from the lots in stock, fat').waitFor()
    await page.evaluate(typeAndWait, 20)
    report({
      measure:
        'recipe of 12 materials: blend, cure, salt, ice, casing, cost and findings recomputed and shown, Chromium',
      unit: 'ms',
      limit: 16,
      ...summary(await page.evaluate(typeAndWait, RUNS)),
    })
  } finally {
    await browser.close()
    await server.stop()
  }
}
