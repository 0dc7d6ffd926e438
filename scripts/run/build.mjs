import { existsSync, readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { must, node, root } from './install.mjs'

const newest = (path) => {
  const stat = statSync(path)
  if (!stat.isDirectory()) return stat.mtimeMs
  return readdirSync(path).reduce(
    (t, name) => (name === 'node_modules' || name === 'dist' ? t : Math.max(t, newest(join(path, name)))),
    0,
  )
}

/** Build the workbench where its sources, or those it shares, are newer than the last build. */
export function ensureBuilt() {
  const built = join(root, 'packages/web/dist/index.html')
  const sources = ['packages/web', 'packages/craft', 'packages/rulebook', 'package-lock.json'].map((p) =>
    newest(join(root, p)),
  )
  if (existsSync(built) && statSync(built).mtimeMs >= Math.max(...sources)) return
  console.error('forcemeat: building the workbench…')
  must(node, [join(root, 'node_modules/vite/bin/vite.js'), 'build', 'packages/web', '--logLevel', 'warn'])
}
