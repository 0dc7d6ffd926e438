#!/usr/bin/env node
// Everything: types, lint, format, arrows, unit tests, and the workbench in a real browser. Ends with `N passed, N failed`.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ensureBuilt } from './run/build.mjs'
import { ensureTestPackages, findChromium } from './run/chromium.mjs'
import { ensureInstalled, node, root } from './run/install.mjs'

ensureInstalled()
const bin = (name) => join(root, 'node_modules', '.bin', name)
const path = `${join(root, 'node_modules', '.bin')}:${process.env.PATH}`
let passed = 0
let failed = 0
const step = (title, program, args, env = {}) => {
  const begun = Date.now()
  console.log(`\n— ${title}`)
  const ended = spawnSync(program, args, { cwd: root, stdio: 'inherit', env: { ...process.env, PATH: path, ...env } })
  const ok = ended.status === 0
  console.log(`  ${title}: ${ok ? 'ok' : 'FAILED'} in ${((Date.now() - begun) / 1000).toFixed(1)} s`)
  return ok
}
const count = (ok) => (ok ? (passed += 1) : (failed += 1))

count(step('types', bin('tsc'), ['-p', 'tsconfig.json']))
count(step('lint', bin('oxlint'), ['--type-aware', '--deny-warnings']))
count(step('format', bin('oxfmt'), ['--check', '.']))
count(step('arrows', node, ['scripts/arrows.mjs']))
ensureBuilt()
const browser = ensureTestPackages() && findChromium()

const out = mkdtempSync(join(tmpdir(), 'forcemeat-test-'))
const report = join(out, 'report.json')
const ran = step(
  'tests',
  node,
  ['node_modules/vitest/vitest.mjs', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
  {
    FORCEMEAT_CHROMIUM: browser || '',
  },
)
try {
  const { numPassedTests, numFailedTests, numFailedTestSuites } = JSON.parse(readFileSync(report, 'utf8'))
  passed += numPassedTests
  failed += numFailedTests
  // A file that could not even be collected has no failed test of its own.
  if (!ran && numFailedTests === 0) failed += Math.max(1, numFailedTestSuites)
} catch {
  failed += 1
}
rmSync(out, { recursive: true, force: true })
if (!browser) {
  console.error('forcemeat: no Chromium, so the browser tests did not run; that counts as a failure.')
  failed += 1
}
console.log(`\n${passed} passed, ${failed} failed`)
process.exit(failed === 0 ? 0 : 1)
