import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** Root of the checkout. */
export const root = fileURLToPath(new URL('../..', import.meta.url))

/** The Node that the lock file pins; whatever Node npm itself runs on only has to be able to start this script. */
export const node = join(root, 'node_modules', '.bin', 'node')

const stamp = join(root, 'node_modules', '.forcemeat-installed')
const lockHash = () =>
  createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')

/** Run a program to its end with its output shown; stop with its exit code where it fails. */
export function must(program, args, options = {}) {
  const ended = spawnSync(program, args, { cwd: root, stdio: 'inherit', ...options })
  if (ended.error) {
    console.error(`forcemeat: could not run ${program}: ${ended.error.message}`)
    process.exit(1)
  }
  if (ended.status !== 0) process.exit(ended.status ?? 1)
}

/** Install what the lock file names, once for each state of the lock file. */
export function ensureInstalled() {
  const wanted = lockHash()
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted && existsSync(node)) return
  console.error('forcemeat: installing what the lock file names (npm ci), once…')
  must('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'])
  mkdirSync(join(root, 'node_modules'), { recursive: true })
  writeFileSync(stamp, wanted)
}
