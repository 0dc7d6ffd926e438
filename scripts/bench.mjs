#!/usr/bin/env node
// One JSON line a measure. `npm run bench`, or `npm run bench -- blend heat` for some of them.
import { spawnSync } from 'node:child_process'
import { ensureBuilt } from './run/build.mjs'
import { ensureInstalled, node, root } from './run/install.mjs'

ensureInstalled()
ensureBuilt()
const ended = spawnSync(node, ['--expose-gc', 'scripts/bench/main.ts', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
})
process.exit(ended.status ?? 1)
