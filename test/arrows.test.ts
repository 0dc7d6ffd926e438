import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'

const script = fileURLToPath(new URL('../scripts/arrows.mjs', import.meta.url))
let tree: string

const put = (path: string, text: string) => {
  mkdirSync(dirname(join(tree, path)), { recursive: true })
  writeFileSync(join(tree, path), text)
}
const check = () => spawnSync(process.execPath, [script, tree], { encoding: 'utf8' })

beforeEach(() => {
  tree = mkdtempSync(join(tmpdir(), 'arrows-'))
  for (const room of ['craft', 'rulebook', 'ledger', 'server', 'web', 'cli'])
    put(`packages/${room}/src/index.ts`, 'export {}\n')
})
afterEach(() => rmSync(tree, { recursive: true, force: true }))

describe('the arrows between rooms', () => {
  it('pass where they all go one way', () => {
    put('packages/ledger/src/a.ts', "import { x } from '@forcemeat/craft/finding'\n")
    expect(check().status).toBe(0)
  })

  it('let a page name the types of what an address answers, and nothing else of the server', () => {
    put('packages/web/src/a.tsx', "import type { View } from '@forcemeat/server/slow/dry-view'\n")
    expect(check().status).toBe(0)
    put('packages/craft/src/a.ts', "import type { View } from '@forcemeat/server/slow/dry-view'\n")
    expect(check().status).toBe(1)
  })

  it.each([
    ['the core imports the rulebook', 'packages/craft/src/a.ts', "import { port } from '@forcemeat/rulebook/port'\n"],
    ['the core imports a file system', 'packages/craft/src/a.ts', "import { readFileSync } from 'node:fs'\n"],
    ['another file of the core reaches the port', 'packages/craft/src/a.ts', "import { port } from '#rules'\n"],
    ['the rulebook imports the ledger', 'packages/rulebook/src/a.ts', "import { x } from '@forcemeat/ledger'\n"],
    [
      'the rulebook loads the whole core',
      'packages/rulebook/src/a.ts',
      "import { calculations } from '@forcemeat/craft'\n",
    ],
    ['a page imports the server', 'packages/web/src/a.tsx', "import { x } from '@forcemeat/server'\n"],
    [
      'the ledger reaches the server by path',
      'packages/ledger/src/a.ts',
      "import { x } from '../../server/src/index.ts'\n",
    ],
    ['a dynamic import goes up', 'packages/craft/src/a.ts', "const x = await import('@forcemeat/server')\n"],
  ])('are refused where %s', (_title, path, text) => {
    put(path, text)
    const { status, stderr } = check()
    expect(stderr).toContain(path)
    expect(status).toBe(1)
  })
})
