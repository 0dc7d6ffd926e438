#!/usr/bin/env node
// What could lose an entry, tried: `npm run trials`, a line each. `-- --short` takes seconds instead of minutes.
import { spawnSync } from 'node:child_process'
import { ensureInstalled, node, root } from './run/install.mjs'

ensureInstalled()
const ended = spawnSync(node, ['scripts/ledger/trials/main.ts', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
})
process.exit(ended.status ?? 1)
