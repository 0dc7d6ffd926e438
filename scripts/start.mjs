#!/usr/bin/env node
// Install what is missing, build what is stale, then serve. Arguments go to `forcemeat serve`.
import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { ensureBuilt } from './run/build.mjs'
import { ensureInstalled, node, root } from './run/install.mjs'

ensureInstalled()
ensureBuilt()
const server = spawn(node, [join(root, 'packages/cli/src/main.ts'), 'serve', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
})
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal))
server.on('exit', (code, signal) => process.exit(code ?? (signal ? 1 : 0)))
