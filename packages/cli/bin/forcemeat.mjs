#!/usr/bin/env node
// Runs the command line from its TypeScript source, on the Node the lock file pins where this one is older.
const oldest = 24

if (Number(process.versions.node.split('.')[0]) >= oldest) {
  await import('../src/main.ts')
} else {
  const { spawn } = await import('node:child_process')
  const { existsSync } = await import('node:fs')
  const { fileURLToPath } = await import('node:url')
  const pinned = fileURLToPath(new URL('../../../node_modules/.bin/node', import.meta.url))
  if (!existsSync(pinned)) {
    console.error(
      `forcemeat: this is Node ${process.versions.node}; Node ${oldest} or newer is needed. Run "npm ci" in the checkout: it installs the one the project pins.`,
    )
    process.exit(4)
  }
  const main = fileURLToPath(new URL('../src/main.ts', import.meta.url))
  const child = spawn(pinned, [main, ...process.argv.slice(2)], { stdio: 'inherit' })
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP']
  for (const signal of signals) process.on(signal, () => child.kill(signal))
  child.on('exit', (code, signal) => {
    for (const s of signals) process.removeAllListeners(s)
    if (signal) process.kill(process.pid, signal)
    else process.exitCode = code ?? 70
  })
}
