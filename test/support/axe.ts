import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

type Violation = {
  readonly id: string
  readonly impact: string
  readonly help: string
  readonly nodes: readonly { readonly target: unknown; readonly failureSummary: string }[]
}

/** What the accessibility checker finds serious or critical on the page as it stands, one line a place. */
export async function seriousFaults(page: Page): Promise<string[]> {
  // The page's policy lets no foreign script in; the checker is run as the debugger's own.
  await page.evaluate(source)
  const found = await page.evaluate(
    async () =>
      (
        await (window as unknown as { axe: { run: (where: Document) => Promise<{ violations: unknown[] }> } }).axe.run(
          document,
        )
      ).violations,
  )
  return (found as Violation[])
    .filter((v) => v.impact === 'serious' || v.impact === 'critical')
    .flatMap((v) => v.nodes.map((n) => `${v.id}: ${v.help} at ${String(n.target)}: ${n.failureSummary}`))
}
